"""Live demonstrations of pitot and static: the three instruments, a take-off roll with the cover on; flights are beside it."""

import numpy as np

from walkaround import aircraft
from walkaround.aircraft.airfield import airfield
from walkaround.lessons.pitot_static.picture import InstrumentsPicture
from walkaround.lessons.pitot_static.roll_picture import RollPicture
from walkaround.live.stage import Stage, Worked, choice, slider, switch
from walkaround.live.status import NOTE, OK, STOP
from walkaround.physics.air import takeoff as rolling
from walkaround.physics.pitot_static import words as symptoms
from walkaround.physics.pitot_static.instruments import Openings, indications
from walkaround.physics.pitot_static.line_lag import time_constant_s
from walkaround.physics.pitot_static.over_flight import Blockage, indications_over
from walkaround.units import INHG_HPA

CAUTION = (
    "A training aid with an invented aircraft; the handbook of the real one comes first. At the aircraft treat the "
    "propeller as live, and keep your hand off a pitot head whose heat has been on: it burns."
)
COVER_HOLES_MM, COVER_VOLUME_ML = (2.0, 50.0)  # how thick the cover is, and the volume of the line behind it; invented


def dials(name="morrowlark_four"):
    """Return the three instruments beside the truth, for a demo aircraft's name or the path of an aircraft file."""
    craft = aircraft.with_sections(name, "speeds")
    field_ft, fastest = airfield().elevation_ft, 5 * np.ceil(craft.speeds.vne / 5)
    controls = {
        "_truth": "What the aircraft really does",
        "altitude": slider("pressure altitude", "ft", 0, 10000, 3000, 100),
        "speed": slider("airspeed", "kt", 0, fastest, round(craft.speeds.climb), 1, "calibrated airspeed, kt"),
        "climb": slider("climb", "ft/min", -1500, 1500, 500, 50),
        "_openings": "Openings",
        "inlet": switch("pitot inlet blocked"),
        "drain": switch("pitot drain blocked"),
        "static": switch("static port blocked"),
        "alternate": switch("alternate static source open to the cabin"),
        "_blocked": "Where they were blocked",
        "blocked_ft": slider("blocked at", "ft", 0, 10000, field_ft, 100),
        "blocked_kt": slider("blocked at speed", "kt", 0, fastest, 0, 1),
        "_more": "Altimeter and cabin",
        "setting": slider("altimeter set", "inHg", 28.0, 31.0, 29.92, 0.01, "altimeter setting, inHg"),
        "cabin": slider(
            "cabin lower by",
            "hPa",
            0.0,
            5.0,
            airfield().plan.cabin_below_hpa,
            0.1,
            "cabin pressure below the outside, hPa",
        ),
    }

    def work(v):
        openings = Openings(not v["inlet"], not v["drain"], not v["static"])
        # 29.92 on the altimeter's scale stands for the standard setting, which has two more digits.
        standard = round(v["setting"], 2) == 29.92
        setting_hpa = symptoms.STANDARD_SETTING_HPA if standard else v["setting"] * INHG_HPA
        truth = v["altitude"], v["speed"]
        common = {"climb_fpm": v["climb"], "setting_hpa": setting_hpa}
        shown = indications(
            *truth, openings, v["blocked_ft"], v["blocked_kt"],
            alternate_open=v["alternate"], cabin_below_hpa=v["cabin"], **common,
        )  # fmt: skip
        right = indications(*truth, Openings(), **common)
        alternate = v["alternate"]
        return Worked((openings, shown, right, alternate), (openings, shown, alternate, truth, common))

    def say(said):
        openings, shown, alternate, truth, common = said
        words = symptoms.sentence(openings, shown, *truth, common["climb_fpm"], False, alternate, common["setting_hpa"])
        if not words.startswith(symptoms.ALL_RIGHT):
            return STOP, words
        return (OK if openings == Openings() else NOTE), words

    return Stage(
        f"{craft.name}: block an opening and read the instruments",
        controls,
        InstrumentsPicture(craft.speeds.arcs),
        work,
        say,
        _situations(craft, field_ft),
        CAUTION,
    )


def _situations(craft, field_ft):
    """Ready-made situations: what the aircraft does, what is blocked, and where that happened."""
    climb, cruise, approach = (round(getattr(craft.speeds, n)) for n in ("climb", "cruise", "approach"))
    names = ("altitude", "speed", "climb", "inlet", "drain", "static", "alternate", "blocked_ft", "blocked_kt")
    rows = {
        "all clear, climbing": (3000, climb, 500, False, False, False, False, field_ft, 0),
        "pitot cover left on, just airborne": (field_ft + 200, climb, 500, True, False, False, False, field_ft, 0),
        "inlet and drain iced up at 3,000 ft, now at 5,000 ft": (5000, climb, 300, True, True, False, False, 3000, climb),
        "static port taped over, climbing": (2000, climb, 500, False, False, True, False, field_ft, 0),
        "static port iced up at 5,000 ft, descending": (3500, approach, -500, False, False, True, False, 5000, cruise),
        "alternate source open in cruise": (4000, cruise, 0, False, False, True, True, 4000, cruise),
        "all three iced up, descending": (2500, cruise, -500, True, True, True, False, 4000, cruise),
    }  # fmt: skip
    return {name: dict(zip(names, row, strict=True)) for name, row in rows.items()}


