"""Sums on air: what less of it does to a bank, and what a reduced climb gains."""

from walkaround.assessment.builders import number
from walkaround.lessons.cooling.words import degrees
from walkaround.physics.cooling import share_of_full
from walkaround.physics.preheat.heat_transfer import FLOW_EXPONENT

_AIR, _MORE_AIR, _POWER = (100, 80, 60, 50, 40, 30), (100, 105, 110, 115, 120), (100, 85, 75, 65)


def questions(v, g):
    """Questions on cooling air, for a student's draws `v` and `Givens` `g`."""
    return _share(v, g), _reduced(v, g)


def taken(air):
    """Heat taken for each °C with a percentage of the air, in whole per cent: as the air to 0.6."""
    return round(100 * (air / 100) ** FLOW_EXPONENT)


def heat(power):
    """Heat into the heads at a percentage of power, in whole per cent."""
    return round(100 * float(share_of_full(power / 100)))


def _rows(first, values, second, function):
    """A table of two rows."""
    return ((first, *(f"{x} %" for x in values)), (second, *(f"{function(x)} %" for x in values)))


def _share(v, g):
    air, outside, clear_c = v.pick("air", (50, 40, 30)), v.number("hot day", 20, 32), v.number("clear", 184, 200)
    share = taken(air) / 100
    rise = clear_c - outside
    return number(
        "share",
        "One side with less air",
        f"With all of its air, a side's heads settle at {clear_c:.0f} °C, at {outside:.0f} °C outside. A nest leaves "
        f"this side {air} % of its air. What that air takes for each °C stands in the table. Where do they settle now, "
        "at the same power?",
        answer=outside + rise / share,
        unit="°C",
        tolerance=3.0,
        points=3,
        table=_rows("air", _AIR, "heat taken for each °C", taken),
        hint="The same heat has to go. If each °C carries away less, it takes more of them: more above the outside.",
        worked=(
            f"{clear_c:.0f} − {outside:.0f} = {rise:.0f} °C hotter than the outside with all the air",
            f"{rise:.0f} ÷ {share:.2f} = {rise / share:.1f} °C with {air} % of it",
            f"{outside:.0f} + {rise / share:.1f} = {outside + rise / share:.1f} °C",
        ),
        wrong=[
            (clear_c / share, "outside scaled too", "Only what is above the outside grows."),
            (
                outside + rise / (air / 100),
                "air for heat",
                f"With {air} % of the air, each °C still carries away more than {air} % of the heat: see the table.",
            ),
            (
                outside + rise * (2 - share),
                "added what is missing",
                "If a part of the heat is carried by each °C, divide by that part.",
            ),
        ],
    )


def _reduced(v, g):
    power, air = v.pick("reduced power", _POWER[1:]), v.pick("more air", _MORE_AIR[1:])
    outside, blocked_c = v.number("reduced day", 25, 33), v.number("blocked", 262, 290)
    less, more = heat(power) / 100, taken(air) / 100
    rise = blocked_c - outside
    answer = outside + rise * less / more
    limit = g.section.head_limit_c
    verdict = "below" if answer < limit else "above"
    return number(
        "reduced",
        "What a reduced climb gains",
        f"With a plug in one intake, the heads on that side would settle at {blocked_c:.0f} °C in a climb at full "
        f"power, at {outside:.0f} °C outside. You reduce to {power} % of power and lower the nose; the higher speed "
        f"drives {air} % of the air through the cowl. Where do they settle now?",
        answer=answer,
        unit="°C",
        tolerance=2.0,
        points=3,
        table=(
            ("power", *(f"{p} %" for p in _POWER), ""),
            ("heat into the heads", *(f"{heat(p)} %" for p in _POWER), ""),
            *_rows("air", _MORE_AIR, "heat taken for each °C", taken),
        ),
        hint="How much hotter than the outside were they? Less heat makes it less, and so does more air.",
        worked=(
            f"{blocked_c:.0f} − {outside:.0f} = {rise:.0f} °C hotter than the outside before",
            f"{rise:.0f} × {less:.2f} ÷ {more:.2f} = {rise * less / more:.1f} °C now",
            f"{outside:.0f} + {rise * less / more:.1f} = {answer:.1f} °C, {verdict} the limit of {degrees(limit)}",
        ),
        wrong=[
            (outside + rise * less, "air left out", "That is what less power does. More speed helps on top of it."),
            (outside + rise / more, "power left out", "That is what more air does. Less power helps on top of it."),
            (blocked_c * less / more, "outside scaled too", "Only what is above the outside shrinks."),
            (
                outside + rise * power / 100 / more,
                "power for heat",
                f"At {power} % of power the heads still get {heat(power)} % of the heat: see the table.",
            ),
        ],
    )
