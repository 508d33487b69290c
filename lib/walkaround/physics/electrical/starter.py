"""A starter turning a cold engine: where speed, current and volts settle, and what is left after a few tries."""

from dataclasses import dataclass

import numpy as np

from walkaround import checks
from walkaround.physics.electrical.battery import inner_ohm, open_circuit_volts, share_used

RPM_PER_RAD_S = 30 / np.pi
FILM_MM2_S, FILM_RPM = 1000.0, 100.0  # where `Drag.film_nm` is given


@dataclass(frozen=True)
class Starter:
    """A DC motor with a constant field, seen through its gears from the crankshaft: N·m for each A, and Ω.

    Raises ValueError for a torque that is not above 0, or Ω below 0.

    >>> Starter(nm_per_a=0.6, ohm=0.012).ohm
    0.012
    """

    nm_per_a: float
    ohm: float

    def __post_init__(self):
        checks.number("nm_per_a", self.nm_per_a, above=0, unit="N·m/A")
        checks.number("ohm", self.ohm, low=0, unit="Ω")


@dataclass(frozen=True)
class Drag:
    """What an engine sets against being turned, in N·m at the crankshaft.

    `dry_nm` is there at any speed: compression, accessories, parts that rub. `film_nm` is the part of the oil films
    with oil of 1,000 mm²/s at 100 rpm. Raises ValueError for a torque below 0.

    >>> Drag(dry_nm=45.0, film_nm=50.0).film_nm
    50.0
    """

    dry_nm: float
    film_nm: float

    def __post_init__(self):
        for name in ("dry_nm", "film_nm"):
            checks.number(name, getattr(self, name), low=0, unit="N·m")


@dataclass(frozen=True)
class Battery:
    """A lead-acid battery: cells, Ah that it is rated to give in one hour, Ω inside when full at 27 °C.

    Raises ValueError for less than one cell, or what is not above 0.

    >>> round(float(Battery(6, 30.0, 0.008).at(1.0, 26.7)[0]), 2)
    12.75
    """

    cells: int
    rated_ah: float
    full_ohm: float

    def __post_init__(self):
        checks.number("cells", self.cells, low=1)
        checks.number("rated_ah", self.rated_ah, above=0, unit="Ah")
        checks.number("full_ohm", self.full_ohm, above=0, unit="Ω")

    def at(self, state, temperature_c):
        """Volts at rest and inner resistance in Ω, at a state of charge and a temperature in °C (shapes broadcast)."""
        return open_circuit_volts(state, self.cells), inner_ohm(state, temperature_c, self.full_ohm)


@dataclass(frozen=True)
class Cranking:
    """What happens while the starter is on, as `crank` returns it; all of one shape.

    >>> run = crank(12.0, 0.01, 0.004, Starter(0.6, 0.012), Drag(45.0, 50.0), 1000.0)
    >>> round(float(run.terminals_v), 2), round(float(run.starter_v), 2)
    (10.33, 9.66)
    """

    rpm: np.ndarray
    current_a: np.ndarray
    torque_nm: np.ndarray  # at the crankshaft
    source_v: np.ndarray  # at rest
    terminals_v: np.ndarray
    starter_v: np.ndarray
    back_v: np.ndarray  # what the turning starter sets against the current

    @property
    def watts(self):
        """Where the power goes, in W: heat in the source, the cable and the starter, and what turns the engine."""
        steps = (self.source_v, self.terminals_v, self.starter_v, self.back_v)
        names = ("source", "cable", "starter")
        heat = {name: (a - b) * self.current_a for name, a, b in zip(names, steps, steps[1:], strict=False)}
        return {**heat, "engine": self.torque_nm * self.rpm / RPM_PER_RAD_S}


def cranking_torque_nm(rpm, viscosity_mm2_s, drag):
    """Torque in N·m that turns an engine at a speed in rpm with oil of a viscosity in mm²/s (shapes broadcast).

    dry + film √(ν/1,000 · n/100). The friction of an oil film that carries its load goes with the square root of
    viscosity times speed, as for piston rings and skirts; for a whole engine that is a rule of thumb (common practice,
    no source). Raises ValueError for what is below 0.

    >>> [round(float(nm)) for nm in cranking_torque_nm(100.0, [1000.0, 9000.0], Drag(45.0, 50.0))]
    [95, 195]
    """
    rpm = checks.numbers("rpm", rpm, low=0, unit="rpm")
    viscosity = checks.numbers("viscosity_mm2_s", viscosity_mm2_s, low=0, unit="mm²/s")
    checks.same_shape(rpm=rpm, viscosity_mm2_s=viscosity)
    return drag.dry_nm + drag.film_nm * np.sqrt(viscosity / FILM_MM2_S * rpm / FILM_RPM)


