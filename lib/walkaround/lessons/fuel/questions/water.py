"""Questions on water: where it lies, what a drain gives, how it got in, and the chance that a sample misses it."""

from functools import cache

import numpy as np

from walkaround.assessment.builders import choice, number
from walkaround.lessons.fuel.questions.quantity import TANK
from walkaround.physics import fuel

CUPFUL_L = 0.25
# (nose up, left wing low) in degrees. Each has one drain that gives the cupful, or none.
STANDS = ((0, 0), (2, 0), (3, -2), (-3, 0), (-4, -1), (-3, -2), (0, 3), (2, 3), (1, 4), (-3, 3), (-4, 4))
VAPOUR_C = (10, 12, 14, 16, 24, 26, 28, 30)
SLOPE_CM_PER_M = 3.0


def questions(v):
    """Questions on water for a student's draws `v`."""
    return _drain(v), _stays(v), _condensed(v), _leak(v), _nights(v), _chance(v)


@cache
def catching(nose_up, wing_low):
    """Names of the left tank's drains that give at least a spoonful of a cupful of water.

    >>> catching(0, 0)
    ('inboard rear',)
    """
    aft, out = zip(*((drain.aft, drain.out) for drain in TANK.drains), strict=True)
    gives = fuel.drain_gives_l(TANK.solid, CUPFUL_L, aft, out, nose_up, wing_low)
    return tuple(drain.name for drain, litres in zip(TANK.drains, gives, strict=True) if litres > 0.005)


def _drain(v):
    nose, wing = v.pick("stands", STANDS)
    stands = [f"its nose {abs(nose)}° {'high' if nose > 0 else 'low'}"] if nose else []
    stands += [f"its left wing {abs(wing)}° {'low' if wing > 0 else 'high'}"] if wing else []
    how = f"with {' and '.join(stands)}" if stands else "on level ground"
    caught, dihedral, falls = catching(nose, wing), TANK.dihedral_deg, TANK.floor_falls_aft_deg
    answer = caught[0] if len(caught) == 1 else "none" if not caught else "unclear"
    options = [*((drain.name, f"The {drain.name} drain") for drain in TANK.drains), ("none", "None of the four")]
    usual = "On level ground it would. As it stands now, another corner is lower."
    no_drain = "It runs to the lowest corner, and there is a drain there."
    return choice(
        "drain",
        "Which drain catches it",
        f"A cupful of water lies in the left tank of the Morrowlark, which stands {how}. On level ground the tank's "
        f"floor rises {dihedral:g}° outboard and falls {falls:g}° towards the rear. It "
        "has three drains at the rear (inboard, middle, outboard) and one at the front, inboard. Which of them gives "
        "water?",
        answer=answer,
        options=options,
        points=3,
        hint="Add the ground's tilt to the floor's own: which corner is lowest now?",
        worked=(
            f"outboard the floor rises {dihedral:g} − ({wing}) = {dihedral - wing:.1f}°".replace("-", "−"),
            f"towards the rear it falls {falls:g} + ({nose}) = {falls + nose:g}°".replace("-", "−"),
            f"so the water is {'inboard' if wing < dihedral else 'outboard'}, at the "
            f"{'rear' if nose > -falls else 'front'}: {dict(options)[answer].lower()}"
            if answer in dict(options)
            else "",
        ),
        wrong=[
            ("inboard rear", "slope left out", usual) if answer != "inboard rear" else None,
            ("none", "drain not seen", no_drain) if answer != "none" else None,
            ("outboard rear", "lowest corner turned round", "Work out which way the floor falls as it stands.")
            if answer not in ("outboard rear", "none")
            else None,
            ("outboard rear", "nose left out", "Outboard it is, but the nose is low: the water is at the front.")
            if answer == "none"
            else None,
        ],
    )


@cache
def _gives_ml(water_ml, reach_cm):
    """What a drain some way outboard of the lower edge gives, in a tank that is level from front to rear."""
    dihedral = float(np.degrees(np.arctan(SLOPE_CM_PER_M / 100)))
    solid = fuel.Tank(TANK.length_cm, TANK.width_cm, TANK.depth_cm, dihedral)
    return 1000 * float(fuel.drain_gives_l(solid, water_ml / 1000, 0.5, reach_cm / TANK.width_cm))


def _stays(v):
    water, reach = v.number("in the tank", 600, 1500, 50), v.number("reach", 10, 22)
    length, slope = TANK.length_cm, SLOPE_CM_PER_M / 100
    answer = _gives_ml(water, reach)
    stays = water - answer
    return number(
        "gives",
        "Before fuel comes",
        f"{water:,.0f} mL of water lies in a tank whose floor is level from front to rear and rises {SLOPE_CM_PER_M:g} "
        f"cm for each metre outboard. The tank is {length:g} cm long from front to rear, and its only drain is "
        f"{reach:.0f} cm outboard of the lower edge. How much water runs out of it before fuel comes?",
        answer=answer,
        unit="mL",
        tolerance=8,
        points=3,
        hint="Water runs out until it is down to the drain. What stays is a wedge: half of length × reach × depth.",
        worked=(
            f"the wedge that stays is {reach:.0f} × {slope:g} = {reach * slope:.2f} cm deep at the lower edge",
            f"{length:g} × {reach:.0f} × {reach * slope:.2f} ÷ 2 = {stays:.1f} mL stay, since 1 cm³ is 1 mL",
            f"{water:,.0f} − {stays:.1f} = {answer:.1f} mL",
        ),
        wrong=[
            (water, "nothing stays", "What lies lower than the drain can't run out of it."),
            (stays, "what stays for what comes", "That is what stays in the tank."),
            (water - 2 * stays, "a box for a wedge", "It is deep at one edge only: a wedge is half of that box."),
        ],
    )


