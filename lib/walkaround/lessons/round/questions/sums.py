"""What a fault would have done, in numbers: fuel, oil, and a take-off roll."""

from walkaround import measures
from walkaround.aircraft.airfield import airfield
from walkaround.assessment.builders import number
from walkaround.lessons.oil.questions.givens import lasting
from walkaround.lessons.round.things import number_of
from walkaround.physics.air import takeoff
from walkaround.physics.oil import hours_until
from walkaround.units import FOOT_M, KNOT_M_S, US_GALLON_L


def questions(v, played):
    """The three questions that ask for a number."""
    return _water(v, played.craft), _oil(v, played.written.engine.oil), _roll(v, played.written)


def _water(v, craft):
    millilitres, per_hour = v.number("water ml", 60, 300, 20), craft.fuel_system.per_hour
    in_gallons = craft.units.volume == "US gal"
    litres, as_ml = (US_GALLON_L, f"{US_GALLON_L * 1000:.0f}") if in_gallons else (1.0, "1,000")
    burns = f"{per_hour:g} {measures.name('US gal')} an hour"
    if in_gallons:
        burns += f"; a US gallon is {US_GALLON_L:.3f} L"
    ml_per_hour = per_hour * litres * 1000
    seconds = millilitres / ml_per_hour * 3600
    slip = (
        (millilitres / (per_hour * 1000) * 3600, "gallons taken for litres", "A US gallon is almost four litres.")
        if in_gallons
        else (seconds / US_GALLON_L, "litres taken for gallons", "It is litres already: there is nothing to convert.")
    )
    return number(
        "water",
        "Water in the line",
        f"{millilitres:.0f} mL of water were missed, and reach the engine all at once. It burns {burns}. For how many "
        "seconds does the engine get nothing but water?",
        answer=seconds,
        unit="s",
        tolerance=0.05 * seconds,
        points=2,
        hint="How many mL does it burn in a second?",
        worked=f"{millilitres:.0f} mL ÷ ({per_hour:g} × {as_ml} mL ÷ 3,600 s) = {seconds:.1f} s",
        wrong=[
            slip,
            (seconds / 60, "minutes given", "The question asks for seconds."),
            (millilitres / ml_per_hour, "hours given", "The question asks for seconds."),
        ],
    )


def _oil(v, oil):
    there, burnt = v.number("oil there", oil.minimum + 0.5, oil.usual, 0.5), v.number("oil burnt", 0.2, 0.5, 0.1)
    (there, least, per_hour), unit = lasting(there, oil.minimum, burnt), measures.unit(oil.unit)
    digits, fine = measures.places("qt", 1, 2), measures.places("qt/h", 1, 3)
    hours = float(hours_until(there, least, per_hour))
    return number(
        "oil left",
        "How long the oil lasts",
        f"The stick shows {there:.{digits}f} {unit}, and {least:.{digits}f} {unit} are the least to run with. The "
        f"engine burns {per_hour:.{fine}f} {unit} an hour. After how many hours is it down to the least?",
        answer=hours,
        unit="h",
        tolerance=0.03 * hours + 0.02,
        points=2,
        hint="Only what is above the least may be burnt.",
        worked=f"({there:.{digits}f} − {least:.{digits}f}) {unit} ÷ {per_hour:.{fine}f} {unit}/h = {hours:.1f} h",
        wrong=[
            (there / per_hour, "the least left out", "Down to the least, not down to nothing."),
            ((there - least) * per_hour, "multiplied, not divided", "The more it burns, the sooner it is down."),
        ],
    )


def _roll(v, craft):
    outside = v.number("warm", 10, 35, 5)
    mark = craft.speeds.first_mark
    standard = craft.take_off.ground_roll_ft(craft.units)
    roll = takeoff.takeoff_roll(standard, craft.speeds.lift_off, airfield().elevation_ft, outside)
    speed, acceleration = v.number("speed", mark, mark + 10, 2), round(float(roll.acceleration_kt_s), 2)
    knot, unit, units = measures.value(KNOT_M_S / FOOT_M, "ft"), measures.unit("ft"), measures.name("ft")
    seconds = speed / acceleration
    answer = 0.5 * seconds * speed * knot
    return number(
        "cover",
        "A cover left on",
        f"The cover is on, and the needle stays at 0. The aircraft gains {acceleration:.2f} kt each second from "
        f"standing; 1 kt is {knot:.3f} {unit}/s. After how many {units} does it do {speed:.0f} kt, unnoticed?",
        answer=answer,
        unit=unit,
        tolerance=0.03 * answer,
        points=3,
        hint="How long does it take? And how fast is it on average?",
        worked=(
            f"{speed:.0f} kt ÷ {acceleration:.2f} kt/s = {seconds:.1f} s",
            f"half of {speed:.0f} kt, {0.5 * speed * knot:.1f} {unit}/s, for {seconds:.1f} s: "
            f"{number_of(answer)} {unit}",
        ),
        wrong=[
            (2 * answer, "full speed all the way", "It begins standing: on average it is half as fast."),
            (answer / knot, f"knots taken for {units} a second", f"A knot is {knot:.3f} {unit}/s."),
        ],
    )
