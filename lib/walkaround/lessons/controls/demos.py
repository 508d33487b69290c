"""Live demonstration of the control check: hands and feet move drawn surfaces, and a fault may be hidden in them."""

from walkaround import aircraft
from walkaround.lessons.controls import words
from walkaround.lessons.controls.faults import fault_of, hidden
from walkaround.lessons.controls.picture import ControlsPicture, Shown
from walkaround.lessons.controls.tail import Tail
from walkaround.live.controls import choice, count, slider, switch
from walkaround.live.stage import Stage, Worked
from walkaround.live.status import NOTE, OK, STOP
from walkaround.live.units_choice import in_chosen_units
from walkaround.physics.controls import FAULTS, Hands, linkage, positions, travel

HIDDEN, UNDECIDED = "hidden, by number", "not yet"
STILL = {"roll": 0, "pitch": 0, "yaw": 0, "trim": 0, "flap": 0.0}
SECTIONS = ("dimensions", "control_surfaces", "speeds")


@in_chosen_units
def demo(name="morrowlark_four"):
    """Return the live demonstration for a demo aircraft's name, or for the path of an aircraft file."""
    craft = aircraft.with_sections(name, *SECTIONS)
    section, tail = craft.control_surfaces, Tail(craft)
    rigging, held = section.rigging, section.held
    number, reveal = count("aircraft number", 1, 1, 999), switch("show what is wrong")
    finding = choice("what you find", [UNDECIDED, *FAULTS])

    def begin_anew(_change):
        # The next fault must not be seen, so the last one's answer goes away before anything is drawn.
        reveal.value, finding.value = False, UNDECIDED

    number.observe(begin_anew, "value")
    percent = ("%", -100, 100, 0, 10)
    flaps = [(f"{s:g}°" if s else "up", s) for s in section.flap.settings_deg]
    controls = {
        "_hands": "Hands and feet",
        "roll": slider(f"{held} left − right", *percent, f"{held} right, %; left below 0"),
        "pitch": slider(f"{held} forward − back", *percent, f"{held} back, %; forward below 0"),
        "yaw": slider("pedals left − right", *percent, "right pedal, %; left below 0"),
        "trim": slider("trim nose down − up", *percent, "trim to nose up, %; nose down below 0"),
        "flap": choice("flaps", flaps, 0.0),
        "_aircraft": "The aircraft",
        "fault": choice("what is wrong", [HIDDEN, *FAULTS]),
        "number": number,
        "finding": finding,
        "reveal": reveal,
    }

    def work(values):
        kind = values["fault"]
        fault = hidden(values["number"]) if kind == HIDDEN else fault_of(kind)
        hands = _hands(values)
        there = positions(rigging, hands, fault)
        shown = Shown(there, hands.yaw, hands.trim, told=f"no. {values['number']}" if kind == HIDDEN else "")
        return Worked(shown, (values, fault, there))

    def say(said):
        values, fault, there = said
        moved, where = words.held_words(values, held), words.surface_words(there)
        stuck = f"The {held} does not move." if _stuck(values, there) else ""
        if values["fault"] == HIDDEN and not values["reveal"]:
            found = "" if values["finding"] == UNDECIDED else f"You say: {values['finding']}."
            asks = f"Aircraft {values['number']}, {moved}. Free, the right way, full travel?"
            return NOTE, asks, stuck, found, where, _tape(section, craft.units, there)
        verdict = OK if fault.kind == linkage.NOTHING else STOP
        said = "" if values["finding"] == UNDECIDED else _judged(values["finding"], fault)
        seen = "" if _shows(rigging, values, fault, there) else "As the controls stand, nothing shows it."
        if fault.kind == linkage.ELEVATOR_SHORT:
            notes = said, words.cost_words(tail.cost(fault.missing_deg), tail), seen, words.HOW_SEEN[fault.kind]
        else:
            notes = said, seen, words.HOW_SEEN[fault.kind], where
        return verdict, words.fault_words(fault, held), *notes, _tape(section, craft.units, there)

    title = f"{craft.name}: free, the right way, full travel"
    return Stage(title, controls, ControlsPicture(craft), work, say, _presets(section), words.CAUTION)


def _hands(values):
    return Hands(*(values[name] / 100 for name in ("roll", "pitch", "yaw", "trim")), values["flap"])


def _stuck(values, there):
    return (values["roll"] and not there.roll) or (values["pitch"] and not there.pitch)


def _judged(finding, fault):
    return f"You found it: {finding}." if finding == fault.kind else f"You said: {finding}. It is not that."


def _shows(rigging, values, fault, there):
    """Whether anything stands where it should not."""
    right, found = vars(positions(rigging, _hands(values))), vars(there)
    differs = any(abs(float(right[name]) - float(found[name])) > 1.0 for name in right)
    return fault.kind == linkage.NOTHING or differs or _stuck(values, there)


def _tape(section, units, there):
    """What a tape measure says of the elevator."""
    chord, limit, allowed = section.elevator.chord, section.elevator.up_deg, section.tolerance_deg
    if there.elevator <= 0:
        return ""
    here, low, high = (float(travel(chord, a)) for a in (there.elevator, limit - allowed, limit + allowed))
    scale, unit, digits = (1, "in", 1) if units.arm == "in" else (1000, "mm", 0)
    reads, low, high = (f"{scale * v:.{digits}f}" for v in (here, low, high))
    return f"Tape at the elevator: {reads} {unit} from neutral; full up is {low} to {high}."


def _presets(section):
    """Ready-made situations: each fault with the controls where it shows, and one where it does not."""
    flap = section.flap.settings_deg[-1]
    shows = {
        linkage.AILERONS_CROSSED: {"roll": 100}, linkage.AILERON_LOOSE: {"roll": 100},
        linkage.ELEVATOR_REVERSED: {"pitch": 100}, linkage.ELEVATOR_SHORT: {"pitch": 100},
        linkage.RUDDER_REVERSED: {"yaw": 100}, linkage.TAB_REVERSED: {"trim": 100}, linkage.FLAP_LAGS: {"flap": flap},
        linkage.LOCKED: {"roll": 100, "pitch": 100},
    }  # fmt: skip
    usual = {**STILL, "finding": UNDECIDED, "reveal": False}
    rows = {
        "find the fault: aircraft 1": {"fault": HIDDEN, "number": 1},
        "as it should be": {"fault": linkage.NOTHING, "roll": 100, "pitch": 100, "yaw": 100, "trim": 100},
        **{kind: {"fault": kind, **moved} for kind, moved in shows.items()},
        "elevator short of travel, half back": {"fault": linkage.ELEVATOR_SHORT, "pitch": 50},
    }
    return {text: {**usual, **row} for text, row in rows.items()}
