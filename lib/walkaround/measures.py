"""The units that things are shown in: one choice, US or metric, for every demonstration, question and figure.

The library works in units of its own; what a person reads goes through here. Knots, feet of height and feet a minute
stay in both: ICAO Annex 5 lets aviation use them beside the units of the SI (recalled). Where nothing was chosen,
things are shown in the units that they are written in: an aircraft in those of its own file.
"""

import math
from contextlib import contextmanager
from contextvars import ContextVar

from walkaround.units import (
    FOOT_M,
    GRAVITY_M_S2,
    HORSEPOWER_W,
    INHG_HPA,
    POUND_KG,
    US_GALLON_L,
    US_QUART_L,
    celsius,
    fahrenheit,
)

US, METRIC = "US", "metric"
SYSTEMS = (US, METRIC)
_INCH_M = FOOT_M / 12.0
_POUND_N = POUND_KG * GRAVITY_M_S2

# What a unit is in the other system: US unit, metric unit, the metric number of one US unit, and how many decimals
# more (or fewer, if negative) the metric number has. Pounds of force are "lbf" here and written lb.
PAIRS = (
    ("lb", "kg", POUND_KG, 0),
    ("lbf", "N", _POUND_N, 0),
    ("in", "cm", 100.0 * _INCH_M, 0),
    ("arm", "m", _INCH_M, 2),  # inches that are an arm or a centre of gravity
    ("tape", "mm", 1000.0 * _INCH_M, -1),  # inches that a tape measures
    ("ft", "m", FOOT_M, 0),
    ("lb-in", "kg-m", POUND_KG * _INCH_M, 1),
    ("lb-ft", "N·m", _POUND_N * FOOT_M, 0),
    ("sq ft", "m²", FOOT_M**2, 1),
    ("lb/in", "N/cm", _POUND_N / (100.0 * _INCH_M), 0),  # stiffness
    ("ft²", "m²", FOOT_M**2, 2),  # beside lb/ft²
    ("lb/ft²", "Pa", _POUND_N / FOOT_M**2, -1),
    ("sq in", "cm²", (100.0 * _INCH_M) ** 2, 0),
    ("US gal", "L", US_GALLON_L, 0),
    ("qt", "L", US_QUART_L, 0),
    ("US gal/h", "L/h", US_GALLON_L, 0),
    ("qt/h", "L/h", US_QUART_L, 0),
    ("lb/US gal", "kg/L", POUND_KG / US_GALLON_L, 2),
    ("lb/h", "kg/h", POUND_KG, 0),
    ("in/qt", "mm/L", 1000.0 * _INCH_M / US_QUART_L, 0),  # of a dipstick
    ("inHg", "hPa", INHG_HPA, -1),
    ("hp", "kW", HORSEPOWER_W / 1000.0, 0),
)
_BY_US = {us: (metric, times, more) for us, metric, times, more in PAIRS}
_WRITTEN = {"lbf": "lb", "arm": "in", "tape": "in"}
_NAMES = {"lb": "pounds", "kg": "kilograms", "N": "newtons", "in": "inches", "mm": "millimetres", "cm": "centimetres"}
_NAMES |= {"ft": "feet", "m": "metres", "US gal": "US gallons", "qt": "quarts", "L": "litres"}
_ONE = {"inches": "inch", "feet": "foot"}
_CHOSEN: ContextVar[str | None] = ContextVar("units", default=None)


def chosen():
    """The system that things are shown in now: US, METRIC, or None where nothing was chosen."""
    return _CHOSEN.get()


@contextmanager
def shown_in(system):
    """Show things in a system of units meanwhile: US, METRIC, or None for as they are written.

    >>> with shown_in(METRIC):
    ...     words(2120, "lb")
    '962 kg'
    """
    if system not in (*SYSTEMS, None):
        raise ValueError(f"units are {system!r}; allowed: {', '.join(SYSTEMS)}")
    token = _CHOSEN.set(system)
    try:
        yield
    finally:
        _CHOSEN.reset(token)


def factor(of):
    """The metric number of one US unit.

    >>> factor("ft")
    0.3048
    """
    return _BY_US[of][1]


def unit(of):
    """The unit that a quantity is shown in; `of` is a US unit of the table above, any other unit stays as it is.

    >>> unit("lbf"), unit("kt")
    ('lb', 'kt')
    """
    if chosen() == METRIC and of in _BY_US:
        return _BY_US[of][0]
    return _WRITTEN.get(of, of)


