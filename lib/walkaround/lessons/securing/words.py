"""What is said of a parked aircraft in the wind: what goes first, at which wind, and what to do about it."""

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from walkaround import checks
from walkaround.live.status import NOTE, OK, STOP
from walkaround.physics.securing import (
    FAILURES,
    Parked,
    Standing,
    chock_force,
    elevator_at_deg,
    fails_at_kt,
    snatch,
    standing,
)

PLACES = ("left wing", "right wing", "tail")
DESIGN_KT = 65.0  # horizontal wind for which tie-down fittings are designed: 14 CFR 23.415(c), before 2017
RULES = (
    "Rules of thumb: what knots leave of a rope, its stretch, the tyres' grip. Left out: how ropes tighten as the "
    "aircraft shifts, and the lift that a rising nose adds."
)
LITTLE = 1.5  # times the load: less to spare than that is said


@dataclass(frozen=True)
class Held:
    """A parked aircraft, the steady wind and its gusts in kt, what stands there in the gusts, and the words for ropes.

    `staked`: the ropes' anchors are stakes, weaker than the ropes; `force` in N is the unit in which loads are told,
    `unit` its name.
    """

    parked: Parked
    wind_kt: float
    gust_kt: float
    there: Standing
    staked: bool
    force: float
    unit: str

    @property
    def fails(self):
        """The wind in kt at which each thing happens, by its name in `physics.securing.FAILURES`."""
        return fails_at_kt(self.parked)

    @property
    def first(self):
        """The wind in kt at which the first thing goes, and the names of all that go there."""
        out = () if self.parked.caught else ("moves",)
        going = {name: self.fails[name] for name in (*FAILURES[:4], *out)}
        kt = min(going.values())
        names = [name for name, at in going.items() if np.isfinite(at) and at <= kt + 0.06]
        # What tips slides as well: the graver of the two is told.
        return kt, [name for name in names if name != "moves"] or names

    def happened(self, name):
        """Whether a thing of `FAILURES` happens in the gusts."""
        return bool(checks.at_most(self.fails[name], self.gust_kt))

    def pull(self, newtons):
        """Write a force in the unit in which loads are told."""
        step = 10 if self.unit == "N" else 1
        return f"{step * round(newtons / self.force / step):,} {self.unit}"


def goes(held, names):
    """Say what goes, as a sentence's subject and verb."""
    places = [PLACES[FAILURES.index(name)] for name in names if name in FAILURES[:3]]
    if places:
        what = "stake" if held.staked else "rope"
        gives = ("pulls out", "pull out") if held.staked else ("breaks", "break")
        if len(places) == 3:
            return f"all three {what}s {gives[1]}"
        if places == ["left wing", "right wing"]:
            return f"both wing {what}s {gives[1]}"
        return " and ".join(f"the {place}'s {what}" for place in places) + f" {gives[len(places) > 1]}"
    return tips(held.parked) if "tips" in names else moves(held.parked)


def _around(parked, name, kt):
    """What stands there a little before or after the wind at which a thing happens, the elevator where it happens."""
    first = replace(parked, elevators_deg=(elevator_at_deg(parked, name),))
    return standing(first, max(fails_at_kt(parked)[name] + kt, 0.0))


@lru_cache(maxsize=64)
def tips(parked):
    """Say how it tips, by the wheels that carry next to nothing just before."""
    nose, left, right = (_around(parked, "tips", -0.3).wheels_n < 0.03 * parked.weight_n).tolist()
    if left and right:
        return "it flies off its wheels" if nose else "it goes on its nose"
    if left or right:
        return f"it rolls over, {'left' if left else 'right'} wing first"
    return "it sits on its tail" if nose else "it lifts"


@lru_cache(maxsize=64)
def moves(parked):
    """Say how it moves along the ground: rolls, slides or climbs its chocks."""
    if parked.braked:
        return "it slides"
    if not parked.chock_m:
        return "it rolls"
    mains = _around(parked, "moves", -0.3).wheels_n[1:].sum()
    climb = chock_force(mains, parked.wheel_radius_m, parked.chock_m)
    return "it climbs its chocks" if climb < parked.friction * mains else "it slides with its chocks"


@lru_cache(maxsize=64)
def lifts(parked):
    """Name the wheels that leave the ground first."""
    there = _around(parked, "wheel lifts", 0.2)
    off = [name for name, load in zip(("nose", "left", "right"), there.wheels_n, strict=True) if load <= 0]
    if len(off) == 3 or not there.held:
        return "the wheels lift"
    if len(off) == 1:
        return f"the {off[0]} wheel lifts"
    return "both main wheels lift" if "nose" not in off else f"the nose and {off[1]} wheels lift"


