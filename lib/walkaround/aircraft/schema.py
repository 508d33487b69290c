"""What an aircraft file may hold, section by section, each value checked by itself and against others.

Sections that only one lesson needs (speeds, engine …) have a module of their own beside this one.
"""

from functools import cached_property
from typing import Annotated, Literal

from pydantic import Field, ValidationInfo, field_validator, model_validator

from walkaround import checks
from walkaround.aircraft.control_surfaces import ControlSurfaces, control_surface_problems
from walkaround.aircraft.cooling import Cooling, cooling_problems
from walkaround.aircraft.dimensions import Dimensions, dimension_problems
from walkaround.aircraft.engine import EngineSection
from walkaround.aircraft.fuel_system import FuelSystem, fuel_system_problems
from walkaround.aircraft.section import Finite, Name, NotNegative, Positive, Section, by_name
from walkaround.aircraft.speeds import Speeds, TakeOff, speed_problems
from walkaround.aircraft.starting import Starting
from walkaround.aircraft.tie_down import TieDown, tie_down_problems
from walkaround.aircraft.towing import Towing
from walkaround.physics.loading.envelope import Envelope, corner_problems


class Units(Section):
    """Units of the whole file. Weights and arms are either pounds and inches or kilograms and metres."""

    weight: Literal["lb", "kg"]
    arm: Literal["in", "m"]
    volume: Literal["US gal", "L"]

    @model_validator(mode="after")
    def _belong_together(self):
        if (self.weight, self.arm, self.volume) not in (("lb", "in", "US gal"), ("kg", "m", "L")):
            raise ValueError(
                f"weight is {self.weight!r}, arm {self.arm!r}, volume {self.volume!r}; "
                "allowed: lb, in and US gal together, or kg, m and L together"
            )
        return self

    @property
    def moment(self):
        """Unit of a moment: lb-in or kg-m."""
        return f"{self.weight}-{self.arm}"


class Empty(Section):
    """Empty weight, and where it acts: either its arm or its moment."""

    weight: Positive
    arm: Finite | None = None
    moment: Finite | None = None

    @model_validator(mode="after")
    def _one_of_two(self):
        if (self.arm is None) == (self.moment is None):
            raise ValueError(f"arm is {self.arm}, moment is {self.moment}; allowed: one of the two, not both")
        return self

    @property
    def cg(self):
        """Arm of the empty aircraft's centre of gravity."""
        return self.arm if self.arm is not None else self.moment / self.weight


class Station(Section):
    """A place to load: a seat or row of seats, a baggage hold, or another place."""

    name: Name
    kind: Literal["seat", "hold", "fuel", "other"]
    arm: Finite
    maximum: Positive


class CombinedLimit(Section):
    """A maximum for several holds together."""

    holds: Annotated[list[Name], Field(min_length=2)]
    maximum: Positive


class Tank(Section):
    """A fuel tank: volumes in the file's unit."""

    name: Name
    arm: Finite
    capacity: Positive
    usable: Positive
    unusable: NotNegative

    @model_validator(mode="after")
    def _fits(self):
        if not checks.at_most(self.usable + self.unusable, self.capacity):
            raise ValueError(
                f"usable {self.usable:g} and unusable {self.unusable:g} make {self.usable + self.unusable:g}; "
                f"allowed: up to the tank's capacity, {self.capacity:g}"
            )
        return self


class Fuel(Section):
    """Fuel: its density, the tanks, and the order in which they are drawn down."""

    density: Positive
    drawn: Literal["together", "in order"]
    unusable_in_empty_weight: bool
    tanks: Annotated[list[Tank], Field(min_length=1)]


class Oil(Section):
    """Engine oil: whether the empty weight includes it, how much there is, and where."""

    in_empty_weight: bool
    volume: NotNegative
    density: Positive
    arm: Finite


class EnvelopeCorners(Section):
    """One category's limits: corners in order, each as [CG, weight]."""

    name: Name
    corners: list[tuple[Finite, Positive]]

    @field_validator("corners")
    @classmethod
    def _is_a_polygon(cls, corners, info: ValidationInfo):
        problems = corner_problems(*zip(*corners, strict=True)) if corners else ["has no corners"]
        if problems:
            raise ValueError(f"{info.data.get('name', 'envelope')}: " + "; ".join(problems))
        return corners

    @cached_property
    def envelope(self):
        """The limits as `walkaround.physics.loading.envelope.Envelope`."""
        cgs, weights = zip(*self.corners, strict=True)
        return Envelope(self.name, cgs, weights)


