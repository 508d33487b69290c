"""An engine and its oil warming and cooling.

The engine is a network of parts with one temperature each: metal (crankcase and accessories), the oil in the sump, and
the cylinders, if they are treated separately. Each part loses heat to the outside; oil and cylinders exchange heat with
the metal; warm air through the cowl warms all of them, and a pad on the sump mostly the oil. `network` solves this
exactly, and `air_heater` says when the heater switches.

What the model leaves out: each part is taken to be evenly warm; heat capacities and losses do not change with
temperature; the warm air stays warm until it has passed the parts; the sun warms nothing. The numbers of an engine come
from its aircraft file or from a thermometer log (`log_fit`), never from here. The engine maker's limits and procedures
come first.
"""

from dataclasses import dataclass, fields

import numpy as np

from walkaround import checks
from walkaround.physics.preheat import air_heater, heat_transfer
from walkaround.physics.preheat.history import History
from walkaround.physics.preheat.network import Air, after, kept_apart, modes, rates_of, response

METAL, OIL, CYLINDERS = "metal", "oil", "cylinders"


@dataclass(frozen=True)
class Part:
    """A part of the engine with one temperature.

    `heat_j_per_k`, its heat capacity; `loss_w_per_k`, its loss to the outside in still air without a cover;
    `air_w_per_k`, the conductance (U A) between it and warm air through the cowl at the engine's `air_flow_m3_h`;
    `to_metal_w_per_k`, its link with the metal (0 for the metal itself). Numbers or arrays that broadcast. Raises
    ValueError for a heat capacity that is not above 0 or anything else below 0.

    >>> Part(heat_j_per_k=12e3, loss_w_per_k=2.0, to_metal_w_per_k=14.0)
    Part(heat_j_per_k=12000.0, loss_w_per_k=2.0, air_w_per_k=0.0, to_metal_w_per_k=14.0)
    """

    heat_j_per_k: float
    loss_w_per_k: float
    air_w_per_k: float = 0.0
    to_metal_w_per_k: float = 0.0

    def __post_init__(self):
        checks.numbers("heat_j_per_k", self.heat_j_per_k, above=0, unit="J/K")
        for name in ("loss_w_per_k", "air_w_per_k", "to_metal_w_per_k"):
            checks.numbers(name, getattr(self, name), low=0, unit="W/K")


