"""Where the heat of a preheat went: into the engine, out of it, or out of the cowl with the air."""

from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True)
class Heat:
    """Where the heat of the first minutes came from and went, in J.

    In: `heater` (element or burner), `fan`, `pad`. Stored or out: `stored` by part (below 0 where a part has cooled),
    `lost` to the outside by part, `blown_away` out of the cowl with the air, `core`, what is left in the heater.

    >>> from walkaround.physics.preheat.engine import Engine, Part, SumpPad, warming
    >>> engine = Engine(metal=Part(60e3, 6.0), oil=Part(12e3, 2.0, to_metal_w_per_k=14.0))
    >>> an_hour = heat_balance(warming(engine, -10.0, pad=SumpPad(250.0)), 60.0)
    >>> {part: round(float(joules), -3) for part, joules in an_hour.stored.items()}
    {'metal': 507000.0, 'oil': 219000.0}
    """

    heater: np.ndarray
    fan: np.ndarray
    pad: np.ndarray
    stored: dict
    lost: dict
    blown_away: np.ndarray
    core: np.ndarray

    @property
    def supplied(self):
        """All the heat that came in."""
        return self.heater + self.fan + self.pad

    @property
    def accounted(self):
        """All the heat that was stored, lost, blown away or left in the heater; equal to `supplied`."""
        return sum(self.stored.values()) + sum(self.lost.values()) + self.blown_away + self.core


def heat_balance(history, minutes):
    """Where the heat of a `History` came from and went in the first minutes, in J: a `Heat`.

    stored = C Δθ; lost = loss · ∫θ dt; blown away = ṁ c_p ∫θ_air dt − Σ g ∫(θ_air − θ) dt. Each is an integral or a
    difference of its own: none of them is found as what the others leave, so that they add up is a test.

    >>> from walkaround.physics.preheat.engine import Engine, Part, SumpPad, warming
    >>> engine = Engine(metal=Part(60e3, 6.0), oil=Part(12e3, 2.0, to_metal_w_per_k=14.0))
    >>> an_hour = heat_balance(warming(engine, -10.0, pad=SumpPad(250.0)), 60.0)
    >>> round(float(an_hour.supplied)), round(float(an_hour.accounted))
    (900000, 900000)
    """
    minutes = np.asarray(minutes, dtype=float)
    now, then = (history.temperatures_c(m) for m in (minutes, np.zeros_like(minutes)))
    gained = history.capacities_j_per_k * (now - then)[..., :-1]
    areas = history.areas_k_s(minutes)
    lost = history.losses_w_per_k * areas[..., :-1]
    from_air = history.heating_w_per_k * (areas[..., -1:] - areas[..., :-1])
    shape = areas.shape[:-1]
    return Heat(
        heater=np.broadcast_to(60 * history.power_w * history.on_minutes(minutes), shape),
        fan=np.broadcast_to(60 * history.fan_w * minutes, shape),
        pad=np.broadcast_to(60 * history.pad_w * minutes, shape),
        stored={part: gained[..., i] for i, part in enumerate(history.parts)},
        lost={part: lost[..., i] for i, part in enumerate(history.parts)},
        blown_away=history.flow_w_per_k * areas[..., -1] - from_air.sum(axis=-1),
        core=history.core_j_per_k * (now - then)[..., -1],
    )
