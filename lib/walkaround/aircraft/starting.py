"""The [starting] section of an aircraft file: battery, cable, starter, what the engine sets against it, ground power.

Charge in Ah, resistance in Ω, torque in N·m at the crankshaft, whatever the units of the rest of the file.
"""

from typing import Annotated

from pydantic import Field, model_validator

from walkaround.aircraft.section import NotNegative, Positive, Section
from walkaround.physics import electrical


class Starting(Section):
    """What turns the engine, how fast it has to, and what the aircraft's placard says of ground power."""

    note: str = ""
    cells: Annotated[int, Field(ge=1, le=40, strict=True)]
    rated_ah: Positive  # in one hour
    inner_ohm: Positive  # full, at 27 °C
    cable_awg: Annotated[int, Field(ge=-3, le=20, strict=True)]
    cable_m: Positive  # to the starter and back
    contacts_ohm: NotNegative
    starter_nm_per_a: Positive
    starter_ohm: Positive
    dry_nm: NotNegative
    film_nm: Positive  # with oil of 1,000 mm²/s at 100 rpm
    fires_rpm: Positive
    try_s: Positive
    rest_s: Positive
    external_v: Positive
    most_v: Positive

    @model_validator(mode="after")
    def _fits(self):
        if self.most_v <= self.external_v:
            raise ValueError(f"most_v {self.most_v:g}; allowed: more than external_v, {self.external_v:g}")
        return self

    @property
    def battery(self):
        """The battery as `physics.electrical.Battery`."""
        return electrical.Battery(self.cells, self.rated_ah, self.inner_ohm)

    @property
    def starter(self):
        """The starter as `physics.electrical.Starter`."""
        return electrical.Starter(self.starter_nm_per_a, self.starter_ohm)

    @property
    def drag(self):
        """What the engine sets against being turned, as `physics.electrical.Drag`."""
        return electrical.Drag(self.dry_nm, self.film_nm)

    def cable_ohm(self, temperature_c):
        """Resistance in Ω of the cable there and back, with its contacts, at a temperature in °C."""
        return electrical.resistance_ohm(self.cable_awg, self.cable_m, temperature_c) + self.contacts_ohm