@dataclass(frozen=True)
class Engine:
    """What an engine is made of as far as heat is concerned.

    `metal`, `oil` and, if they are treated separately, `cylinders` are `Part`s. `air_flow_m3_h` is the flow of warm air
    at which their `air_w_per_k` hold. `wind_share` is the share of the wind's speed that blows through the open cowl. A
    cover (plugs and blanket) leaves `cover_loss_left` of the loss in still air and lets `cover_wind_left` of that wind
    through. Shares are from 0 to 1.

    >>> engine = Engine(metal=Part(60e3, 6.0, 30.0), oil=Part(12e3, 2.0, 5.0, to_metal_w_per_k=14.0), wind_share=0.1)
    >>> engine.parts, engine.stacked("heat_j_per_k").tolist()
    (('metal', 'oil'), [60000.0, 12000.0])
    >>> engine.losses_w_per_k(wind_kt=10.0).round(1).tolist(), engine.heating_w_per_k(200.0).round(1).tolist()
    ([7.5, 2.5], [23.5, 3.9])
    """

    metal: Part
    oil: Part
    cylinders: Part | None = None
    air_flow_m3_h: float = 200.0
    wind_share: float = 0.0
    cover_loss_left: float = 1.0
    cover_wind_left: float = 1.0

    def __post_init__(self):
        checks.numbers("air_flow_m3_h", self.air_flow_m3_h, above=0, unit="m³/h")
        for name in ("wind_share", "cover_loss_left", "cover_wind_left"):
            checks.numbers(name, getattr(self, name), 0, 1)
        for name in self.parts[1:]:
            checks.numbers(f"{name}.to_metal_w_per_k", getattr(self, name).to_metal_w_per_k, above=0, unit="W/K")

    @property
    def parts(self):
        """Names of the parts, in the order in which arrays hold them."""
        return (METAL, OIL) if self.cylinders is None else (METAL, OIL, CYLINDERS)

    def stacked(self, field):
        """One field of every part, parts on the last axis."""
        values = [np.asarray(getattr(getattr(self, part), field), dtype=float) for part in self.parts]
        return np.stack(np.broadcast_arrays(*values), axis=-1)

    @property
    def links_w_per_k(self):
        """Links between the parts, shape (..., parts, parts): every part is linked only with the metal."""
        to_metal = self.stacked("to_metal_w_per_k").copy()
        to_metal[..., 0] = 0.0
        links = np.zeros((*to_metal.shape, to_metal.shape[-1]))
        links[..., 0, :] = links[..., :, 0] = to_metal
        return links

    def losses_w_per_k(self, cover=False, wind_kt=0.0):
        """Loss of each part to the outside in W/K, shape (..., parts), with the cover on or off in a wind in kt.

        loss = loss in still air · share that the cover leaves · h(wind inside)/h(0), with h by ISO 6946
        (`heat_transfer.wind_growth`); the wind inside is a share of the wind outside.
        """
        checks.true_or_false("cover", cover)
        wind = checks.numbers("wind_kt", wind_kt, 0, 100, "kt")
        inside_kt = wind * self.wind_share * np.where(cover, self.cover_wind_left, 1.0)
        share = np.where(cover, self.cover_loss_left, 1.0) * heat_transfer.wind_growth(inside_kt)
        return self.stacked("loss_w_per_k") * share[..., np.newaxis]

    def heating_w_per_k(self, flow_m3_h):
        """Heat in W that a flow of warm air gives each part for each K that it is warmer, shape (..., parts).

        ε ṁ c_p with ε = 1 − exp(−NTU) (`heat_transfer`), divided among the parts in proportion to their conductances,
        as the air is. A faster flow gives more heat for each K, but a smaller share of what it carries.
        """
        conductances = self.stacked("air_w_per_k")
        whole = conductances.sum(axis=-1)
        ntu = heat_transfer.transfer_units(whole, self.air_flow_m3_h, flow_m3_h)
        given = heat_transfer.effectiveness(ntu) * heat_transfer.flow_w_per_k(flow_m3_h)
        return (given / np.where(whole > 0, whole, 1.0))[..., np.newaxis] * conductances


@dataclass(frozen=True)
class SumpPad:
    """An electric pad on the sump: its steady `power_w`, and `share_to_oil`, the share of it that goes into the oil.

    The rest goes into the metal. Raises ValueError for a negative power, or a share not from 0 to 1.

    >>> SumpPad(250.0)
    SumpPad(power_w=250.0, share_to_oil=0.8)
    """

    power_w: float
    share_to_oil: float = 0.8

    def __post_init__(self):
        checks.numbers("power_w", self.power_w, low=0, unit="W")
        checks.numbers("share_to_oil", self.share_to_oil, 0, 1)


