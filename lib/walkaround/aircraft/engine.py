"""The [engine] section of an aircraft file: heat capacities and losses of its parts, its oil, and what is ready.

Heat in kJ/K, losses and links in W/K, temperatures in °C, whatever the units of the rest of the file; oil quantities in
the unit that the section names, which is the dipstick's.
"""

from itertools import pairwise
from typing import Annotated, Literal

from pydantic import Field, model_validator

from walkaround.aircraft.section import Celsius, NotNegative, Positive, Section, Share
from walkaround.aircraft.sump import Sump, sump_problem
from walkaround.physics.oil import DENSITY_KG_PER_L, greatest_consumption_qt_per_h
from walkaround.physics.preheat import engine as preheat
from walkaround.units import US_QUART_L


class Metal(Section):
    """Crankcase and accessories: heat capacity, loss in still air without a cover, conductance to warm air."""

    heat_kj_per_k: Positive
    loss_w_per_k: NotNegative
    air_w_per_k: NotNegative


class Cylinders(Metal):
    """Cylinders, if they are treated separately, and their link with the rest of the metal."""

    to_metal_w_per_k: Positive


class EngineOil(Section):
    """Oil in the sump: quantities, how it takes up heat, how thick it is, and the dipstick."""

    unit: Literal["qt", "L"]
    full: Positive
    usual: Positive
    minimum: Positive
    specific_heat_j_per_kg_k: Annotated[float, Field(gt=1000, lt=3000, strict=True)]
    loss_w_per_k: NotNegative
    air_w_per_k: NotNegative
    to_metal_w_per_k: Positive
    viscosity_40_mm2_s: Annotated[float, Field(ge=0.21, le=2e7, strict=True)]
    viscosity_100_mm2_s: Annotated[float, Field(ge=0.21, le=2e7, strict=True)]
    pour_point_c: Celsius
    dipstick_marks: Annotated[list[NotNegative], Field(min_length=2)]
    dipstick_quantities: Annotated[list[NotNegative], Field(min_length=2)]
    sump: Sump | None = None

    @model_validator(mode="after")
    def _fits(self):
        if not self.minimum <= self.usual <= self.full:
            raise ValueError(
                f"minimum {self.minimum:g}, usual {self.usual:g} and full {self.full:g}; "
                "allowed: usual between minimum and full"
            )
        if self.viscosity_100_mm2_s >= self.viscosity_40_mm2_s:
            raise ValueError(
                f"viscosity_100_mm2_s {self.viscosity_100_mm2_s:g}; "
                f"allowed: less than at 40 °C, {self.viscosity_40_mm2_s:g}"
            )
        for a, b in (("dipstick_marks", self.dipstick_marks), ("dipstick_quantities", self.dipstick_quantities)):
            if any(x >= y for x, y in pairwise(b)):
                raise ValueError(f"{a} {b}; allowed: each above the one before")
        if len(self.dipstick_marks) != len(self.dipstick_quantities):
            raise ValueError(
                f"dipstick_marks has {len(self.dipstick_marks)}, dipstick_quantities {len(self.dipstick_quantities)}; "
                "allowed: one quantity for each mark"
            )
        if self.sump and (problem := sump_problem(self)):
            raise ValueError(problem)
        return self

    def litres(self, quantity):
        """A quantity of oil in litres."""
        return quantity * (US_QUART_L if self.unit == "qt" else 1.0)

    def heat_j_per_k(self, quantity):
        """Heat capacity of a quantity of oil in J/K: volume · density · specific heat."""
        return self.litres(quantity) * DENSITY_KG_PER_L * self.specific_heat_j_per_kg_k


class Cowl(Section):
    """What the cowl lets through, warm air and wind, and what a cover changes."""

    air_flow_m3_h: Positive
    wind_share: Share
    cover_loss_left: Share
    cover_wind_left: Share


class EngineSection(Section):
    """An engine: rated power, when to preheat it, when it counts as ready, and its parts."""

    note: str = ""
    horsepower: Positive
    preheat_below_c: Celsius
    ready_oil_c: Celsius
    ready_metal_c: Celsius
    oil_limit_c: Celsius
    metal: Metal
    oil: EngineOil
    cylinders: Cylinders | None = None
    cowl: Cowl

    @model_validator(mode="after")
    def _limits_in_order(self):
        if self.oil_limit_c <= self.ready_oil_c:
            raise ValueError(f"oil_limit_c {self.oil_limit_c:g}; allowed: above ready_oil_c, {self.ready_oil_c:g}")
        return self

    @property
    def ready_c(self):
        """Temperature in °C that each part needs, as `physics.preheat.plan` takes it."""
        wanted = {"metal": self.ready_metal_c, "oil": self.ready_oil_c}
        return wanted if self.cylinders is None else {**wanted, "cylinders": self.ready_metal_c}

    @property
    def greatest_oil_per_hour(self):
        """Most oil that is usually accepted an hour, in the oil's unit: a rule of thumb by rated power."""
        quarts = float(greatest_consumption_qt_per_h(self.horsepower))
        return quarts if self.oil.unit == "qt" else quarts * US_QUART_L

    def engine(self, oil_quantity=None):
        """The engine as `physics.preheat.Engine`, with a quantity of oil in the section's unit, or the usual one."""
        quantity = self.oil.usual if oil_quantity is None else oil_quantity
        metal = _part(self.metal, 1e3 * self.metal.heat_kj_per_k)
        oil = _part(self.oil, self.oil.heat_j_per_k(quantity))
        cylinders = self.cylinders and _part(self.cylinders, 1e3 * self.cylinders.heat_kj_per_k)
        return preheat.Engine(metal, oil, cylinders, **self.cowl.model_dump())


def _part(section, heat_j_per_k):
    to_metal_w_per_k = getattr(section, "to_metal_w_per_k", 0.0)
    return preheat.Part(heat_j_per_k, section.loss_w_per_k, section.air_w_per_k, to_metal_w_per_k)