@cache
def _vapour():
    """Grams of vapour in a cubic metre of saturated air by temperature in °C, to the digits of the table shown."""
    return {c: round(float(g), 1) for c, g in zip(VAPOUR_C, fuel.vapour_g_m3(VAPOUR_C), strict=True)}


def _condensed(v):
    air, evening, night = v.number("air", 80, 150, 10), v.pick("evening", VAPOUR_C[4:]), v.pick("night", VAPOUR_C[:4])
    humid = v.number("humid", 70, 90, 5)
    vapour = _vapour()
    before, after, cubic = vapour[evening], vapour[night], air / 1000
    answer = cubic * (humid / 100 * before - after)
    return number(
        "condensed",
        "One humid night",
        f"There are {air:.0f} L of air above the fuel in half-empty tanks. In the evening it is {evening} °C with a "
        f"relative humidity of {humid:.0f} %; by dawn the tank has cooled to {night} °C. The table gives the grams of "
        "vapour that a cubic metre of saturated air holds. How many grams of water come out of the air?",
        answer=answer,
        unit="g",
        tolerance=0.04,
        points=3,
        table=(("at", "saturated air holds"), *((f"{c} °C", f"{g:.1f} g in 1 m³") for c, g in vapour.items())),
        hint="What the air held in the evening, less what it can still hold at dawn. 1,000 L are 1 m³.",
        worked=(
            f"in the evening: {humid / 100:g} × {before:.1f} = {humid / 100 * before:.2f} g in 1 m³",
            f"{cubic:g} × ({humid / 100 * before:.2f} − {after:.1f}) = {answer:.2f} g",
        ),
        wrong=[
            (
                cubic * (before - after),
                "humidity left out",
                "The evening's air was not saturated: take its share first.",
            ),
            (
                cubic * humid / 100 * before,
                "all the vapour",
                "Most of the vapour stays in the air, as much as it can hold.",
            ),
            (
                cubic * humid / 100 * (before - after),
                "humidity of the dawn",
                "At dawn the air is saturated: all of that stays.",
            ),
            (1000 * answer, "litres for cubic metres", "1,000 L are one cubic metre."),
        ],
    )


def _leak(v):
    rain, share, area = v.number("rain", 8, 24), v.number("share", 25, 75, 5), TANK.cap.catches_m2
    answer = rain * area * share / 100
    return number(
        "leak",
        "One night of rain",
        f"{rain:.0f} mm of rain fall in a night. The wing leads what falls on {area:g} m² to the filler, and "
        f"{share:.0f} % of that runs past a hard, cracked seal into the tank. How many litres of water are in the tank "
        "in the morning?",
        answer=answer,
        unit="L",
        tolerance=0.02,
        points=2,
        hint="1 mm of rain on 1 m² is 1 L.",
        worked=f"{rain:.0f} × {area:g} × {share / 100:g} = {answer:.2f} L",
        wrong=[
            (
                rain * area,
                "all of it leaks in",
                "That is all that runs to the filler. A part of it gets past the seal.",
            ),
            (rain * share / 100, "area left out", "That is for a whole square metre."),
            (1000 * answer, "mL for litres", "That is in mL."),
            (answer / 10, "millimetres taken for tenths", "1 mm on 1 m² is a litre, not a tenth of one."),
        ],
    )


def _nights(v):
    litres, grams = v.number("leaked", 0.6, 1.8, 0.1), v.number("a night", 0.5, 1.6, 0.1)
    answer = 1000 * litres / grams
    return number(
        "nights",
        "The larger danger",
        f"One night of rain left {litres:.1f} L of water in a tank with a cracked seal. A humid night takes "
        f"{grams:.1f} g out of the air in a tank that is half empty. How many such humid nights would it take to bring "
        "in as much water as the leak in one?",
        answer=answer,
        unit="nights",
        tolerance=round(0.02 * answer, 1),
        points=2,
        hint="A litre of water is 1,000 g.",
        worked=f"1,000 × {litres:.1f} ÷ {grams:.1f} = {answer:,.0f} nights",
        wrong=[
            (litres / grams, "litres for grams", "You divided litres by grams: a litre is 1,000 g."),
            (grams / litres, "turned round", "You divided grams by litres. A litre is 1,000 g, and it goes on top."),
            (1000 * grams / litres, "turned round", "You divided the wrong way round."),
        ],
    )


@cache
def _missed(points, taken):
    return float(fuel.chance_missed(points, taken, wet=2))


def _chance(v):
    points = v.number("low points", 7, 13)
    taken = v.number("taken", 2, points - 4)
    answer = 100 * _missed(points, taken)
    dry, most = points - taken, "That is for water in one low point. Both of them have to be missed."
    return number(
        "chance",
        "The chance to miss it",
        f"An aircraft has {points:.0f} low points to sample, and water lies in two of them; nobody knows which. A "
        f"pilot in a hurry samples {taken:.0f} of them. With what chance, in per cent, does every sample look clean?",
        answer=answer,
        unit="%",
        tolerance=0.8,
        points=3,
        hint="The first wet low point must be among those not sampled, and then the second among the rest of those.",
        worked=(
            f"{points:.0f} − {taken:.0f} = {dry:.0f} are not sampled",
            f"{dry:.0f} ÷ {points:.0f} × {dry - 1:.0f} ÷ {points - 1:.0f} × 100 = {answer:.1f} %",
        ),
        wrong=[
            (100 * dry / points, "one wet point", most),
            (100 - answer, "found for missed", "That is the chance to find it."),
            (
                100 * (dry / points) ** 2,
                "the same one twice",
                "The two are different: one fewer is left for the second.",
            ),
            (100 * taken / points, "share that was sampled", "That is the share that was sampled."),
        ],
    )
