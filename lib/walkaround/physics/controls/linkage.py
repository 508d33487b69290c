"""Which surface moves which way for what hands and feet do, as it should be and with something wrong.

Hands and feet are shares of full travel: `roll` right, `pitch` back, `yaw` the right pedal and `trim` nose up are
positive. Surfaces are in degrees, trailing edge up or, of the rudder, right positive; flaps down positive. Between
neutral and its stop a surface moves in proportion, which is a simplification: a real linkage is not quite straight.
"""

from dataclasses import dataclass

import numpy as np

from walkaround import checks

(
    NOTHING, AILERONS_CROSSED, AILERON_LOOSE, ELEVATOR_REVERSED, ELEVATOR_SHORT, RUDDER_REVERSED, TAB_REVERSED,
    FLAP_LAGS, LOCKED,
) = FAULTS = (
    "nothing wrong", "ailerons crossed", "one aileron not connected", "elevator reversed", "elevator short of travel",
    "rudder reversed", "trim tab reversed", "one flap lagging", "a lock left in",
)  # fmt: skip


@dataclass(frozen=True)
class Rigging:
    """Greatest deflection of each surface in degrees, each way; raises ValueError for one outside 0 to 90.

    >>> Rigging(aileron_up=20, aileron_down=15, elevator_up=28, elevator_down=23, rudder_left=18, rudder_right=18,
    ...     tab_up=15, tab_down=22, flap=30).elevator_up
    28
    """

    aileron_up: float
    aileron_down: float
    elevator_up: float
    elevator_down: float
    rudder_left: float
    rudder_right: float
    tab_up: float
    tab_down: float
    flap: float

    def __post_init__(self):
        for name, deg in vars(self).items():
            checks.number(name, deg, 0, 90, "°")


@dataclass(frozen=True)
class Hands:
    """What hands and feet do: shares of full travel from −1 to 1, and flaps selected in degrees.

    >>> Hands(roll=1.0).pitch
    0.0
    """

    roll: float = 0.0
    pitch: float = 0.0
    yaw: float = 0.0
    trim: float = 0.0
    flap_deg: float = 0.0


@dataclass(frozen=True)
class Fault:
    """Something wrong: its `kind`, one of `FAULTS`; by how many degrees; and on which side, where there are two.

    >>> Fault("elevator short of travel", missing_deg=3.0).on_left
    True
    """

    kind: str = NOTHING
    missing_deg: float = 0.0
    on_left: bool = True


@dataclass(frozen=True)
class Surfaces:
    """Where everything stands, as `positions` returns it: degrees, and the wheel or stick itself in shares of travel.

    `left_aileron`, `right_aileron`, `elevator` and `tab`: trailing edge up positive. `rudder`: right positive.
    `left_flap` and `right_flap`: down. The tab's angle is measured from the elevator.

    >>> Surfaces(*np.zeros(9)).tab
    np.float64(0.0)
    """

    left_aileron: np.ndarray
    right_aileron: np.ndarray
    elevator: np.ndarray
    rudder: np.ndarray
    tab: np.ndarray
    left_flap: np.ndarray
    right_flap: np.ndarray
    roll: np.ndarray
    pitch: np.ndarray


def positions(rigging, hands, fault=None):
    """Where surfaces and wheel stand for what hands and feet do: `Surfaces` (the fields of `hands` broadcast).

    Wheel right: right aileron up, left one down. Wheel back: elevator up. Right pedal: rudder right. Trim to nose up:
    tab down, so that the air lifts the elevator's trailing edge. A lock through the control column holds wheel,
    ailerons and elevator. A fault's `missing_deg` is what an elevator lacks of its up travel (as far as it goes it
    moves as ever), or what a flap lacks of the other; an aileron that is not connected stays at neutral. Raises
    ValueError for shares outside −1 to 1, flaps outside 0 to the rigging's, a fault that is none of `FAULTS`, degrees
    below 0 or, of the elevator, beyond its up travel, or shapes that don't fit.

    >>> rigging = Rigging(20, 15, 28, 23, 18, 18, 15, 22, 30)
    >>> there = positions(rigging, Hands(roll=1.0, pitch=1.0), Fault("elevator short of travel", missing_deg=3.0))
    >>> float(there.right_aileron), float(there.left_aileron), float(there.elevator)
    (20.0, -15.0, 25.0)
    """
    fault = Fault() if fault is None else fault
    if fault.kind not in FAULTS:
        raise ValueError(f"fault is {fault.kind!r}; allowed: {', '.join(FAULTS)}")
    most = rigging.elevator_up if fault.kind == ELEVATOR_SHORT else None
    missing = checks.number("missing_deg", fault.missing_deg, 0, most, "°")
    given = {name: checks.numbers(name, getattr(hands, name), -1, 1) for name in ("roll", "pitch", "yaw", "trim")}
    given["flap_deg"] = checks.numbers("flap_deg", hands.flap_deg, 0, rigging.flap, "°")
    roll, pitch, yaw, trim, flap = checks.same_shape(**given)
    if fault.kind == LOCKED:
        roll, pitch = np.zeros_like(roll), np.zeros_like(pitch)
    turned = -roll if fault.kind == AILERONS_CROSSED else roll
    left, right = (_between(way, rigging.aileron_up, rigging.aileron_down) for way in (-turned, turned))
    pulled = -pitch if fault.kind == ELEVATOR_REVERSED else pitch
    elevator = _between(pulled, rigging.elevator_up, rigging.elevator_down)
    if fault.kind == ELEVATOR_SHORT:
        elevator = np.minimum(elevator, rigging.elevator_up - missing)
    pushed = -yaw if fault.kind == RUDDER_REVERSED else yaw
    wound = trim if fault.kind == TAB_REVERSED else -trim
    loose, lags = fault.kind == AILERON_LOOSE, fault.kind == FLAP_LAGS
    late = np.maximum(flap - missing, 0.0) if lags else flap
    return Surfaces(
        left * 0 if loose and fault.on_left else left,
        right * 0 if loose and not fault.on_left else right,
        elevator,
        _between(pushed, rigging.rudder_right, rigging.rudder_left),
        _between(wound, rigging.tab_up, rigging.tab_down),
        late if fault.on_left else flap,
        flap if fault.on_left else late,
        roll,
        pitch,
    )


def _between(share, positive, negative):
    """Degrees for a share of travel whose two ways end at different stops."""
    return np.where(share >= 0, share * positive, share * negative)
