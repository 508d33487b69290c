"""Questions without a number: what blocked openings make the instruments do, and which opening it is."""

from walkaround.assessment.builders import choice, choices
from walkaround.physics.pitot_static import Openings, indications

INLET, BOTH, STATIC, ALL_THREE = "inlet", "both", "static", "all three"
OPENINGS = {
    INLET: Openings(False, True, True),
    BOTH: Openings(False, False, True),
    STATIC: Openings(True, True, False),
    ALL_THREE: Openings(False, False, False),
}
BLOCKED = {
    INLET: "the pitot inlet alone (its drain is clear)",
    BOTH: "pitot inlet and drain",
    STATIC: "the static port",
    ALL_THREE: "inlet, drain and static port",
}
_MOVES_FT = {"climb": 200.0, "descent": -200.0}  # little enough that no needle reaches its stop


def symptom(v):
    """Ask what the airspeed indicator does in a climb or descent at a steady speed."""
    cases = ((INLET, "climb"), (BOTH, "climb"), (BOTH, "descent"), (STATIC, "climb"), (STATIC, "descent"))
    blocked, move = v.pick("symptom", cases)
    speed, level = v.number("symptom speed", 80, 100, 5), v.number("symptom at", 2000, 5000, 500)
    flown_ft = [level, level + _MOVES_FT[move]]
    first, later = indications(flown_ft, speed, OPENINGS[blocked], level, speed).airspeed_kt.tolist()
    answer = "zero" if later < 1 else "rises" if later > first + 2 else "falls" if later < first - 2 else "right"
    wrong = [("right", "blockage overlooked", "One of the two lines no longer follows the outside.")]
    if answer == "zero":
        says = "The clear drain lets the line fall to static pressure at once."
        wrong.append(("falls", "trapped pressure assumed", says))
    else:
        says = "It is the other way round. Ask which line keeps its pressure, and what the other one does meanwhile."
        wrong.append(("falls" if answer == "rises" else "rises", "sign of the static error", says))
        wrong.append(("zero", "drain taken for clear", "That is what a blocked inlet with a clear drain does."))
    options = (
        ("zero", "It falls to zero and stays there"),
        ("rises", "It shows more and more"),
        ("falls", "It shows less and less"),
        ("right", f"It goes on showing {speed:.0f} kt"),
    )
    return choice(
        "symptom",
        "What the airspeed indicator does",
        f"At {level:,.0f} ft ice blocks {BLOCKED[blocked]}. The pilot holds {speed:.0f} kt by attitude and power in a "
        f"steady {move}. What does the airspeed indicator do?",
        answer=answer,
        options=v.shuffled("symptom options", options),
        points=2,
        hint="It shows the pressure in the pitot line less that in the static line. "
        "Which of them still follows the outside?",
        worked=(
            f"at {level:,.0f} ft it shows {first:.0f} kt",
            f"{abs(_MOVES_FT[move]):.0f} ft further on it shows {later:.0f} kt",
        ),
        wrong=wrong,
    )


_WHICH_AIRSPEED = {
    INLET: "airspeed zero at any altitude: the inlet is blocked and the line drains",
    BOTH: "airspeed rises with altitude and not with speed: the pitot line keeps its pressure",
    STATIC: "airspeed falls in the climb, below what is flown: the pitot line is sound",
    ALL_THREE: "airspeed stands still too: both lines keep their pressures",
}


