"""Questions on what the gauges mean: why a run-up shows nothing, what is wrong in a climb, what to do, the steps."""

from walkaround.assessment.builders import choice, choices, order
from walkaround.lessons.cooling.questions.givens import BOTH_SIDES_MINUTES, KIT, MINUTES, PLUG, PROBE, WELL


def questions(v, g):
    """Questions on what the gauges mean, for a student's draws `v` and `Givens` `g`."""
    return _run_up(v, g), _which(v, g), _statements(v, g), _flight(v, g), _steps(v)


def _run_up(v, g):
    there, clear = g.both_sides.at(0.0), g.both_sides.clear.at(0.0)
    seen, limit = g.section.gauge_on, g.section.head_limit_c
    options = (
        ("short", "It was short, at little power: the heads were still warming up"),
        ("no air", "Standing still, no air goes through the cowl anyway, plug or no plug"),
        ("gauge", "The gauge is broken: it would have to show such a plug at once"),
        ("enough", "One intake is enough for the engine, on the ground and in the climb"),
    )
    return choice(
        "run-up",
        "Why the run-up showed nothing",
        f"With the {g.unseen} intake blocked, {g.both_sides.plan.taxi_min:.0f} minutes of taxi and a minute of run-up, "
        f"the gauge shows {there[seen]:.0f} °C; the limit is {limit:.0f} °C. With both intakes clear it would show "
        f"{clear[seen]:.0f} °C. Why does the run-up not give the plug away?",
        answer="short",
        options=v.shuffled("run-up", options),
        points=2,
        hint="Where does the heat go in the first minutes, before the air takes it away?",
        worked="It takes minutes and power for heads to settle. A run-up has neither, so everything still looks green.",
        wrong=[
            ("no air", "propeller forgotten", "The propeller blows air through the cowl: that air is missing."),
            ("gauge", "gauge blamed", "The gauge shows what its heads have. They are just not hot yet."),
            ("enough", "run-up taken for proof", "A climb brings several times the heat, for as long as it lasts."),
        ],
    )


def _which(v, g):
    options = (
        (WELL, "Nothing: both are what they were, within what a gauge can be read to"),
        (PLUG, "Something is in the intake on the gauge's side: the heads are much too hot, the oil less so"),
        (KIT, "The winter kit is on: the oil is much too hot, the heads only a little"),
        (PROBE, "The heads' probe: it shows about the outside temperature, and the oil is as always"),
    )
    says = {
        WELL: (PLUG, "alarmed by a degree", "A degree or two is what a gauge can be read to. Is there more?"),
        PLUG: (KIT, "heads and oil mixed up", "Which of the two is farther from last week, heads or oil?"),
        KIT: (PLUG, "heads and oil mixed up", "Which of the two is farther from last week, heads or oil?"),
        PROBE: (WELL, "cool taken for well", "Heads that stay cool at full power: can that be?"),
    }
    heads, oil = (today - before for before, today in zip(g.before[-1], g.today[-1], strict=True))
    table = (
        ("minute of the climb", "heads last week", "heads today", "oil last week", "oil today"),
        *(
            (f"{m}", *(f"{t:.0f} °C" for t in (a[0], b[0], a[1], b[1])))
            for m, a, b in zip(MINUTES, g.before, g.today, strict=True)
        ),
    )
    return choice(
        "which",
        "What is wrong here?",
        "The same climb at the same power, on days of the same temperature: last week, when all was well, and today. "
        "What is wrong today?",
        answer=g.kind if _clear(g.kind, heads, oil) else "unclear",
        options=v.shuffled("which", options),
        points=3,
        table=table,
        hint="Take last week's from today's, heads and oil, in the last row. Which of them is farther off?",
        worked=f"After {MINUTES[-1]} minutes the heads differ by {heads:.0f} °C, the oil by {oil:.0f} °C. "
        f"{dict(options)[g.kind]}.".replace("-", "−"),
        wrong=[says[g.kind]],
    )


def _clear(kind, heads, oil):
    """Whether the last row leaves no doubt."""
    return {
        WELL: abs(heads) < 4 and abs(oil) < 4,
        PLUG: heads > 25 and heads > 1.6 * oil,
        KIT: oil > 18 and oil > 1.3 * heads,
        PROBE: True,
    }[kind]