NO_COVER, SOLID, POROUS = "no cover", "solid cover over the inlet", "porous sleeve over the pitot tube"


def takeoff_roll(name="morrowlark_four"):
    """Return the take-off roll with the cover on, for a demo aircraft's name or the path of an aircraft file."""
    craft = aircraft.with_sections(name, "speeds", "take_off")
    field, speeds, stopping = airfield(), craft.speeds, craft.take_off
    longest_ft = 500 * np.ceil(3.4 * stopping.ground_roll_ft(craft.units) / 500)
    controls = {
        "cover": choice("on the pitot tube", [NO_COVER, SOLID, POROUS], SOLID),
        "holes_mm": slider("sleeve's hole", "mm", 0.02, 0.2, 0.08, 0.01, "width of the hole in the porous sleeve, mm"),
        "_day": "The field and the day",
        "field_ft": slider("pressure altitude", "ft", -500, 7000, field.elevation_ft, 100),
        "outside_c": slider("outside", "°C", -20, 40, 15, 1),
        "headwind_kt": slider("headwind", "kt", -5, 25, 0, 1),
        "runway_ft": slider("runway", "ft", 1000, longest_ft, field.runway_ft, 50),
        "_decision": "The decision",
        "later_s": slider("rejected later", "s", 1, 15, 10, 1, "seconds between the call and a later rejection"),
    }

    def work(v):
        roll = rolling.takeoff_roll(
            stopping.ground_roll_ft(craft.units), speeds.lift_off, v["field_ft"], v["outside_c"], v["headwind_kt"]
        )  # fmt: skip
        along = rolling.as_flight(roll)
        covered = indications_over(along, _cover(v["cover"], v["holes_mm"])).airspeed_kt
        call_s = float(rolling.alive_s(roll, speeds.first_mark))
        decided = np.array([call_s, call_s + v["later_s"]])
        names = ("at the call", f"{v['later_s']} s later")
        stops = [
            (n, rolling.rejected(roll, t, v["runway_ft"], stopping.deceleration_kt_s, stopping.reaction_s))
            for n, t in zip(names, decided, strict=True)
        ]
        both = roll, (along.time_s, covered), v["runway_ft"], speeds.first_mark, call_s, stops
        return Worked(both, both)

    def say(said):
        roll, (times, readings), runway_ft, mark, call_s, stops = said
        call_ft, (now, later) = rolling.distance_at_ft(roll, call_s), (stop for _, stop in stops)
        if roll.ground_roll_ft > runway_ft:
            return STOP, (
                f"The roll to lift-off takes {roll.ground_roll_ft:,.0f} ft and the runway has {runway_ft:,.0f} ft: no "
                "take-off here today, covered or not. The aircraft's handbook has its own table."
            )
        reading = float(np.interp(call_s, times, readings))
        place = f"{call_s:.0f} s and {call_ft:,.0f} ft after brakes off"
        if abs(reading - mark) < symptoms.RIGHT_WITHIN_KT:
            return OK, (
                f"Airspeed alive: the needle reaches its first mark, {mark:.0f} kt, {place}. Rejected there, the "
                f"aircraft would stop after {now.stop_ft:,.0f} ft of {runway_ft:,.0f} ft."
            )
        return STOP, (
            f"A clear needle would show {mark:.0f} kt by now, {place}; this one shows {reading:.0f} kt. Reject now and the aircraft "
            f"{_ends(now)}; {later.decided_s - now.decided_s:.0f} s later{_past(later)} it {_ends(later)}. The call "
            "“airspeed alive” comes at the first mark; the aircraft's handbook comes first."
        )

    return Stage(
        f"{craft.name} at {field.name}: the take-off roll with the cover on",
        controls,
        RollPicture(longest_ft, 10 * np.ceil(1.35 * speeds.lift_off / 10)),
        work,
        say,
        caution=CAUTION,
    )


def _cover(kind, holes_mm):
    """How the openings stand under a cover on the pitot tube, from brakes off on."""
    if kind == NO_COVER:
        return Blockage()
    if kind == SOLID:
        return Blockage(pitot_lag_s=np.inf)
    # A sleeve closes the drain too, and lets air creep in through its hole.
    return Blockage(pitot_lag_s=float(time_constant_s(holes_mm, COVER_HOLES_MM, COVER_VOLUME_ML)), drain_lag_s=np.inf)


def _ends(stop):
    if stop.fits:
        return f"stops with {stop.runway_left_ft:,.0f} ft of runway left"
    return f"runs {-stop.runway_left_ft:,.0f} ft off the end"


def _past(stop):
    return ", past lift-off speed," if stop.past_lift_off else ""
