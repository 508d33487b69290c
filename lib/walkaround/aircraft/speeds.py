"""Two sections of an aircraft file: the speeds, and the take-off roll."""

from walkaround.aircraft.section import NotNegative, Positive, Section
from walkaround.units import FOOT_M

# In each pair the first may not be above the second; where the third is true, nor equal to it.
_IN_ORDER = (
    ("vs0", "vs1", False),
    ("vs0", "vfe", True),
    ("vs1", "vno", True),
    ("vfe", "vno", False),
    ("vno", "vne", True),
    ("first_mark", "lift_off", False),
    ("lift_off", "climb", False),
    ("vs1", "climb", True),
    ("climb", "vno", False),
    ("vs1", "cruise", True),
    ("cruise", "vne", False),
    ("vs0", "approach", True),
    ("approach", "vno", False),
)


class Speeds(Section):
    """Speeds in kt, calibrated, at the greatest weight; stall and limit speeds as in 14 CFR 1.2.

    `vs0` and `vfe`, with flaps extended, come together or not at all. `lift_off`, `climb`, `cruise` and `approach` are
    speeds a flight is flown by; `first_mark` is the lowest mark on the indicator, where "airspeed alive" is called.
    """

    vs1: Positive
    vno: Positive
    vne: Positive
    vs0: Positive | None = None
    vfe: Positive | None = None
    lift_off: Positive
    climb: Positive
    cruise: Positive
    approach: Positive
    first_mark: Positive

    @property
    def arcs(self):
        """What an airspeed dial marks, as keyword arguments."""
        names = ("vs1", "vno", "vne", "vs0", "vfe", "first_mark")
        return {name: getattr(self, name) for name in names}


class TakeOff(Section):
    """The take-off roll and how it is stopped.

    `ground_roll` on a standard day at sea level, still air, greatest weight: in ft in a file of pounds and inches, in m
    in one of kilograms and metres. `deceleration_kt_s` is braking in knots a second, `reaction_s` the time until it
    begins.
    """

    ground_roll: Positive
    deceleration_kt_s: Positive
    reaction_s: NotNegative

    def ground_roll_ft(self, units):
        """Ground roll in ft; `units` is the file's section of units."""
        return self.ground_roll if units.arm == "in" else self.ground_roll / FOOT_M


def speed_problems(parts):
    """Speeds out of order, (key, value, what is allowed) for each; `parts` has the sections that are sound."""
    speeds, problems = parts.get("speeds"), []
    if speeds is None:
        return problems
    for one, other in (("vs0", "vfe"), ("vfe", "vs0")):
        if getattr(speeds, one) is None and getattr(speeds, other) is not None:
            problems.append((f"speeds.{other}", getattr(speeds, other), f"only together with {one}"))
    for slower, faster, apart in _IN_ORDER:
        low, high = getattr(speeds, slower), getattr(speeds, faster)
        if low is not None and high is not None and (low > high or (apart and low == high)):
            than = "more than" if apart else "at least"
            problems.append((f"speeds.{faster}", high, f"{than} {slower}, {low:g} kt"))
    return problems