def _statements(v, g):
    limit, oil_limit = g.section.head_limit_c, g.craft.engine.oil_limit_c
    asked = v.pick("asked minute", (2, 3, 4, 6))
    row = dict(zip(BOTH_SIDES_MINUTES, g.rows, strict=True))
    hottest = [max(r[i] for r in g.rows) for i in range(3)]
    more = v.pick("apart", (15, 25, 35))
    apart = row[asked][1] - row[asked][0]
    is_so = {
        "apart": (f"After {asked} minutes the two sides are more than {more} °C apart", apart > more),
        "unseen": (f"After {asked} minutes the heads on the {g.unseen} are past their limit", row[asked][1] > limit),
        "gauge": ("Somebody who watches the gauge sees its red line passed within 8 minutes", hottest[0] > limit),
        "oil": ("Within 8 minutes the oil is past its limit", hottest[2] > oil_limit),
        "ready": ("When take-off power came on, nothing was past a limit", True),
        "hottest": ("The gauge shows the hottest heads", False),
    }
    right = frozenset(k for k, (_, so) in is_so.items() if so)
    near = (row[asked][1] - limit, hottest[0] - limit, hottest[2] - oil_limit, apart - more)
    if min(map(abs, near)) < 2:
        right = frozenset()  # a question of a degree
    table = (
        ("minute of the climb", f"{g.section.gauge_on} heads (gauge)", f"{g.unseen} heads", "oil"),
        *((f"{m}", *(f"{t:.0f} °C" for t in r)) for m, r in row.items()),
    )
    return choices(
        "statements",
        "What the gauge can't see",
        f"A climb with something in the {g.unseen} intake. For once both sides have a probe; in this aircraft only the "
        f"{g.section.gauge_on} side has one. The limits stand at the head of the exercise. Choose everything that "
        "is true.",
        answer=right,
        options=v.shuffled("statements", [(k, text) for k, (text, _) in is_so.items()]),
        points=3,
        table=table,
        hint="Read each column against its own limit.",
        worked=tuple(f"{text}: {'yes' if so else 'no'}" for text, so in is_so.values()),
        wrong=[
            (right | {"hottest"}, "gauge taken for every head", "The gauge has one probe. Look at the other column."),
            (right - {"ready"}, "run-up not read", "Look at minute 0: that is when take-off power came on.")
            if len(right) > 1
            else None,
        ],
    )


def _flight(v, g):
    short_of = v.pick("short of", (3, 5, 8))
    options = (
        ("cool", "Lower the nose, less power, mixture as the aircraft's handbook says"),
        ("steep", "Raise the nose: the sooner the climb is over, the better"),
        ("lean", "Lean the mixture, so that less fuel is burnt"),
        ("wait", "Go on as long as the oil is in the green: heads can take more than oil"),
    )
    return choice(
        "flight",
        "Near the red line",
        f"{v.number('after', 2, 5)} minutes into the climb the heads stand {short_of} °C below their limit "
        "and rise. What do you do first?",
        answer="cool",
        options=v.shuffled("flight", options),
        points=2,
        hint="What makes less heat, and what brings more air?",
        worked="More speed drives more air through the cowl, less power makes less heat. Then land and find out why.",
        wrong=[
            ("steep", "less speed", "A steeper climb is slower: less air at the same heat."),
            ("lean", "hotter mixture", "At high power a leaner mixture burns hotter: fuel that is left over cools."),
            ("wait", "oil for heads", "Each has a limit of its own, and heads get there first."),
        ],
    )


def _steps(v):
    steps = (
        ("book", "Read in the aircraft's handbook what it says of plugs, winter kit and limits"),
        ("safe", "Ignition off, key out, and keep clear of the propeller all the same"),
        ("pull", "Pull the plugs and covers, count them, stow them"),
        ("look", "Look into both intakes with a torch, all the way to the back, and at the oil cooler"),
        (
            "out",
            "Take out what is in there, to the last straw; where you can't see all of it, a mechanic opens the cowl",
        ),
        ("run-up", "After the start, compare heads and oil with what they usually are at the run-up"),
        ("climb", "In the climb, watch both: if one is not as usual, less power, and back to land"),
    )
    before_key = "Your arm is in the propeller's arc when you reach into an intake: the ignition comes first."
    not_seen = "You can't look behind a plug. Pull it, then look."
    return order(
        "steps",
        "From the book to the climb",
        "Put the steps in the order in which they are safe and make sense.",
        steps=steps,
        shown=v.shuffled("steps", steps),
        points=2,
        hint="What must you know, what must be safe, and what must be out of the way before you look?",
        wrong=[
            (("book", "pull", "safe", "look", "out", "run-up", "climb"), "ignition after the plugs", before_key),
            (("book", "safe", "look", "pull", "out", "run-up", "climb"), "looked before the plugs were out", not_seen),
        ],
    )
