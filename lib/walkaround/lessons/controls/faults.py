"""The faults that the lesson hides in an aircraft: made up, and the same for every class."""

import hashlib

from walkaround.physics.controls import FAULTS, Fault, linkage

_SHORT_DEG, _LAG_DEG = (3, 4, 5, 6), (7, 8, 9, 10)  # made up: enough to be seen at the stops


def fault_of(kind, drawn=0, on_left=True):
    """A fault of a kind, with degrees where it has any; `drawn` chooses them.

    >>> fault_of("elevator short of travel", 1).missing_deg
    4.0
    """
    missing = {linkage.ELEVATOR_SHORT: _SHORT_DEG, linkage.FLAP_LAGS: _LAG_DEG}.get(kind, (0,))
    return Fault(kind, float(missing[drawn % len(missing)]), on_left)


def hidden(number):
    """The fault of the aircraft of that number, the same for every class: of nine in a row each has another.

    The order is from a hash. Its source: NIST FIPS 180-4, SHA-256.

    >>> sorted({hidden(number).kind for number in range(1, 10)}) == sorted(FAULTS)
    True
    """
    turn, place = divmod(number - 1, len(FAULTS))
    kind = sorted(FAULTS, key=lambda kind: hashlib.sha256(f"control check {turn} {kind}".encode()).digest())[place]
    drawn = hashlib.sha256(f"control check {number}".encode()).digest()
    return fault_of(kind, drawn[1], drawn[2] % 2 == 0)
