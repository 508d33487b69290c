"""Questions on wheels: what makes one climb its chock, and whether it climbs, slides or stays."""

from walkaround import measures
from walkaround.assessment.builders import choice, number
from walkaround.lessons.securing.questions.wind import MORROWLARK, force
from walkaround.physics.securing import chock_force

RADIUS = MORROWLARK.dimensions.main_wheel_radius
GRIP = {"dry asphalt": 0.7, "wet asphalt": 0.5, "ice": 0.1}  # rules of thumb (recalled)
_SLIPS = (
    ("stays", "limits not compared", "Work out both limits: the push is larger than the smaller of them."),
    ("slides", "grip taken for too small", "Work out both limits: is the grip the smaller one, and too small?"),
    ("climbs", "chock taken for too low", "Work out both limits: is the chock the smaller one, and too low?"),
)
CLEAR = 1.15  # how much one must be above the other for the answer to be clear


def questions(v):
    """Questions on wheels for a student's draws `v`."""
    return _chock(v), _goes(v)


def _chock(v):
    load, high = force(v.number("on the mains", 900, 1300, 10)), v.pick("chock", (1.0, 1.5, 2.0, 2.5, 3.0))
    radius, high = (measures.given(inches, "in", 1, metric=2) for inches in (RADIUS, high))
    inside, up = round(2 * radius * high - high * high, 2), round(radius - high, 2)
    root = round(inside**0.5, 3)
    answer, unit, length = float(chock_force(load, radius, high)), measures.unit("lbf"), measures.unit("in")
    return number(
        "chock",
        "Over the chock",
        f"The two main wheels of the Morrowlark, {radius:g} {length} from axle to ground, carry {load:,.0f} {unit} "
        f"between them and stand against chocks {high:g} {length} high. Which push along the ground, "
        "at the axles, just makes them climb?",
        answer=answer,
        unit=unit,
        tolerance=round(0.012 * answer, 1),
        points=3,
        hint="Moments about the chock's edge, with radius r and height h: push × (r − h) = load × √(2 × r × h − h × "
        "h).",
        worked=(
            f"2 × {radius:g} × {high:g} − {high:g} × {high:g} = {inside:.2f}",
            f"√{inside:.2f} = {root:.3f} {length}",
            f"{load:,.0f} × {root:.3f} ÷ ({radius:g} − {high:g}) = {load * root / up:,.0f} {unit}",
        ),
        wrong=[
            (load * high / up, "height for the level lever", "The load's lever is level: √(2 × r × h − h × h), not h."),
            (load * inside**0.5 / radius, "whole radius as lever", "The push acts r − h above the chock's edge."),
            (load * inside / up, "root forgotten", "You left out the root."),
            (load * up / inside**0.5, "turned round", "You divided the wrong way round."),
        ],
    )


def _goes(v):
    load, push = force(v.number("light mains", 240, 500, 10)), force(v.number("push", 90, 330, 10))
    ground, high = v.pick("ground", tuple(GRIP)), v.pick("low chock", (0.5, 1.0, 2.0))
    radius, high = (measures.given(inches, "in", 1) for inches in (RADIUS, high))
    grip, climb, unit = GRIP[ground] * load, float(chock_force(load, radius, high)), measures.unit("lbf")
    low, upper = sorted((grip, climb))
    clear = measures.chosen() or (upper > CLEAR * low and not low / CLEAR < push < low * CLEAR)  # drawn in lb
    answer = "" if not clear else "stays" if push < low else "slides" if grip < climb else "climbs"
    share = round(climb / load, 3)
    options = {"stays": "It stays where it is", "slides": "It slides, chocks and all", "climbs": "It climbs its chocks"}
    told = {
        "stays": "Both limits are larger than the push.",
        "slides": "The grip is the smaller limit, and the push is larger than it.",
        "climbs": "The chock is the smaller limit, and the push is larger than it.",
    }
    return choice(
        "goes",
        "Slides, climbs or stays",
        f"There are no ropes, and the lift of a gust has left {load:,.0f} {unit} on the two main wheels. The gust "
        f"pushes the Morrowlark aft with {push:,.0f} {unit}. It stands on {ground}, where tyres and chocks grip with "
        f"{GRIP[ground]:g} of the load (a rule of thumb), against chocks {high:g} {measures.unit('in')} high, which "
        f"its wheels climb at {share:.3f} of the load. What happens?",
        answer=answer,
        options=v.shuffled("goes options", options.items()),
        points=2,
        hint="Two limits: grip and chock. Which is smaller, and is the push larger than that?",
        worked=(
            f"grip: {GRIP[ground]:g} × {load:,.0f} = {grip:,.0f} {unit}",
            f"chock: {share:.3f} × {load:,.0f} = {share * load:,.0f} {unit}",
            f"push: {push:,.0f} {unit}. {told.get(answer, '')}",
        ),
        wrong=[row for row in _SLIPS if row[0] != answer],
    )
