"""A running engine in its cowl as a thermal network: two banks of cylinder heads, oil and crankcase.

Heat of combustion flows into heads and oil, cooling air takes it away, and `physics.preheat.network` joins the parts.
What the model leaves out: each part is evenly warm, so no cylinder differs from its neighbours; a hotter head takes up
as much heat as a cooler one; mixture and timing stay as they are; the air is as dense and as warm as at the field. No
thermostat shuts the oil cooler. The numbers of an engine come from its aircraft file, never from here.
"""

from dataclasses import dataclass, fields

import numpy as np

from walkaround import checks
from walkaround.physics.cooling.airflow import bank_shares, cooling_speed_kt
from walkaround.physics.cooling.heat import fuel_heat_w, share_of_full
from walkaround.physics.preheat import heat_transfer

LEFT, RIGHT, OIL, CRANKCASE = PARTS = ("left", "right", "oil", "crankcase")
_ABOVE_0 = (
    *("heads_j_per_k", "crankcase_j_per_k", "oil_j_per_k"),
    *("heads_to_crankcase_w_per_k", "oil_to_crankcase_w_per_k", "crankcase_w_per_k"),
    *("horsepower", "efficiency", "slipstream_kt", "intake_ratio", "leak"),
)


@dataclass(frozen=True)
class Stream:
    """Cooling air past a part: its flow in m³/h at the engine's `at_kt` with all clear, and U A in W/K at that flow.

    Both above 0, or ValueError.

    >>> round(float(Stream(3000.0, 700.0).taken_w_per_k(1.0)))
    507
    """

    flow_m3_h: float
    w_per_k: float

    def __post_init__(self):
        for name in ("flow_m3_h", "w_per_k"):
            checks.number(name, getattr(self, name), above=0)

    def taken_w_per_k(self, share):
        """Heat in W that the air takes for each K that the part is warmer, at a share of the flow above 0 (any shape).

        ε ṁ c_p, with U A growing as the flow to 0.6 (`preheat.heat_transfer`): little air is soon as hot as the part.
        """
        flow = self.flow_m3_h * checks.numbers("share", share, above=0)
        ntu = heat_transfer.transfer_units(self.w_per_k, self.flow_m3_h, flow)
        return heat_transfer.effectiveness(ntu) * heat_transfer.flow_w_per_k(flow)


@dataclass(frozen=True)
class Setting:
    """How the engine is run: a share of full power, calibrated airspeed in kt, and how far each opening is open.

    Numbers or arrays that broadcast; `left_open`, `right_open` and `oil_open` (the oil cooler) are from 0 to 1. Raises
    ValueError for a value out of range.

    >>> Setting(power=1.0, speed_kt=74.0, left_open=0.0).right_open
    1.0
    """

    power: float
    speed_kt: float
    left_open: float = 1.0
    right_open: float = 1.0
    oil_open: float = 1.0

    def __post_init__(self):
        for name in ("left_open", "right_open", "oil_open"):
            checks.numbers(name, getattr(self, name), 0, 1)
        checks.same_shape(**{f.name: getattr(self, f.name) for f in fields(self)})
        share_of_full(self.power)
        cooling_speed_kt(self.speed_kt, self.power, 1.0)


@dataclass(frozen=True)
class Engine:
    """A running engine as far as heat is concerned; single numbers.

    Of the fuel's heat at full power, `heads_share` flows into the cylinder heads and `oil_share` into the oil.
    Capacities and links of the heads are those of both banks together; `crankcase_w_per_k` is what the crankcase loses.
    `heads_air` and `oil_air` are the streams past both banks and through the oil cooler, at a cooling speed of `at_kt`;
    they grow as that speed. Half of the first goes by each bank, times its share of `bank_shares`; the cooler's is
    times what both intakes feed and times leak + (1 − leak) · oil_open. The other fields are those of `airflow`. Raises
    ValueError for a value out of range.

    >>> engine = Engine(180, 0.27, 0.16, 0.04, 30e3, 46e3, 11e3, 60, 250, 5,
    ...     Stream(3000, 700), Stream(1200, 330), at_kt=74, slipstream_kt=40, intake_ratio=1.2, leak=0.05, shared=0.5)
    >>> engine.heat_w(Setting(1.0, 74.0)).round(-2).tolist()
    [39800.0, 39800.0, 19900.0, 0.0]
    >>> engine.losses_w_per_k(Setting(1.0, 74.0, right_open=0.0)).round().tolist()
    [247.0, 138.0, 190.0, 5.0]
    """

    horsepower: float
    efficiency: float
    heads_share: float
    oil_share: float
    heads_j_per_k: float
    crankcase_j_per_k: float
    oil_j_per_k: float
    heads_to_crankcase_w_per_k: float
    oil_to_crankcase_w_per_k: float
    crankcase_w_per_k: float
    heads_air: Stream
    oil_air: Stream
    at_kt: float
    slipstream_kt: float
    intake_ratio: float
    leak: float
    shared: float

    def __post_init__(self):
        for name in ("efficiency", "heads_share", "oil_share", "shared"):
            checks.number(name, getattr(self, name), 0, 1)
        total = self.efficiency + self.heads_share + self.oil_share
        if not checks.at_most(total, 1.0):
            raise ValueError(f"efficiency, heads_share and oil_share make {total:g}; allowed: up to 1 together")
        checks.number("at_kt", self.at_kt, above=0, unit="kt")
        for name in _ABOVE_0:
            checks.number(name, getattr(self, name), above=0)

    @property
    def capacities_j_per_k(self):
        """Heat capacities of the parts in J/K, in the order of `PARTS`."""
        bank = self.heads_j_per_k / 2
        return np.array([bank, bank, self.oil_j_per_k, self.crankcase_j_per_k])

    @property
    def links_w_per_k(self):
        """Links between the parts in W/K: every part is linked only with the crankcase."""
        bank, links = self.heads_to_crankcase_w_per_k / 2, np.zeros((4, 4))
        links[3, :3] = links[:3, 3] = bank, bank, self.oil_to_crankcase_w_per_k
        return links

    def heat_w(self, setting):
        """Heat of combustion in W into each part at a `Setting`, shape (..., 4)."""
        full = fuel_heat_w(self.horsepower, self.efficiency)
        shares = np.array([self.heads_share / 2, self.heads_share / 2, self.oil_share, 0.0])
        return full * share_of_full(setting.power)[..., np.newaxis] * shares

    def losses_w_per_k(self, setting):
        """Heat in W that air takes from each part for each K above the outside at a `Setting`, shape (..., 4)."""
        clear = (self.intake_ratio, self.leak, self.shared)
        *banks, both = bank_shares(setting.left_open, setting.right_open, *clear)
        speed = cooling_speed_kt(setting.speed_kt, setting.power, self.slipstream_kt) / self.at_kt
        bank_air = Stream(self.heads_air.flow_m3_h / 2, self.heads_air.w_per_k / 2)
        # Like the intakes, the cooler has gaps beside what covers it.
        cooler = self.leak + (1 - self.leak) * np.asarray(setting.oil_open, dtype=float)
        losses = [bank_air.taken_w_per_k(bank * speed) for bank in banks]
        losses += [self.oil_air.taken_w_per_k(both * cooler * speed), float(self.crankcase_w_per_k)]
        return np.stack(np.broadcast_arrays(*losses), axis=-1)