def say(held):
    """The verdict, the sentence and what more there is to say, as the stage takes them."""
    kt, names = held.first
    gusts = f"{held.gust_kt:.0f} kt"
    if checks.at_most(kt, held.gust_kt):
        words = f"{goes(held, names)} at {kt:.0f} kt; the gusts reach {gusts}."
        if names == ["moves"]:
            when = f"from {kt:.0f} kt on; the gusts reach {gusts}" if kt else "without any wind"
            words = f"{goes(held, names)} {when}, and no ropes catch it."
        return STOP, words[0].upper() + words[1:], *_more(held, kt, names)
    place = _jerked(held)
    if place is not None and breaks_if_jerked(held, place):
        what = "pulls out its stake" if held.staked else "breaks"
        words = f"If a gust of {gusts} comes all at once, the {PLACES[place]}'s slack rope {what} in the jerk."
        return STOP, words, *_more(held, kt, names)
    if not np.isfinite(kt):
        words = f"It holds in gusts of {gusts}, and as it stands it would hold in more than 150 kt."
    else:
        words = f"It holds in gusts of {gusts}. At {kt:.0f} kt {goes(held, names)}."
    little = kt < held.gust_kt * LITTLE**0.5 or not checks.at_most(held.gust_kt, DESIGN_KT)
    noted = little or held.happened("wheel lifts") or held.happened("moves") or _jerked(held) is not None
    return NOTE if noted else OK, words, *_more(held, kt, names)


def jerk_n(held, place):
    """Tension in N in a slack rope if the gust comes all at once; 0 if it is not there, not slack or not used."""
    rope, tension = held.parked.ropes[place], float(held.there.ropes_n[place])
    if not (rope and rope.slack_m and held.there.held and tension > 0):
        return 0.0
    return float(snatch(tension, rope.stiffness_n_m, rope.slack_m))


def breaks_if_jerked(held, place):
    """Whether a slack rope that holds a steady gust gives to one that comes all at once."""
    jerk = jerk_n(held, place)
    return jerk > 0 and bool(checks.at_least(jerk, held.parked.ropes[place].holds_n))


def _jerked(held):
    """The place of the slack rope that is jerked hardest for its strength, or None."""
    jerks = {place: jerk_n(held, place) for place in range(3)}
    jerks = {place: jerk / held.parked.ropes[place].holds_n for place, jerk in jerks.items() if jerk}
    return max(jerks, key=jerks.get) if jerks else None


def _more(held, kt, names):
    """What else there is to say, the most important first."""
    parked, fails = held.parked, held.fails
    broken = [i for i in range(3) if FAILURES[i] in names]
    if broken and len(broken) < 3 and kt <= held.gust_kt:
        left = replace(parked, ropes=tuple(None if i in broken else rope for i, rope in enumerate(parked.ropes)))
        then = fails_at_kt(left)
        holds = min(then[name] for name in FAILURES[:4])
        yield "After that nothing holds it." if holds <= kt else f"After that the rest holds to {holds:.0f} kt."
    if len(parked.elevators_deg) > 1:
        locked, _ = replace(held, parked=replace(parked, elevators_deg=(0.0,))).first
        if locked > kt + 1:
            to = f"to {locked:.0f} kt" if np.isfinite(locked) else "to more than 150 kt"
            yield f"The elevator is free and swings to its stop; locked, everything would hold {to}."
            if any(parked.ropes[:2]) and elevator_at_deg(parked, names[0]) < 0:
                yield "As the ropes stretch, the nose rises and the wing lifts more: less wind than this may be enough."
    if (place := _jerked(held)) is not None:
        jerk, holds = jerk_n(held, place), parked.ropes[place].holds_n
        much = "more than it holds" if breaks_if_jerked(held, place) else f"{100 * jerk / holds:.0f} % of its strength"
        pull = held.pull(jerk)
        yield f"The {PLACES[place]}'s rope is slack: a gust that comes all at once jerks it with up to {pull}, {much}."
    if held.happened("moves") and parked.caught:
        at = f"at {fails['moves']:.0f} kt" if fails["moves"] else "without any wind"
        words = moves(held.parked)
        yield f"{words[0].upper()}{words[1:]} {at}, until the ropes catch it."
    if held.happened("wheel lifts") and held.there.held and not held.there.broken.any():
        used = 100 * held.there.used.max()
        worst = f", and the ropes carry up to {used:.0f} % of their strength" if used >= 0.5 else ""
        words = lifts(held.parked)
        yield f"{words[0].upper()}{words[1:]} at {fails['wheel lifts']:.0f} kt{worst}."
    if kt > max(DESIGN_KT, held.gust_kt):
        yield (
            f"Its rings were designed for a wind of {DESIGN_KT:.0f} kt (14 CFR 23.415): above that the aircraft itself "
            "may give before a rope does."
        )
    if held.wind_kt and held.gust_kt > held.wind_kt:
        times = (held.gust_kt / held.wind_kt) ** 2
        yield f"Gusts of {held.gust_kt:.0f} kt pull {times:.1f} times as hard as a steady {held.wind_kt:.0f} kt."
    yield RULES
