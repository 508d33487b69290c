"""The [fuel_system] section of an aircraft file: what the engine burns, and the tanks as solids with drains and cap.

Lengths in cm and angles in degrees, whatever the units of the rest of the file; volumes in the file's own unit. A place
in a tank is a pair of shares: `aft`, 0 at the front and 1 at the rear, and `out`, 0 inboard and 1 outboard.
"""

from itertools import pairwise
from typing import Annotated

from pydantic import Field, model_validator

from walkaround import checks
from walkaround.aircraft.section import Name, NotNegative, Positive, Section, Share
from walkaround.physics.fuel import tank as solids
from walkaround.units import US_GALLON_L

Slope = Annotated[float, Field(ge=0, le=15, strict=True)]


class Drain(Section):
    """A drain in the floor: its name, and where it is."""

    name: Name
    aft: Share
    out: Share


class Outlet(Section):
    """Where the engine's fuel leaves the tank: a place, and how high above the floor."""

    aft: Share
    out: Share
    up_cm: NotNegative


class Dipstick(Section):
    """Where the stick stands square on the floor, and how much is in the tank at each mark, the aircraft level."""

    aft: Share
    out: Share
    marks_cm: Annotated[list[NotNegative], Field(min_length=2)]
    quantities: Annotated[list[NotNegative], Field(min_length=2)]

    @model_validator(mode="after")
    def _rises(self):
        if len(self.marks_cm) != len(self.quantities):
            raise ValueError(
                f"marks_cm has {len(self.marks_cm)}, quantities {len(self.quantities)}; allowed: one for each mark"
            )
        for name, row in (("marks_cm", self.marks_cm), ("quantities", self.quantities)):
            if any(x >= y for x, y in pairwise(row)):
                raise ValueError(f"{name} {row}; allowed: each above the one before")
        return self


class Cap(Section):
    """A filler cap: from what area the wing leads rain to it, and how deep the water stands over its seal."""

    catches_m2: NotNegative
    standing_mm: NotNegative


class SolidTank(Section):
    """Tanks of one shape: a box, its drains, the engine's outlet, the dipstick and the cap.

    `names` are those of the tanks in [fuel]; a left and a right tank mirror each other.
    """

    names: Annotated[list[Name], Field(min_length=1)]
    length_cm: Positive
    width_cm: Positive
    depth_cm: Positive
    dihedral_deg: Slope
    floor_falls_aft_deg: Slope
    drains: Annotated[list[Drain], Field(min_length=1)]
    outlet: Outlet
    dipstick: Dipstick
    cap: Cap

    @model_validator(mode="after")
    def _fits(self):
        if self.outlet.up_cm > self.depth_cm:
            raise ValueError(f"outlet.up_cm {self.outlet.up_cm:g}; allowed: up to depth_cm, {self.depth_cm:g}")
        if self.dipstick.marks_cm[-1] > self.depth_cm:
            raise ValueError(
                f"marks_cm up to {self.dipstick.marks_cm[-1]:g}; allowed: up to depth_cm, {self.depth_cm:g}"
            )
        return self

    @property
    def solid(self):
        """The tank as `physics.fuel.Tank`."""
        sides = self.length_cm, self.width_cm, self.depth_cm
        return solids.Tank(*sides, self.dihedral_deg, self.floor_falls_aft_deg)


class FuelSystem(Section):
    """What the engine burns in an hour of cruise and on the ground, how steep it climbs, and the tanks as solids."""

    note: str = ""
    per_hour: Positive
    taxi: NotNegative
    climb_nose_up_deg: Slope
    tanks: Annotated[list[SolidTank], Field(min_length=1)]

    def tank(self, name):
        """Return the shape of the tank of that name, or raise ValueError listing the names there are."""
        for tank in self.tanks:
            if name in tank.names:
                return tank
        names = ", ".join(n for tank in self.tanks for n in tank.names)
        raise ValueError(f"tank {name!r} is not in [fuel_system]; allowed: {names}")


def fuel_system_problems(parts):
    """Tanks that do not fit those of [fuel], (key, value, what is allowed) for each; `parts` has the sound sections."""
    system, fuel, units = (parts.get(name) for name in ("fuel_system", "fuel", "units"))
    problems = []
    if system is None or fuel is None or units is None:
        return problems
    litres = US_GALLON_L if units.volume == "US gal" else 1.0
    capacity = {tank.name: tank.capacity for tank in fuel.tanks}
    for i, tank in enumerate(system.tanks):
        key, holds = f"fuel_system.tanks[{i}]", solids.capacity_l(tank.solid) / litres
        for name in tank.names:
            if name not in capacity:
                problems.append((f"{key}.names", name, f"the name of a tank: {', '.join(capacity)}"))
            elif not checks.at_most(abs(holds / capacity[name] - 1.0), 0.02):
                allowed = f"within 2 % of the capacity of {name}, {capacity[name]:g} {units.volume}"
                problems.append((f"{key}, its sides multiplied,", round(holds, 1), allowed))
            elif tank.dipstick.quantities[-1] > capacity[name]:
                problems.append(
                    (f"{key}.dipstick.quantities", tank.dipstick.quantities[-1], f"up to {capacity[name]:g}")
                )
    return problems
