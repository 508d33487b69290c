"""The live demonstration of a take-off roll with the cover on: where the needle comes alive, and where a stop ends."""

import numpy as np

from walkaround import aircraft, measures
from walkaround.aircraft.airfield import airfield
from walkaround.lessons.pitot_static.demos import CAUTION
from walkaround.lessons.pitot_static.roll_picture import Ending, RollPicture, whole
from walkaround.live.controls import Control, choice, slider
from walkaround.live.stage import Stage, Worked
from walkaround.live.status import NOTE, OK, STOP
from walkaround.live.units_choice import in_chosen_units
from walkaround.physics.air import takeoff as rolling
from walkaround.physics.pitot_static import Blockage, indications_over, time_constant_s
from walkaround.physics.pitot_static.words import AIRSPEED

COVER_HOLES_MM, COVER_VOLUME_ML = 2.0, 50.0  # how thick the cover is, and the volume of the line behind it; invented
NO_COVER, SOLID, POROUS = "no cover", "solid cover over the inlet", "porous sleeve over the pitot tube"
_RUNWAY_STEP = {"ft": 50, "m": 10}  # of its slider


@in_chosen_units
def takeoff_roll(name="morrowlark_four"):
    """Return the take-off roll with the cover on, for a demo aircraft's name or the path of an aircraft file.

    >>> made = takeoff_roll()
    >>> made.set(cover=NO_COVER)
    >>> made.verdict, made.words[:63]
    ('ok', 'Airspeed alive: the needle reaches its first mark, 40 kt, 16 s ')
    """
    craft = aircraft.with_sections(name, "speeds", "take_off")
    field, speeds, stopping = airfield(), craft.speeds, craft.take_off
    standard_ft = stopping.ground_roll_ft(craft.units)
    unit, step = measures.unit("ft"), _RUNWAY_STEP[measures.unit("ft")]

    def on_step(feet, to=round):
        return int(step * to(measures.value(feet, "ft") / step))

    ends = on_step(1000, np.floor), on_step(500 * np.ceil(3.4 * standard_ft / 500), np.ceil)
    controls = {
        "cover": choice("on the pitot tube", [NO_COVER, SOLID, POROUS], SOLID),
        "holes_mm": slider("sleeve's hole", "mm", 0.02, 0.2, 0.08, 0.01, "width of the hole in the porous sleeve, mm"),
        "_day": "The field and the day",
        "field_ft": slider("pressure altitude", "ft", -500, 7000, field.elevation_ft, 100),
        "outside_c": slider("outside", "°C", -20, 40, 15, 1),
        "headwind_kt": slider("headwind", "kt", -5, 25, 0, 1),
        "runway": slider("runway", unit, *ends, on_step(field.runway_ft), step),
        "_decision": "The decision",
        "later_s": slider("rejected later", "s", 1, 15, 10, 1, "seconds between the call and a later rejection"),
    }

    def work(v):
        roll = rolling.takeoff_roll(standard_ft, speeds.lift_off, v["field_ft"], v["outside_c"], v["headwind_kt"])
        along = rolling.as_flight(roll)
        covered = indications_over(along, _cover(v["cover"], v["holes_mm"])).airspeed_kt
        call_s = float(rolling.alive_s(roll, speeds.first_mark))
        decided = {"at the call": call_s, f"{v['later_s']} s later": call_s + v["later_s"]}
        braking = measures.entered(v["runway"], "ft"), stopping.deceleration_kt_s, stopping.reaction_s
        endings = [
            Ending.of(when, rolling.rejected(roll, at_s, *braking), v["runway"]) for when, at_s in decided.items()
        ]
        both = roll, (along.time_s, covered), v["runway"], speeds.first_mark, call_s, endings
        return Worked(both, (*both, v["cover"] == NO_COVER))

    def say(said):
        roll, (times, readings), runway, mark, call_s, (now, later), bare = said
        lifts_off = whole(roll.ground_roll_ft)
        if lifts_off > runway:
            return (
                STOP,
                f"The roll to lift-off takes {lifts_off:,} {unit} or more and the runway has {runway:,} {unit}: no "
                "take-off here today, covered or not.",
                "The aircraft's handbook has its own table.",
            )
        reading = float(np.interp(call_s, times, readings))
        place = f"{call_s:.0f} s and {now.decided:,} {unit} after brakes off"
        if AIRSPEED.wrong(reading, mark):
            past = ", past lift-off speed," if later.past_lift_off else ""
            return (
                STOP,
                f"A clear needle would show {AIRSPEED.written(mark)} by now, {place}; this one shows "
                f"{AIRSPEED.written(reading)}.",
                f"Reject now and the aircraft {now.words}; {later.when}{past} it {later.words}. The call “airspeed "
                "alive” comes at the first mark; the aircraft's handbook comes first.",
            )
        alive = f"Airspeed alive: the needle reaches its first mark, {AIRSPEED.written(mark)}, {place}"
        if not now.fits:
            return (
                STOP,
                "This runway is too short to stop on: a roll rejected at the call would end after "
                f"{now.stop:,} {unit}, {-now.left:,} {unit} beyond its end.",
                f"{alive}.",
            )
        stops = f"Rejected there, the aircraft would stop after {now.stop:,} {unit} of {runway:,} {unit}."
        return (OK, f"{alive}.", stops) if bare else (NOTE, f"{alive}, though the sleeve is still on.", stops)

    title = f"{craft.name} at {field.name}: the take-off roll with the cover on"
    picture = RollPicture(10 * np.ceil(1.35 * speeds.lift_off / 10))
    usual = {name: c.value for name, c in controls.items() if isinstance(c, Control)}
    presets = {
        "cover on": usual,
        "no cover, airspeed alive": {**usual, "cover": NO_COVER},
        "a high field": {**usual, "field_ft": 5500, "cover": NO_COVER, "runway": on_step(3000)},
    }
    return Stage(title, controls, picture, work, say, presets, CAUTION)


def _cover(kind, holes_mm):
    """How the openings stand under a cover on the pitot tube, from brakes off on."""
    if kind == NO_COVER:
        return Blockage()
    if kind == SOLID:
        return Blockage(pitot_lag_s=np.inf)
    # A sleeve closes the drain too, and lets air creep in through its hole.
    return Blockage(pitot_lag_s=float(time_constant_s(holes_mm, COVER_HOLES_MM, COVER_VOLUME_ML)), drain_lag_s=np.inf)
