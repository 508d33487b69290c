"""A taxi, a run-up and a climb: how hot heads and oil get, when they reach a limit, and what the gauge shows."""

from dataclasses import dataclass, replace
from functools import cached_property
from typing import NamedTuple

import numpy as np

from walkaround import checks
from walkaround.physics.cooling import LEFT, OIL, PARTS, RIGHT, run
from walkaround.units import KELVIN_AT_0C

TAXI_KT, RUN_UP_MIN, CLIMB_MIN = 5.0, 1.0, 20.0


class Plan(NamedTuple):
    """How the flight is flown; shares of full power, speeds in kt, minutes of taxi, and of climb before it changes.

    `left` and `right` are the shares of the intakes that are blocked.
    """

    outside_c: float
    power: float
    speed_kt: float
    left: float = 0.0
    right: float = 0.0
    kit: bool = False
    taxi_min: float = 6.0
    change_min: float = CLIMB_MIN
    then_power: float = 0.75
    then_kt: float = 90.0


class Reached(NamedTuple):
    """A limit that is reached: minutes of climb (before 0, on the ground), and the part that reaches it."""

    minutes: float
    part: str


@dataclass(frozen=True)
class Climb:
    """A `Plan` flown in an aircraft with the sections engine, speeds and cooling; minutes count from take-off power on.

    >>> from walkaround import aircraft
    >>> climb = Climb(aircraft.demo("morrowlark_four"), Plan(outside_c=15.0, power=1.0, speed_kt=74.0, right=1.0))
    >>> climb.first.part, round(climb.first.minutes, 1), climb.gauge, round(climb.at(2.0)["left"])
    ('right', 2.9, 'left', 196)
    """

    craft: object
    plan: Plan

    @property
    def section(self):
        """The section [cooling] of the aircraft's file."""
        return self.craft.cooling

    @property
    def gauge(self):
        """The bank with the gauge's probe: left or right."""
        return self.section.gauge_on

    @property
    def limits_c(self):
        """The limit of each part that has one, in °C."""
        head = self.section.head_limit_c
        return {LEFT: head, RIGHT: head, OIL: self.craft.engine.oil_limit_c}

    @property
    def begins_min(self):
        """When the engine was started, as minutes of climb: below 0."""
        return -(self.plan.taxi_min + RUN_UP_MIN)

    @cached_property
    def run(self):
        """The temperatures as `physics.cooling.Run`, which counts from the engine's start."""
        p, section = self.plan, self.section

        def setting(power, speed_kt):
            return section.setting(power, speed_kt, p.left, p.right, p.kit)

        stretches = [
            (0.0, setting(section.taxi_power, TAXI_KT)),
            (p.taxi_min, setting(section.run_up_power, 0.0)),
            (-self.begins_min, setting(p.power, p.speed_kt)),
        ]
        if self.changes:
            stretches.append((p.change_min - self.begins_min, setting(p.then_power, p.then_kt)))
        return run(section.engine(self.craft.engine, self.craft.speeds.climb), stretches, p.outside_c)

    @property
    def changes(self):
        """Whether power and speed change before the end."""
        return self.plan.change_min < CLIMB_MIN

    def temperatures_c(self, minutes):
        """Temperatures in °C at minutes of climb, parts on the last axis; before the engine's start, the outside's."""
        since = np.maximum(np.asarray(minutes, dtype=float) - self.begins_min, 0.0)
        return self.run.temperatures_c(since)

    def at(self, minutes):
        """Temperature in °C of each part at a moment in minutes of climb."""
        return dict(zip(PARTS, self.temperatures_c(minutes).tolist(), strict=True))

    @cached_property
    def first(self):
        """The first limit that is reached until the end, a `Reached`, or None."""
        found = [
            Reached(float(self.run.reached_minutes(part, limit)) + self.begins_min, part)
            for part, limit in self.limits_c.items()
        ]
        # Where both banks are alike, it is the gauge's that is named.
        first = min(found, key=lambda r: (round(r.minutes, 6), r.part != self.gauge))
        return first if first.minutes <= CLIMB_MIN else None

    @cached_property
    def hottest_c(self):
        """The highest temperature in °C of each part until the end, to a tenth of a minute."""
        moments = np.linspace(self.begins_min, CLIMB_MIN, round(10 * (CLIMB_MIN - self.begins_min)) + 1)
        return dict(zip(PARTS, self.temperatures_c(moments).max(axis=0).tolist(), strict=True))

    @property
    def blocked(self):
        """Whether something is in an intake."""
        return self.plan.left > 0 or self.plan.right > 0

    @property
    def kit_too_warm(self):
        """Whether the winter kit is on, on a day that is too warm for it."""
        warm = not checks.at_most(self.plan.outside_c, self.section.kit.off_above_c, KELVIN_AT_0C)
        return self.plan.kit and warm

    @cached_property
    def clear(self):
        """The same flight with both intakes clear and no kit."""
        return Climb(self.craft, self.plan._replace(left=0.0, right=0.0, kit=False))

    @cached_property
    def unchanged(self):
        """The same flight with power and speed left as they were."""
        return replace(self, plan=self.plan._replace(change_min=CLIMB_MIN))
