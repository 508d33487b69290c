"""Quillmoor, an invented airfield, and an invented flight from it that demonstrations replay."""

from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np

from walkaround.aircraft.ramp import Ramp
from walkaround.aircraft.section import Finite, Name, NotNegative, Positive, Section
from walkaround.aircraft.toml_file import read_as
from walkaround.physics.air.flight import Flight, descent, join, level, roll_and_climb
from walkaround.physics.air.takeoff import takeoff_roll

FILE = Path(__file__).parent / "quillmoor.toml"
CHANGE_S = 20.0  # between two parts of the flight


class FlightPlan(Section):
    """A flight from the airfield: up, along, down and along again; and how far its cabin is below the outside."""

    climb_fpm: Positive
    top_ft: Finite
    cruise_minutes: Positive
    descent_fpm: Positive
    lower_ft: Finite
    lower_minutes: Positive
    cabin_below_hpa: NotNegative


class Airfield(Section):
    """The airfield: its elevation, taken for its pressure altitude, its runway, a flight from it, and its ramp.

    `stake_lb` is what a stake in its grass holds against a rope.
    """

    name: Name
    note: str = ""
    elevation_ft: Finite
    runway_ft: Positive
    stake_lb: Positive
    plan: FlightPlan
    ramp: Ramp | None = None


@dataclass(frozen=True, eq=False)
class PlannedFlight:
    """A flight, and in words what is flown from which moment on; it leaves the ground at `airborne_s`."""

    flight: Flight
    airborne_s: float
    begins_s: tuple
    parts: tuple

    def part(self, at_s):
        """Say what is flown at a moment."""
        return self.parts[int(np.searchsorted(self.begins_s, at_s, side="right")) - 1]


@cache
def airfield():
    """Return the airfield.

    >>> airfield().runway_ft
    2200.0
    """
    return read_as(Airfield, FILE)


def planned_flight(craft):
    """Return the planned flight for an aircraft whose file has the sections speeds and take_off.

    >>> from walkaround import aircraft
    >>> planned_flight(aircraft.demo("morrowlark_four")).part(200.0)
    'climb at 74 kt, 650 ft/min'
    """
    field, speeds = airfield(), craft.speeds
    plan = field.plan
    top, lower = plan.top_ft, plan.lower_ft
    roll = takeoff_roll(craft.take_off.ground_roll_ft(craft.units), speeds.lift_off, field.elevation_ft)
    standing_s, roll_s = 5.0, float(roll.lift_off_s)
    legs = (
        roll_and_climb(field.elevation_ft, top, speeds.lift_off, speeds.climb, plan.climb_fpm, roll_s, standing_s),
        level(top, speeds.cruise, plan.cruise_minutes),
        descent(top, lower, speeds.cruise, plan.descent_fpm),
        level(lower, speeds.approach, plan.lower_minutes),
    )
    ends = np.cumsum([leg.time_s[-1] + CHANGE_S for leg in legs]) - CHANGE_S
    parts = (
        "standing",
        "take-off roll",
        f"climb at {speeds.climb:.0f} kt, {plan.climb_fpm:.0f} ft/min",
        f"level at {top:,.0f} ft, {speeds.cruise:.0f} kt",
        f"descent at {speeds.cruise:.0f} kt, {plan.descent_fpm:.0f} ft/min",
        f"level at {lower:,.0f} ft, {speeds.approach:.0f} kt",
    )
    airborne_s = standing_s + roll_s
    begins_s = (0.0, standing_s, airborne_s, *(float(end) for end in ends[:-1]))
    return PlannedFlight(join(*legs, change_s=CHANGE_S), airborne_s, begins_s, parts)