def name(of, one=False):
    """What the unit is called that a quantity is shown in; `one` of it, or several.

    >>> name("lbf"), name("qt"), name("in", one=True)
    ('pounds', 'quarts', 'inch')
    """
    several = _NAMES[unit(of)]
    return _ONE.get(several, several[:-1]) if one else several


def value(number, of):
    """A number (a scalar or an array) of US units as it is shown: the same, or in the metric unit.

    >>> with shown_in(METRIC):
    ...     round(value(24.5, "US gal"), 1)
    92.7
    """
    return number * _BY_US[of][1] if chosen() == METRIC and of in _BY_US else number


def given(number, of, decimals=0, metric=None):
    """A number of US units that a student is given to compute with: rounded as `words` shows it, where that converts.

    >>> with shown_in(METRIC):
    ...     given(104.0, "arm", 1)
    2.642
    """
    if chosen() != METRIC or of not in _BY_US:
        return number
    return round(float(value(number, of)), max(0, places(of, decimals, metric)))


def entered(number, of):
    """A number as a hand gives it, in the unit that is shown, in the US unit `of`; the inverse of `value`.

    >>> with shown_in(METRIC):
    ...     round(entered(value(24.5, "US gal"), "US gal"), 9)
    24.5
    """
    return number / _BY_US[of][1] if chosen() == METRIC and of in _BY_US else number


def places(of, decimals=0, metric=None):
    """How many decimals a number has where it is shown: `decimals` in US units; `metric`, or as many as fit, else."""
    if chosen() != METRIC or of not in _BY_US:
        return decimals
    return metric if metric is not None else decimals + _BY_US[of][2]


def words(number, of, decimals=0, metric=None):
    """A number of US units with its unit, as it is shown: thousands marked, with `decimals` in US units.

    `metric` is how many decimals it has in the metric unit, if not as many as usual for the pair of units.

    >>> words(1115.2, "ft"), words(-0.04, "in", 1)
    ('1,115 ft', '0.0 in')
    >>> with shown_in(METRIC):
    ...     words(1115.2, "ft"), words(103.8, "arm", 1), words(4.7, "in", 1)
    ('340 m', '2.637 m', '11.9 cm')
    """
    return f"{figures(number, of, decimals, metric)} {unit(of)}"


def figures(number, of, decimals=0, metric=None):
    """The same as `words`, without the unit.

    >>> figures(1540, "lb")
    '1,540'
    """
    text = f"{value(float(number), of):,.{max(0, places(of, decimals, metric))}f}"
    return text.lstrip("-") if not any(c in "123456789" for c in text) else text


def converted(number, unit_from, unit_to):
    """A number in another unit of the table, either way; raises ValueError where the two don't belong together.

    >>> round(converted(81.6, "kg", "lb"), 1)
    179.9
    """
    if unit_from == unit_to:
        return number
    for us, metric, times, _ in PAIRS:
        if (unit_from, unit_to) == (_WRITTEN.get(us, us), metric):
            return number * times
        if (unit_from, unit_to) == (metric, _WRITTEN.get(us, us)):
            return number / times
    if {unit_from, unit_to} == {"°C", "°F"}:
        return float(celsius(number) if unit_to == "°C" else fahrenheit(number))
    raise ValueError(f"unit {unit_to!r} is not one for a number in {unit_from!r}")


def in_both(unit):
    """Whether a unit, as it is written, has another in the other system.

    >>> in_both("kg"), in_both("kt")
    (True, False)
    """
    return any(unit in (_WRITTEN.get(us, us), metric) for us, metric, *_ in PAIRS)


def step(number, of):
    """A step of a slider, in the unit shown, about as long as one in US units: 1, 2 or 5 times a power of ten.

    >>> with shown_in(METRIC):
    ...     step(5, "lb"), step(0.5, "US gal"), step(1, "arm")
    (2, 2, 0.02)
    """
    if chosen() != METRIC or of not in _BY_US:
        return number
    return nice(value(number, of))


def nice(number):
    """The nearest of 1, 2 and 5 times a power of ten, to a number above 0.

    >>> nice(0.0946), nice(18)
    (0.1, 20)
    """
    power = 10.0 ** math.floor(math.log10(number))
    found = min((1, 2, 5, 10), key=lambda times: abs(math.log(number / (times * power)))) * power
    return int(found) if found >= 1 else round(found, 9)