def crank(source_v, source_ohm, cable_ohm, starter, drag, viscosity_mm2_s):
    """Where speed and current settle while a starter turns an engine (all shapes broadcast): a `Cranking`.

    Parameters: the source's volts at rest and its inner Ω; `cable_ohm`, there and back, with contacts; a `Starter`, a
    `Drag`, and the oil's viscosity in mm²/s. The starter's torque is k I, and V − I R = k ω for the whole circuit
    (Kirchhoff, and a DC motor with a constant field); the speed is where that torque is the engine's, a root of a
    quadratic in √ω. An engine that is too stiff stands still, and the current is V/R. Raises ValueError for what is
    below 0, and for a circuit without any resistance.

    >>> run = crank(12.7, 0.01, 0.004, Starter(0.6, 0.012), Drag(45.0, 50.0), [1000.0, 9000.0])
    >>> run.rpm.round().tolist(), run.current_a.round().tolist()
    ([132.0, 79.0], [171.0, 297.0])
    """
    volts = checks.numbers("source_v", source_v, low=0, unit="V")
    inside = checks.numbers("source_ohm", source_ohm, low=0, unit="Ω")
    cable = checks.numbers("cable_ohm", cable_ohm, low=0, unit="Ω")
    nu = checks.numbers("viscosity_mm2_s", viscosity_mm2_s, low=0, unit="mm²/s")
    checks.same_shape(source_v=volts, source_ohm=inside, cable_ohm=cable, viscosity_mm2_s=nu)
    k = starter.nm_per_a
    ohm = checks.numbers("resistance of the whole circuit", inside + cable + starter.ohm, above=0, unit="Ω")
    film = drag.film_nm * np.sqrt(nu * RPM_PER_RAD_S / FILM_MM2_S / FILM_RPM)
    spare = np.maximum(k * volts / ohm - drag.dry_nm, 0.0)
    root = 2 * spare / np.maximum(film + np.sqrt(film**2 + 4 * k**2 / ohm * spare), 1e-300)
    back = k * root**2
    current = (volts - back) / ohm
    terminals = volts - current * inside
    found = (root**2 * RPM_PER_RAD_S, current, k * current, volts, terminals, terminals - current * cable, back)
    return Cranking(*np.broadcast_arrays(*found))


def in_parallel(volts, ohms):
    """Volts and Ω of several sources side by side, taken as one; the last axis is summed (shapes broadcast).

    Σ(V/R)/Σ(1/R) and 1/Σ(1/R) (Millman's theorem). A source that is connected the wrong way round has negative volts.
    Raises ValueError for a resistance that is not above 0.

    >>> [float(x.round(3)) for x in in_parallel([12.0, 14.0], [0.02, 0.01])]
    [13.333, 0.007]
    """
    volts = checks.numbers("volts", volts, unit="V")
    lets = 1 / checks.numbers("ohms", ohms, above=0, unit="Ω")
    checks.same_shape(volts=volts, ohms=lets)
    whole = np.sum(lets, axis=-1)
    return np.sum(volts * lets, axis=-1) / whole, 1 / whole


def tries(battery, state, temperature_c, cable_ohm, starter, drag, viscosity_mm2_s, seconds, count=3, cart=None):
    """Crank several times, one after the other: a list of `Cranking`, and the states of charge before and after each.

    Parameters: a `Battery`, its state of charge and temperature in °C; `cable_ohm`, `starter`, `drag` and
    `viscosity_mm2_s` as for `crank`; the `seconds` of each try; how many; `cart`, volts and Ω of ground power beside
    the battery. Each try takes `share_used` of what the battery can give, and nothing while the cart carries it all;
    with nothing left the battery gives no current. Single numbers only. Raises ValueError as `crank` and `share_used`
    do.

    >>> runs, states = tries(Battery(6, 30.0, 0.008), 1.0, -15.0, 0.004, Starter(0.6, 0.012), Drag(45.0, 50.0),
    ...     4000.0, seconds=10.0)
    >>> [round(float(run.rpm)) for run in runs], [round(float(s), 2) for s in states]
    ([81, 77, 73], [1.0, 0.92, 0.84, 0.76])
    """
    runs, states = [], [checks.number("state", state, 0, 1)]
    if not isinstance(count, int) or count < 1:
        raise ValueError(f"count is {checks.short(count)}; allowed: a whole number of tries, 1 or more")
    for _ in range(count):
        volts, inside = battery.at(states[-1], temperature_c)
        if states[-1] == 0:
            both = cart or (0.0, inside)
        else:
            both = (volts, inside) if cart is None else in_parallel([volts, cart[0]], [inside, cart[1]])
        runs.append(crank(*both, cable_ohm, starter, drag, viscosity_mm2_s))
        given_a = max((volts - runs[-1].terminals_v) / inside, 0.0) if states[-1] else 0.0
        used = share_used(given_a, seconds, battery.rated_ah, temperature_c)
        states.append(max(states[-1] - float(used), 0.0))
    return runs, states