def warming(engine, outside_c, heater=None, pad=None, cover=False, wind_kt=0.0, start_c=None):
    """How an engine warms, or without a heater cools, from one moment on: a `History` of every temperature.

    Parameters, which all broadcast: `engine`, an `Engine`; `outside_c`, the temperature outside in °C; `heater`, an
    `AirHeater` that blows through the cowl from the first moment on; `pad`, a `SumpPad`; `cover`, on or off; `wind_kt`;
    `start_c`, the temperatures of the parts at the beginning, a number for all or a dict by part (left out: as cold as
    the outside). Raises ValueError for anything out of range, and for a thermostat that is not set above the outside
    temperature.

    >>> engine = Engine(metal=Part(60e3, 6.0, 30.0), oil=Part(12e3, 2.0, 5.0, to_metal_w_per_k=14.0))
    >>> heater = air_heater.AirHeater(power_w=3000.0, flow_m3_h=200.0, thermostat_c=50.0)
    >>> round(float(warming(engine, -10.0, heater).ready_minutes({"oil": 20.0, "metal": 10.0})))
    87
    """
    outside = checks.numbers("outside_c", outside_c, -90, 60, "°C")
    given = {"engine": engine.stacked("heat_j_per_k")[..., 0], "outside_c": outside, "cover": cover, "wind_kt": wind_kt}
    given |= {f"heater.{f.name}": getattr(heater, f.name) for f in fields(heater)} if heater else {}
    given |= {f"pad.{f.name}": getattr(pad, f.name) for f in fields(pad)} if pad else {}
    checks.same_shape(**given)
    losses = engine.losses_w_per_k(cover, wind_kt)
    heating = engine.heating_w_per_k(heater.flow_m3_h) if heater else np.zeros(len(engine.parts))
    capacities = engine.stacked("heat_j_per_k")
    network = modes(capacities, engine.links_w_per_k, losses + heating)

    pad_w = np.asarray(pad.power_w if pad else 0.0, dtype=float)
    share = np.asarray(pad.share_to_oil if pad else 1.0, dtype=float)
    nothing = np.zeros(np.broadcast_shapes(pad_w.shape, share.shape))
    pad_heat = np.stack([pad_w * (1 - share), pad_w * share, nothing][: len(engine.parts)], axis=-1)
    heat, air_drive = network.driven_by(pad_heat), network.driven_by(heating)
    amounts = network.amounts(_start(engine, start_c, outside) - outside[..., np.newaxis])

    # Without a heater the air stays as cold as the outside, and any rate will do.
    rate = kept_apart(heater.core_rate if heater else 2 * network.rates[..., -1], network.rates)
    times = air_heater.cycle(heater, outside, rate) if heater else None
    first, off, on = _stages(times, rate)
    warm = response(network, amounts, heat, air_drive, first)
    stages, fading = [warm], None
    if times is not None:
        amounts = after(network, amounts, heat, air_drive, first, times.first_off_s)
        # The state to which the engine returns after a whole cycle; the difference from it fades.
        middle = after(network, np.zeros_like(amounts), heat, air_drive, off, times.off_s)
        back = after(network, middle, heat, air_drive, on, times.on_s)
        steady = back / -np.expm1(-network.rates * times.period_s[..., np.newaxis])
        middle = after(network, steady, heat, air_drive, off, times.off_s)
        stages += [response(network, steady, heat, air_drive, off), response(network, middle, heat, air_drive, on)]
        fading = network.shapes * (amounts - steady)[..., np.newaxis, :]
    return History(
        parts=engine.parts,
        outside_c=outside,
        rates=rates_of(network, rate),
        stages=tuple(stages),
        fading=fading,
        cycle=times,
        capacities_j_per_k=capacities,
        losses_w_per_k=losses,
        heating_w_per_k=heating,
        flow_w_per_k=np.asarray(heater.flow_w_per_k if heater else 0.0),
        core_j_per_k=np.asarray(heater.flow_w_per_k / rate if heater else 0.0),
        power_w=np.asarray(heater.power_w if heater else 0.0, dtype=float),
        fan_w=np.asarray(heater.fan_w if heater else 0.0, dtype=float),
        pad_w=pad_w,
    )


def _stages(times, rate):
    """The outlet air until the first switching off, then with the element off, then with it on again."""
    if times is None:
        none = np.zeros(())
        return Air(none, none, rate), None, None
    settles = np.where(times.held, times.off_at, times.idle_rise)
    cold = np.zeros_like(times.off_at)
    return (Air(cold, times.full_rise, rate), Air(times.off_at, settles, rate), Air(times.on_at, times.full_rise, rate))


def _start(engine, start_c, outside):
    """Temperatures at the beginning, parts on the last axis."""
    if start_c is None:
        return np.broadcast_to(outside[..., np.newaxis], (*outside.shape, len(engine.parts)))
    if not isinstance(start_c, dict):
        start_c = dict.fromkeys(engine.parts, start_c)
    if set(start_c) != set(engine.parts):
        raise ValueError(f"start_c has {', '.join(map(str, start_c))}; allowed: all of {', '.join(engine.parts)}")
    given = [checks.numbers(f"start_c {part}", start_c[part], -90, 300, "°C") for part in engine.parts]
    return np.stack(np.broadcast_arrays(*given), axis=-1)