def which(v):
    """Ask which opening is blocked, from what the instruments show at three moments of a climb."""
    blocked = v.pick("which", tuple(OPENINGS))
    low, speed = v.number("which at", 1500, 4000, 500), v.number("which speed", 70, 80, 1)
    faster = v.number("which faster", 88, 98, 1)
    heights, speeds = [low + 200, low + 600], [speed, faster]
    shown = indications(heights, speeds, OPENINGS[blocked], low, speed, 500.0)
    readings = zip(shown.airspeed_kt, shown.altitude_ft, shown.vertical_speed_fpm, strict=True)
    table = [
        ("really flown", "airspeed", "altimeter", "vertical speed"),
        _row(f"{low:,.0f} ft, level at {speed:.0f} kt", speed, low, 0.0),
        *(
            _row(f"{h:,.0f} ft, climbing at {kt:.0f} kt", *r)
            for h, kt, r in zip(heights, speeds, readings, strict=True)
        ),
    ]
    static_closed = blocked in (STATIC, ALL_THREE)
    at_zero = "With only the inlet blocked the needle would be at zero, whatever the altitude, and the altimeter right."
    rises_in_climb = "With inlet and drain blocked the needle rises in a climb, and the altimeter is right."
    falls_in_climb = "With only the static port blocked the altimeter stands still and the airspeed falls in a climb."
    all_stand = "With all three blocked all three instruments stand still."
    wrong = [
        (INLET, "drain overlooked" if blocked == BOTH else "pitot blamed for static", at_zero),
        (BOTH, "drain overlooked" if blocked == INLET else "pitot blamed for static", rises_in_climb),
        (STATIC, "one line seen of two" if blocked == ALL_THREE else "static blamed for pitot", falls_in_climb),
        (ALL_THREE, "one line seen of two" if blocked == STATIC else "static blamed for pitot", all_stand),
    ]
    return choice(
        "which",
        "Which opening is blocked?",
        f"At {low:,.0f} ft, level at {speed:.0f} kt, everything was right. Then something was blocked, and the climb "
        "began. Attitude, power and the satellite receiver say what is really flown; the other columns are what the "
        "instruments show. What is blocked?",
        answer=blocked,
        options=v.shuffled("which options", [(k, words[0].upper() + words[1:]) for k, words in BLOCKED.items()]),
        points=3,
        table=table,
        hint="First the altimeter: only the static line feeds it. Then ask what the airspeed indicator still follows.",
        worked=(
            "altimeter and vertical speed stand still: the static line is closed"
            if static_closed
            else "altimeter and vertical speed are right: the static line is clear",
            _WHICH_AIRSPEED[blocked],
        ),
        wrong=[row for row in wrong if row[0] != blocked],
    )


def _row(flown, speed_kt, altitude_ft, climb_fpm):
    return flown, f"{speed_kt:.0f} kt", f"{altitude_ft:,.0f} ft", f"{climb_fpm + 0:,.0f} ft/min"


def statements(v):
    """Ask which of five statements are so, in a climb or descent with one line closed."""
    cases = ((STATIC, "climb"), (STATIC, "descent"), (BOTH, "climb"), (BOTH, "descent"))
    blocked, move = v.pick("statements", cases)
    start, speed = v.number("statements at", 3000, 6000, 500), v.number("statements speed", 85, 105, 5)
    up = 1.0 if move == "climb" else -1.0
    level = start + 800 * up
    source = {"alternate_open": [False, True], "cabin_below_hpa": 2.0}
    shown = indications(level, speed, OPENINGS[blocked], start, speed, 400.0 * up, **source)
    kt, ft, ft_open, fpm = shown.airspeed_kt[0], *shown.altitude_ft, shown.vertical_speed_fpm[0]
    rows = (
        ("altimeter", abs(ft - start) < 10, f"The altimeter shows {start:,.0f} ft"),
        ("rate", abs(fpm) < 10, "The vertical speed indicator shows 0"),
        ("more", kt > speed + 2, "The airspeed indicator shows more than is flown"),
        ("less", kt < speed - 2, "The airspeed indicator shows less than is flown"),
        (
            "alternate",
            abs(ft_open - level) < 100,
            "With the alternate source open (cabin 2 hPa below the outside) the altimeter is within 100 ft of right",
        ),
    )
    right = {key for key, is_so, _ in rows if is_so}
    only_the_sign = "Everything but the sign of the airspeed's error is right; that is the other way round."
    wrong = [(right ^ {"more", "less"}, "sign of the static error", only_the_sign)]
    return choices(
        "statements",
        "What is true now",
        f"At {start:,.0f} ft and {speed:.0f} kt {BLOCKED[blocked]} {'was' if blocked == STATIC else 'were'} blocked. "
        f"Now the aircraft passes {level:,.0f} ft in a {move} of 400 ft/min, still at {speed:.0f} kt. "
        "Choose everything that is true.",
        answer=right,
        options=v.shuffled("statements options", [(key, text) for key, _, text in rows]),
        points=3,
        hint="Which line is closed, and which instruments does it feed? Then the sign of the airspeed's error.",
        worked=(
            f"airspeed {kt:.0f} kt, altimeter {ft:,.0f} ft, vertical speed {fpm + 0:,.0f} ft/min",
            f"with the alternate source open the altimeter shows {ft_open:,.0f} ft",
        ),
        wrong=wrong,
    )
