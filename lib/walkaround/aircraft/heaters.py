"""Heater files: forced-air heaters and sump pads, what they burn, what that costs, and the invented demo file."""

from functools import cache
from pathlib import Path
from typing import Annotated, Literal

from pydantic import Field, model_validator

from walkaround.aircraft.section import Celsius, Name, NotNegative, Positive, Section, Share, by_name
from walkaround.aircraft.toml_file import read_as
from walkaround.physics.preheat.air_heater import AirHeater
from walkaround.physics.preheat.engine import SumpPad
from walkaround.physics.preheat.plans import Fuel

DEMO_FILE = Path(__file__).parent / "heaters.toml"


class FuelKind(Section):
    """A fuel: net heat of combustion and price of a litre."""

    name: Name
    mj_per_l: Positive
    price_per_l: NotNegative


class Fan(Section):
    """One speed of a fan: what it moves, rated at 15 °C and 1013.25 hPa, and what it draws."""

    flow_m3_h: Positive
    fan_w: NotNegative


class AirHeaterKind(Section):
    """A forced-air heater with two fan speeds and a thermostat on its outlet."""

    name: Name
    source: Literal["electric", "fuel"]
    fuel: Name | None = None
    efficiency: Annotated[float, Field(gt=0, le=1, strict=True)] = 1.0
    power_w: Positive
    core_j_per_k: Positive
    thermostat_c: Celsius
    thermostat_least_c: Celsius
    thermostat_most_c: Celsius
    dead_band_c: NotNegative
    low: Fan
    high: Fan

    @model_validator(mode="after")
    def _fits(self):
        if (self.source == "fuel") != (self.fuel is not None):
            raise ValueError(f"source {self.source!r} with fuel {self.fuel!r}; allowed: a fuel for source 'fuel' only")
        if not self.thermostat_least_c <= self.thermostat_c <= self.thermostat_most_c:
            between = f"{self.thermostat_least_c:g} to {self.thermostat_most_c:g}"
            raise ValueError(
                f"thermostat_c {self.thermostat_c:g}; allowed: from thermostat_least_c to thermostat_most_c, {between}"
            )
        if self.low.flow_m3_h > self.high.flow_m3_h:
            raise ValueError(
                f"low flow {self.low.flow_m3_h:g} and high flow {self.high.flow_m3_h:g}; "
                "allowed: a low flow up to the high one"
            )
        return self

    def set_to(self, fan="high", thermostat_c=None, power_w=None):
        """The heater as `physics.preheat.AirHeater`, with the fan on "low" or "high", or both in a list.

        Thermostat and power are the file's where they are left out.
        """
        fans = {"low": self.low, "high": self.high}
        wrong = [f for f in ([fan] if isinstance(fan, str) else fan) if f not in fans]
        if wrong:
            raise ValueError(f"fan is {wrong[0]!r}; allowed: low, high")

        def of(field):
            return getattr(fans[fan], field) if isinstance(fan, str) else [getattr(fans[f], field) for f in fan]

        return AirHeater(
            power_w=self.power_w if power_w is None else power_w,
            flow_m3_h=of("flow_m3_h"),
            thermostat_c=self.thermostat_c if thermostat_c is None else thermostat_c,
            dead_band_c=self.dead_band_c,
            core_j_per_k=self.core_j_per_k,
            fan_w=of("fan_w"),
        )


class PadKind(Section):
    """An electric pad on the sump."""

    name: Name
    power_w: Positive
    share_to_oil: Share

    def set_to(self, power_w=None):
        """The pad as `physics.preheat.SumpPad`; its power is the file's if it is left out."""
        return SumpPad(self.power_w if power_w is None else power_w, self.share_to_oil)


class Heaters(Section):
    """A whole heater file."""

    note: str = ""
    currency: Name
    electricity_per_kwh: NotNegative
    fuels: list[FuelKind] = Field(default_factory=list)
    air_heaters: list[AirHeaterKind] = Field(default_factory=list)
    pads: list[PadKind] = Field(default_factory=list)

    @model_validator(mode="after")
    def _fuels_are_there(self):
        names = [fuel.name for fuel in self.fuels]
        for heater in self.air_heaters:
            if heater.fuel is not None and heater.fuel not in names:
                raise ValueError(
                    f"{heater.name}: fuel {heater.fuel!r}; allowed: {', '.join(names) or 'none is listed'}"
                )
        return self

    def air_heater(self, name):
        """Return the forced-air heater of that name, or raise ValueError listing the names there are."""
        return by_name(self.air_heaters, name, "air heater", "the heater file")

    def pad(self, name):
        """Return the pad of that name, or raise ValueError listing the names there are."""
        return by_name(self.pads, name, "pad", "the heater file")

    def fuel_of(self, heater):
        """What a heater burns, as `physics.preheat.Fuel`; None for an electric one."""
        if heater is None or heater.fuel is None:
            return None
        return Fuel(self._fuel(heater).mj_per_l, heater.efficiency)

    def cost(self, spent, heater=None):
        """What a `physics.preheat.Spent` cost with this heater, in the file's currency."""
        per_l = self._fuel(heater).price_per_l if heater is not None and heater.fuel else 0.0
        return spent.cost(self.electricity_per_kwh, per_l)

    def _fuel(self, heater):
        return by_name(self.fuels, heater.fuel, "fuel", "the heater file")


def read_heaters(path):
    """Read a heater file (TOML) and return `Heaters`, or raise AircraftFileError naming every mistake.

    >>> read_heaters(DEMO_FILE).pads[0].name
    'sump pad'
    """
    return read_as(Heaters, path)


@cache
def demo_heaters():
    """Return the invented demo heaters."""
    return read_heaters(DEMO_FILE)
