"""Reading a number as people type it: point or comma, marks between thousands, fractions, a unit after it."""

import re
import unicodedata

from walkaround import measures

# Ways to write each unit that a question may ask for.
WRITTEN = {
    "lb": ("lb", "lbs", "pound", "pounds"),
    "kg": ("kg", "kgs", "kilogram", "kilograms", "kilo", "kilos"),
    "in": ("in", "ins", "inch", "inches", '"', "''", "″", "′′"),
    "m": ("m", "metre", "metres", "meter", "meters"),
    "cm": ("cm", "centimetre", "centimetres", "centimeter", "centimeters"),
    "mm": ("mm",),
    "ft": ("ft", "foot", "feet", "'", "′"),
    "lb-in": ("lb-in", "lbin", "lb·in", "in-lb", "lb in", "lbs-in", "inch-pounds", "pound-inches", "lb.in"),
    "kg-m": ("kg-m", "kgm", "kg·m", "m-kg", "kg m", "kg.m"),
    "US gal": ("us gal", "gal", "gals", "gallon", "gallons", "us gallons", "usg"),
    "L": ("l", "litre", "litres", "liter", "liters", "ltr"),
    "qt": ("qt", "qts", "quart", "quarts"),
    "%": ("%", "percent", "per cent", "% mac"),
    "kt": ("kt", "kts", "knot", "knots"),
    "ft/min": ("ft/min", "fpm", "feet per minute"),
    "hPa": ("hpa", "mb", "mbar", "millibar"),
    "inHg": ("inhg", "in hg"),
    "°C": ("°c", "c", "deg c", "celsius", "degc"),
    "°F": ("°f", "f", "deg f", "fahrenheit", "degf"),
    "K": ("k", "kelvin"),
    "min": ("min", "mins", "minute", "minutes"),
    "s": ("s", "sec", "secs", "second", "seconds"),
    "h": ("h", "hr", "hrs", "hour", "hours"),
    "N": ("n", "newton", "newtons"),
    "m²": ("m²", "m2", "sq m", "square metres", "square meters"),
    "sq ft": ("sq ft", "ft²", "ft2", "square feet"),
    "L/h": ("l/h", "litres per hour", "liters per hour"),
    "qt/h": ("qt/h", "quarts per hour"),
    "US gal/h": ("us gal/h", "gal/h", "gph", "gallons per hour"),
    "kW": ("kw", "kilowatt", "kilowatts"),
    "kWh": ("kwh",),
    "Wh": ("wh",),
    "W": ("w", "watt", "watts"),
}
LONGEST = 60  # characters; what is longer is no number that anyone means
_NUMBER = re.compile(r"[+-]?[\d.,' ]*\d[.,]?(?:e[+-]?\d+)?", re.IGNORECASE)
_FRACTION = re.compile(r"([+-]?)(?:(\d+) )?(\d+) ?/ ?(\d+)(?![\d/])")
_SPACES = dict.fromkeys(map(ord, "\u00a0\u2009\u202f\u2007\u2008\t"), " ")
_SIGNS = {ord("−"): "-", ord("–"): "-", ord("’"): "'", ord("⁄"): "/"}


def number(text: str, unit: str = "", converts: bool = False) -> float:
    """Read a typed number, and check the unit if one is typed; returns a float.

    One that `converts` may have the unit of the other system, US or metric, and is converted.

    Takes 41.9, 41,9, 1 240, 1,240, 1.240,5, 3/4 and 1 1/2, with or without the unit. A single comma before exactly
    three digits marks thousands (1,240), any other single comma is a decimal comma (41,9); a single point is always
    a decimal point. Raises ValueError saying what is wrong.

    >>> [number(t) for t in ("41.9", "41,9", "1 240", "1,240", "1.240,5", "3/4", "1 1/2", "−7")]
    [41.9, 41.9, 1240.0, 1240.0, 1240.5, 0.75, 1.5, -7.0]
    >>> number("60 pounds", "lb")
    60.0
    >>> round(number("81.6 kg", "lb", converts=True), 1)
    179.9
    """
    value, rest = _parts(text)
    if converts and (factor := _factor(rest, unit)):
        return value * factor
    _check_unit(rest, unit, value)
    return value


def in_unit(text: str, unit: str) -> str:
    """Return a typed number with its unit: the text as it is where a unit was typed, or there is none to add.

    >>> in_unit("81.6", "kg"), in_unit("81.6 kilos", "kg")
    ('81.6 kg', '81.6 kilos')
    """
    return text if _parts(text)[1] or not unit else f"{text.strip()} {unit}"


def is_converted(text: str, unit: str) -> bool:
    """Whether a typed number has a unit of the other system, from which `number` converts it.

    >>> is_converted("81.6 kg", "lb"), is_converted("180 lb", "lb")
    (True, False)
    """
    return _factor(_parts(text)[1], unit) is not None


