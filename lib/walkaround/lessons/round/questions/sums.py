"""What a fault would have done, in numbers: fuel, oil, and a take-off roll."""

from walkaround.aircraft.airfield import airfield
from walkaround.assessment.builders import number
from walkaround.lessons.round.things import number_of
from walkaround.physics.air import takeoff
from walkaround.physics.oil import hours_until
from walkaround.units import FOOT_M, KNOT_M_S, US_GALLON_L

FT_S_PER_KT = KNOT_M_S / FOOT_M


def questions(v, craft):
    """The three questions that ask for a number."""
    return _water(v, craft), _oil(v, craft), _roll(v, craft)


def _water(v, craft):
    millilitres, per_hour = v.number("water ml", 60, 300, 20), craft.fuel_system.per_hour
    ml_per_hour = per_hour * US_GALLON_L * 1000
    seconds = millilitres / ml_per_hour * 3600
    return number(
        "water",
        "Water in the line",
        f"{millilitres:.0f} mL of water were missed, and reach the engine all at once. It burns {per_hour:g} US "
        f"gallons an hour; a US gallon is {US_GALLON_L:.3f} L. For how many seconds does the engine get nothing but "
        "water?",
        answer=seconds,
        unit="s",
        tolerance=0.05 * seconds,
        points=2,
        hint="How many mL does it burn in a second?",
        worked=f"{millilitres:.0f} mL ÷ ({per_hour:g} × {US_GALLON_L * 1000:.0f} mL ÷ 3,600 s) = {seconds:.1f} s",
        wrong=[
            (millilitres / (per_hour * 1000) * 3600, "gallons taken for litres", "A US gallon is almost four litres."),
            (seconds / 60, "minutes given", "The question asks for seconds."),
            (millilitres / ml_per_hour, "hours given", "The question asks for seconds."),
        ],
    )


def _oil(v, craft):
    oil = craft.engine.oil
    there, per_hour = v.number("oil there", oil.minimum + 0.5, oil.usual, 0.5), v.number("oil burnt", 0.2, 0.5, 0.1)
    hours = float(hours_until(there, oil.minimum, per_hour))
    return number(
        "oil left",
        "How long the oil lasts",
        f"The stick shows {there:.1f} {oil.unit}, and {oil.minimum:.1f} {oil.unit} are the least to run with. The "
        f"engine burns {per_hour:.1f} {oil.unit} an hour. After how many hours is it down to the least?",
        answer=hours,
        unit="h",
        tolerance=0.03 * hours + 0.02,
        points=2,
        hint="Only what is above the least may be burnt.",
        worked=f"({there:.1f} − {oil.minimum:.1f}) {oil.unit} ÷ {per_hour:.1f} {oil.unit}/h = {hours:.1f} h",
        wrong=[
            (there / per_hour, "the least left out", "Down to the least, not down to nothing."),
            ((there - oil.minimum) * per_hour, "multiplied, not divided", "The more it burns, the sooner it is down."),
        ],
    )


def _roll(v, craft):
    outside = v.number("warm", 10, 35, 5)
    mark = craft.speeds.first_mark
    standard = craft.take_off.ground_roll_ft(craft.units)
    roll = takeoff.takeoff_roll(standard, craft.speeds.lift_off, airfield().elevation_ft, outside)
    speed, acceleration = v.number("speed", mark, mark + 10, 2), round(float(roll.acceleration_kt_s), 2)
    seconds = speed / acceleration
    feet = 0.5 * seconds * speed * FT_S_PER_KT
    return number(
        "cover",
        "A cover left on",
        f"The cover is on, and the needle stays at 0. The aircraft gains {acceleration:.2f} kt each second from "
        f"standing; 1 kt is {FT_S_PER_KT:.3f} ft/s. After how many feet does it do {speed:.0f} kt, unnoticed?",
        answer=feet,
        unit="ft",
        tolerance=0.03 * feet,
        points=3,
        hint="How long does it take? And how fast is it on average?",
        worked=(
            f"{speed:.0f} kt ÷ {acceleration:.2f} kt/s = {seconds:.1f} s",
            f"half of {speed:.0f} kt, {0.5 * speed * FT_S_PER_KT:.1f} ft/s, for {seconds:.1f} s: {number_of(feet)} ft",
        ),
        wrong=[
            (2 * feet, "full speed all the way", "It begins standing: on average it is half as fast."),
            (feet / FT_S_PER_KT, "knots taken for feet a second", "A knot is 1.688 ft/s."),
        ],
    )
