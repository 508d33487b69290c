"""How much cooling air gets through a cowl: what drives it, and what stands in its way."""

import numpy as np

from walkaround import checks
from walkaround.physics.cooling.heat import LEAST_POWER


def cooling_speed_kt(speed_kt, power, slipstream_kt):
    """Airspeed in kt whose pressure drives air through the cowl, at a share of full power (shapes broadcast).

    √(V² + V_s²): the dynamic pressures of flight and of the propeller's slipstream add up, a simplification.
    `slipstream_kt` is what reaches the intakes standing still at full power; it grows with power to ⅓ (momentum theory
    of a propeller at rest: B. W. McCormick, Aerodynamics, Aeronautics and Flight Mechanics, ch. 6, recalled). Raises
    ValueError for a speed outside 0 to 400 kt, a power outside 0.02 to 1 or a slipstream that is not above 0.

    >>> cooling_speed_kt([0.0, 30.0], 1.0, 40.0).tolist()
    [40.0, 50.0]
    """
    speed = checks.numbers("speed_kt", speed_kt, 0, 400, "kt")
    power = checks.numbers("power", power, LEAST_POWER, 1)
    slipstream = checks.numbers("slipstream_kt", slipstream_kt, above=0, unit="kt")
    checks.same_shape(speed_kt=speed, power=power, slipstream_kt=slipstream)
    return np.hypot(speed, slipstream * np.cbrt(power))


def series_share(open_share, intake_ratio):
    """Flow through an intake and the baffles behind it, as a share of that with the intake clear (shapes broadcast).

    Two openings in series: 1/A² = 1/A_intake² + 1/A_baffles² (Bernoulli with the jet's pressure lost behind each).
    `intake_ratio` is the clear intake's area over that of the baffles. Half of a wide intake passes more than half of
    the air. Raises ValueError for a share not from 0 to 1 or a ratio that is not above 0.

    >>> series_share([0.0, 0.5, 1.0], 1.2).round(2).tolist()
    [0.0, 0.67, 1.0]
    """
    a = checks.numbers("open_share", open_share, 0, 1)
    squared = checks.numbers("intake_ratio", intake_ratio, above=0) ** 2
    checks.same_shape(open_share=a, intake_ratio=squared)
    return a * np.sqrt((1 + squared) / (1 + squared * a**2))


def bank_shares(left_open, right_open, intake_ratio, leak, shared):
    """Air through the left bank, the right one and what both intakes feed, as shares of it with both clear.

    A share `leak` of an intake's area is gaps that nothing blocks: it is open by leak + (1 − leak) · open. Of a bank's
    air a share `shared` comes from the space above the engine, which both intakes feed, and the rest straight from its
    own intake: a simplification. `series_share` gives either, for the space with the mean of both openings; that is the
    third result, for what draws from there, such as an oil cooler. Shares are from 0 to 1, `leak` is above 0; shapes
    broadcast. Raises ValueError for one out of range.

    >>> [float(share.round(2)) for share in bank_shares(1.0, 0.0, intake_ratio=1.2, leak=0.05, shared=0.5)]
    [0.85, 0.39, 0.69]
    """
    leak = checks.numbers("leak", leak, above=0, high=1)
    given = {"left_open": left_open, "right_open": right_open, "shared": shared}
    given = {name: checks.numbers(name, share, 0, 1) for name, share in given.items()}
    checks.same_shape(leak=leak, intake_ratio=intake_ratio, **given)
    *opened, shared = given.values()
    left, right = (leak + (1 - leak) * share for share in opened)
    both = series_share((left + right) / 2, intake_ratio)
    own = (1 - shared) * np.stack(np.broadcast_arrays(*(series_share(a, intake_ratio) for a in (left, right))))
    return (*(own + shared * both), both)