def _factor(written: str, unit: str) -> float | None:
    """What a number in a written unit of the other system is multiplied by; None for any other."""
    found = next((u for u, ways in WRITTEN.items() if written.casefold() in ways), written)
    if not written or found == unit or written.casefold() in WRITTEN.get(unit, (_tidy(unit).casefold(),)):
        return None
    try:
        # °F and °C differ by more than a factor, and a difference of temperatures by that alone: they are asked back.
        return None if measures.converted(0.0, found, unit) else measures.converted(1.0, found, unit)
    except ValueError:
        return None


def _parts(text: str) -> tuple[float, str]:
    """The number that a text begins with, and what is written after it; raises as `number`."""
    tidy = _tidy(text)
    if not tidy:
        raise ValueError("there is nothing to mark yet: type a number")
    found, fraction = _NUMBER.match(tidy), _FRACTION.match(tidy)
    if not found or len(tidy) > LONGEST:
        raise ValueError(f"“{_short(text)}” is not a number: type figures, such as 41.9 or 1,240")
    if fraction:
        sign, whole, top, bottom = fraction.groups()
        if int(bottom) == 0:
            raise ValueError(f"“{fraction[0]}” divides by zero")
        value = (int(whole or 0) + int(top) / int(bottom)) * (-1 if sign == "-" else 1)
        rest = tidy[fraction.end() :]
    else:
        value, rest = _decimal(found[0].strip()), tidy[found.end() :]
    return value, rest.strip().rstrip(".")


def two_readings(text: str) -> tuple[str, str] | None:
    """Return how to write 1.240 or 1,240 so that it has one reading, as a whole number and with decimals.

    The decimal mark stays the one that was typed. None for a text that has one reading as it is.

    >>> two_readings("1.240"), two_readings("−12,500 lb"), two_readings("1,655"), two_readings("1,24")
    (('1240', '1.24'), ('-12500', '-12,5'), ('1655', '1,6550'), None)
    """
    typed = _NUMBER.match(_tidy(text))
    found = re.fullmatch(r"([+-]?[1-9]\d{0,2})([.,])(\d{3})", typed[0].strip()) if typed else None
    if not found:
        return None
    whole, mark, decimals = found.groups()
    short = decimals.rstrip("0")
    # Three decimals would look like thousands again.
    return whole + decimals, f"{whole}{mark}{decimals}0" if short == decimals else f"{whole}{mark}{short}".rstrip(mark)


def _tidy(text: str) -> str:
    """Return a typed text with one kind of space, sign and figure."""
    text = text[: 10 * LONGEST]  # normalising takes time that grows with the square of the length
    text = re.sub(r"(?<=\d)(?=[¼-¾⅐-⅞])", " ", text)  # 1½ is one and a half, not eleven halves
    tidy = " ".join(unicodedata.normalize("NFKC", text.translate(_SPACES)).translate(_SIGNS).split())
    return re.sub(r"^([+-]) ", r"\1", tidy)


def _decimal(body: str) -> float:
    mantissa, _, exponent = body.lower().partition("e")
    sign = -1.0 if mantissa.startswith("-") else 1.0
    digits = mantissa.lstrip("+-")
    point = max(digits.rfind("."), digits.rfind(","))
    marks = {m for m in digits if m in ".,"}
    if len(marks) == 2:
        whole, decimals = digits[:point], digits[point + 1 :]
        if digits.count(digits[point]) > 1:
            raise ValueError(f"“{body}” has more than one decimal mark")
    elif marks:
        several = digits.count(digits[point]) > 1
        thousands = re.fullmatch(r"[1-9]\d{0,2},\d{3}", digits)
        whole, decimals = (digits, "") if several or thousands else (digits[:point], digits[point + 1 :])
    else:
        whole, decimals = digits, ""
    groups = re.split(r"[ .,']", whole)
    if len(groups) > 1 and not (1 <= len(groups[0]) <= 3 and all(len(g) == 3 for g in groups[1:])):
        raise ValueError(f"“{body}” is not one number: thousands stand in groups of three, as in 1 240")
    if not decimals.isdigit() and decimals:
        raise ValueError(f"“{body}” is not one number: there is a gap after the decimal mark")
    value = sign * float(f"{''.join(groups) or '0'}.{decimals or '0'}")
    if exponent:
        if abs(int(exponent)) > 30:
            raise ValueError(f"“{body}” is out of all bounds")
        value *= 10.0 ** int(exponent)
    return value


def _check_unit(written: str, unit: str, value: float) -> None:
    if not written:
        return
    accepted = WRITTEN.get(unit, (_tidy(unit).casefold(),)) if unit else ()
    if written.casefold() in accepted:
        return
    known = next((u for u, ways in WRITTEN.items() if written.casefold() in ways), None)
    if known and unit:
        raise ValueError(f"this question asks for {unit}, you wrote {written}: give the number in {unit}")
    wanted = f"give the number in {unit}" if unit else "give the number alone"
    raise ValueError(f"I can read the number {value:,g}, but not “{_short(written)}” after it; {wanted}")


def _short(text: str) -> str:
    return text if len(text) <= 40 else text[:39] + "…"