class WeightLimits(Section):
    """Greatest weights: for take-off always, the others if the aircraft has them."""

    take_off: Positive
    ramp: Positive | None = None
    landing: Positive | None = None
    zero_fuel: Positive | None = None


class Aircraft(Section):
    """A whole aircraft file."""

    name: Name
    note: str = ""
    units: Units
    empty: Empty
    stations: Annotated[list[Station], Field(min_length=1)]
    combined_limits: list[CombinedLimit] = Field(default_factory=list)
    fuel: Fuel
    oil: Oil
    limits: WeightLimits
    envelopes: Annotated[list[EnvelopeCorners], Field(min_length=1)]
    dimensions: Dimensions | None = None
    control_surfaces: ControlSurfaces | None = None
    speeds: Speeds | None = None
    take_off: TakeOff | None = None
    engine: EngineSection | None = None
    starting: Starting | None = None
    fuel_system: FuelSystem | None = None
    cooling: Cooling | None = None
    tie_down: TieDown | None = None
    towing: Towing | None = None

    def station(self, name):
        """Return the station of that name, or raise ValueError listing the names there are."""
        return by_name(self.stations, name, "station", f"the file of {self.name}")

    def tank(self, name):
        """Return the tank of that name, or raise ValueError listing the names there are."""
        return by_name(self.fuel.tanks, name, "tank", f"the file of {self.name}")

    def envelope(self, name=None):
        """Return the limits of a category; without a name, of the first in the file."""
        found = by_name(self.envelopes, name, "envelope", f"the file of {self.name}") if name else self.envelopes[0]
        return found.envelope

    @property
    def holds(self):
        """Stations that are baggage holds, in the file's order."""
        return [s for s in self.stations if s.kind == "hold"]


def cross_problems(parts):
    """Problems between sections, (key, value, what is allowed) for each; `parts` has the sections that are sound."""
    problems = []
    stations = {s.name: s for s in parts.get("stations", [])}
    for i, limit in enumerate(parts.get("combined_limits", [])):
        for name in limit.holds:
            if stations and (name not in stations or stations[name].kind != "hold"):
                holds = ", ".join(n for n, s in stations.items() if s.kind == "hold")
                problems.append((f"combined_limits[{i}].holds", name, f"the name of a hold: {holds}"))
    limits, envelopes, empty = parts.get("limits"), parts.get("envelopes"), parts.get("empty")
    if limits:
        if limits.ramp is not None and limits.ramp < limits.take_off:
            problems.append(("limits.ramp", limits.ramp, f"the take-off limit, {limits.take_off:g}, or more"))
        for key in ("landing", "zero_fuel"):
            value = getattr(limits, key)
            if value is not None and value > limits.take_off:
                problems.append((f"limits.{key}", value, f"the take-off limit, {limits.take_off:g}, or less"))
        if empty and empty.weight >= limits.take_off:
            problems.append(("empty.weight", empty.weight, f"less than the take-off limit, {limits.take_off:g}"))
    for i, corners in enumerate(envelopes or []):
        top = max(w for _, w in corners.corners)
        if limits and not checks.at_most(top, limits.take_off):
            problems.append((f"envelopes[{i}].corners", top, f"weights up to the take-off limit, {limits.take_off:g}"))
    if "units" in parts and "fuel" in parts:
        # Every fuel that aircraft burn lies between these; outside them it is the unit that is wrong.
        low, high = (5.0, 7.5) if parts["units"].weight == "lb" else (0.6, 0.9)
        density = parts["fuel"].density
        if not low <= density <= high:
            unit = f"{parts['units'].weight} per {parts['units'].volume}"
            problems.append(("fuel.density", density, f"{low:g} to {high:g} {unit}"))
    problems += dimension_problems(parts) + control_surface_problems(parts) + tie_down_problems(parts)
    return problems + speed_problems(parts) + fuel_system_problems(parts) + cooling_problems(parts)
