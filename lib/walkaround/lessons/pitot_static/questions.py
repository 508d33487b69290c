"""Questions on pitot and static: what each instrument shows when openings are blocked, and what to decide on the roll.

All numbers come from the invented Morrowlark Four in the standard atmosphere, with altitudes and speeds drawn for each
student. Everything that the instruments show in a paper is worked out in one call.
"""

from dataclasses import dataclass

import numpy as np

from walkaround import aircraft
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER, Paper, Question, WrongTurn
from walkaround.lessons.pitot_static import roll_questions as pitot_static_roll
from walkaround.lessons.pitot_static.standard_air import DENSITY_KG_M3, PRESSURE_HPA, STEP_FT, air_table
from walkaround.physics.air import airspeed, atmosphere
from walkaround.physics.pitot_static.instruments import Openings, indications
from walkaround.units import FOOT_M, KNOT_M_S

NAME = "pitot_static"
TITLE = "Pitot and static"
FT_S_PER_KT = KNOT_M_S / FOOT_M

INLET, BOTH, STATIC, ALL_THREE, NONE = "inlet", "both", "static", "all three", "none"
CLEAR = {  # inlet, drain, static port
    INLET: (False, True, True),
    BOTH: (False, False, True),
    STATIC: (True, True, False),
    ALL_THREE: (False, False, False),
    NONE: (True, True, True),
}
BLOCKED = {
    INLET: "the pitot inlet alone (its drain is clear)",
    BOTH: "pitot inlet and drain",
    STATIC: "the static port",
    ALL_THREE: "inlet, drain and static port",
    NONE: "nothing",
}


@dataclass(frozen=True)
class Givens:
    """What a student is told: pressure altitudes in ft, speeds in kt, the take-off roll in ft."""

    cruise_ft: float
    cruise_kt: float
    high_ft: float
    field_ft: float
    true_kt: float
    iced_ft: float
    iced_kt: float
    later_kt: float
    port_ft: float
    below_true_kt: float
    cabin_ft: float
    cabin_hpa: float
    roll_ft: float
    lift_off_kt: float
    hot_field_ft: float
    first_mark_kt: float
    deceleration_kt_s: float
    reaction_s: float


class _Readings:
    """Rows of what is flown and what is blocked, gathered first and then worked out in one call."""

    def __init__(self):
        self._rows, self._shown = [], None

    def add(self, altitude_ft, cas_kt, blocked, then_ft, then_kt, climb_fpm=0.0, cabin_hpa=None):
        """Take a row; returns its number. `cabin_hpa` opens the alternate source into a cabin so far below the outside."""
        row = (
            altitude_ft,
            cas_kt,
            *CLEAR[blocked],
            then_ft,
            then_kt,
            climb_fpm,
            cabin_hpa is not None,
            cabin_hpa or 0.0,
        )
        self._rows.append(row)
        return len(self._rows) - 1

    def work_out(self):
        """Work out all rows."""
        altitude, speed, inlet, drain, static, then_ft, then_kt, climb, open_, below = map(
            np.array, zip(*self._rows, strict=True)
        )
        shown = indications(
            altitude, speed, Openings(inlet, drain, static), then_ft, then_kt, climb, alternate_open=open_, cabin_below_hpa=below
        )  # fmt: skip
        self._shown = [x.tolist() for x in (shown.airspeed_kt, shown.altitude_ft, shown.vertical_speed_fpm)]

    def __getitem__(self, row):
        """Airspeed in kt, altitude in ft and vertical speed in ft/min of a row."""
        return tuple(column[row] for column in self._shown)


def write(v):
    """Write one student's paper (`questions.Paper`) from their draws."""
    craft = aircraft.demo("morrowlark_four")
    stopping = craft.take_off
    iced_ft, port_ft = v.number("iced at", 2000, 5000, 1000), v.number("port at", 6000, 8500, 500)
    g = Givens(
        cruise_ft=v.number("cruise at", 5000, 8000, 1000), cruise_kt=v.number("cruise speed", 85, 115, 5),
        high_ft=v.number("high", 6000, 9000, 500), field_ft=v.number("field", 1000, 3000, 500),
        true_kt=v.number("true speed", 90, 125, 5),
        iced_ft=iced_ft, iced_kt=v.number("iced speed", 65, 75, 1), later_kt=v.number("later speed", 92, 106, 1),
        port_ft=port_ft, below_true_kt=v.number("true speed below", 110, 124, 2),
        cabin_ft=v.number("cabin at", 3000, 8000, 500), cabin_hpa=v.number("cabin", 1.5, 4.0, 0.5),
        roll_ft=v.number("roll", 850, 1100, 10), lift_off_kt=v.number("lift-off", 52, 58, 1),
        hot_field_ft=v.number("thin air", 3000, 6000, 500), first_mark_kt=craft.speeds.first_mark,
        deceleration_kt_s=stopping.deceleration_kt_s, reaction_s=stopping.reaction_s,
    )  # fmt: skip
    # True airspeeds to calibrated, and one the other way.
    cas_high, cas_below = airspeed.calibrated_from_true_kt(
        [g.true_kt, g.below_true_kt], [g.high_ft, port_ft - STEP_FT]
    ).tolist()
    readings = _Readings()
    asked = [
        _true_airspeed(g), _impact_pressure(g, cas_high), _symptom(v, readings), _trapped(g, readings),
        _static(g, readings, cas_below), _which(v, readings), _order(v, g, readings), _statements(v, readings),
        _cabin(g, readings), *pitot_static_roll.questions(v, g),
    ]  # fmt: skip
    readings.work_out()
    # A question that needs readings was left as a function of them.
    questions = tuple(q if isinstance(q, Question) else q() for q in asked)
    pilot = v.pick("pilot", ("Ines Okafor", "Tomas Brandvold", "Priya Lindqvist", "Samuel Oyelaran", "Marta Kovalenko"))  # fmt: skip
    scene = (
        f"{pilot} flies the Morrowlark Four from Quillmoor; aircraft, airfield and their numbers are invented. The air is "
        "standard, altitudes are pressure altitudes, and the instruments have no error of their own. Impact pressure is "
        "½ × density × (true airspeed)², and the indicator shows the speed that has the measured pressure at sea level's density."
    )
    return Paper(NAME, TITLE, v.student, v.course, questions, scene, _FACTS, g)


_FACTS = (
    ("to work with", "value"),
    ("density at sea level", f"{atmosphere.SEA_LEVEL_DENSITY_KG_M3:.3f} kg/m³"),
    ("1 kt", f"{KNOT_M_S:.4f} m/s = {FT_S_PER_KT:.3f} ft/s"),
    ("1 hPa", "100 Pa"),
)


def _true_airspeed(g):
    answer = float(airspeed.true_airspeed_kt(g.cruise_kt, g.cruise_ft))
    ratio = DENSITY_KG_M3[int(g.cruise_ft)] / atmosphere.SEA_LEVEL_DENSITY_KG_M3
    return Question(
        key="true airspeed", kind=NUMBER, title="How fast through the air", points=2, unit="kt", tolerance=1.5,
        text=f"All openings are clear. At {g.cruise_ft:,.0f} ft the indicator shows {g.cruise_kt:.0f} kt. What is the true airspeed?",
        answer=answer, table=air_table(0, g.cruise_ft),
        hint="The same impact pressure in thinner air needs a higher speed: it grows with the square root.",
        worked=(
            f"density ratio {ratio:.3f}, its square root {ratio**0.5:.3f}",
            f"{g.cruise_kt:.0f} kt ÷ {ratio**0.5:.3f} = {answer:.0f} kt",
        ),
        wrong_turns=(
            WrongTurn(g.cruise_kt, "indicated taken for true", "That is what the needle shows. In thinner air the aircraft is faster."),
            WrongTurn(g.cruise_kt * ratio**0.5, "turned round", "You multiplied by the root: in thinner air the true airspeed is higher."),
            WrongTurn(g.cruise_kt / ratio, "forgot the square root", "You divided by the density ratio. It is its square root that counts."),
        ),
    )  # fmt: skip


def _impact_pressure(g, cas_kt):
    answer, at_sea_level = airspeed.impact_pressure_hpa([cas_kt, g.true_kt]).tolist()
    density, at_field = DENSITY_KG_M3[int(g.high_ft)], DENSITY_KG_M3[int(g.field_ft)]
    speed_m_s = g.true_kt * KNOT_M_S
    return Question(
        key="impact pressure", kind=NUMBER, title="What the inlet feels", points=3, unit="hPa", tolerance=0.4,
        text=(
            f"From a field at {g.field_ft:,.0f} ft the aircraft has climbed to {g.high_ft:,.0f} ft, where it flies at a true airspeed of "
            f"{g.true_kt:.0f} kt. How large is the impact pressure in the pitot inlet?"
        ),
        answer=answer, table=air_table(0, g.field_ft, g.high_ft),
        hint="½ × density × speed², with the density where the aircraft is now, and the speed in m/s. 100 Pa make 1 hPa.",
        worked=(
            f"{g.true_kt:.0f} kt = {speed_m_s:.1f} m/s",
            f"½ × {density:.3f} × {speed_m_s:.1f}² = {50 * answer * 2:.0f} Pa = {answer:.1f} hPa",
        ),
        wrong_turns=(
            WrongTurn(at_sea_level, "forgot the density", "You used sea level's density; the air up here is thinner."),
            WrongTurn(answer * at_field / density, "dynamic pressure at the wrong altitude",
                      "You used the density at the field. The inlet meets the air of where it is now."),
            WrongTurn(2 * answer, "forgot the half", "You left out the half in ½ × density × speed²."),
            WrongTurn(answer / KNOT_M_S**2, "knots taken for m/s", "You put knots into the formula; it wants metres a second."),
            WrongTurn(100 * answer, "Pa for hPa", "That is in pascals; 100 of them make one hectopascal."),
        ),
    )  # fmt: skip


MOVES = {"climb": 200.0, "descent": -200.0}  # ft: little enough that no needle reaches its stop


def _symptom(v, readings):
    blocked, move = v.pick(
        "symptom", ((INLET, "climb"), (BOTH, "climb"), (BOTH, "descent"), (STATIC, "climb"), (STATIC, "descent"))
    )
    speed, level = v.number("symptom speed", 80, 100, 5), v.number("symptom at", 2000, 5000, 500)
    before = readings.add(level, speed, blocked, level, speed)
    after = readings.add(level + MOVES[move], speed, blocked, level, speed)
    options = (
        ("zero", "It falls to zero and stays there"), ("rises", "It shows more and more"),
        ("falls", "It shows less and less"), ("right", f"It goes on showing {speed:.0f} kt"),
    )  # fmt: skip

    def ask():
        first, later = readings[before][0], readings[after][0]
        answer = "zero" if later < 1 else "rises" if later > first + 2 else "falls" if later < first - 2 else "right"
        turned = {"rises": "falls", "falls": "rises"}.get(answer)
        turns = [WrongTurn("right", "blockage overlooked", "One of the two lines no longer follows the outside.")]
        if turned:
            turns.append(
                WrongTurn(
                    turned,
                    "sign of the static error",
                    "It is the other way. Ask which of the two lines keeps its pressure, and what the other does meanwhile.",
                )
            )
            turns.append(
                WrongTurn("zero", "drain taken for clear", "That is what a blocked inlet with a clear drain does.")
            )
        else:
            turns.append(
                WrongTurn(
                    "falls",
                    "trapped pressure assumed",
                    "The clear drain lets the line fall to static pressure at once.",
                )
            )
        return Question(
            key="symptom", kind=CHOICE, title="What the airspeed indicator does", points=2, answer=answer,
            options=tuple(v.shuffled("symptom options", options)),
            text=(
                f"At {level:,.0f} ft ice blocks {BLOCKED[blocked]}. The pilot holds {speed:.0f} kt by attitude and power in a steady "
                f"{move}. What does the airspeed indicator do?"
            ),
            hint="It shows the pressure in the pitot line less that in the static line. Which of them still follows the outside?",
            worked=(f"at {level:,.0f} ft it shows {first:.0f} kt", f"{abs(MOVES[move]):.0f} ft further on it shows {later:.0f} kt"),
            wrong_turns=tuple(turns),
        )  # fmt: skip

    return ask


def _trapped(g, readings):
    now_ft = g.iced_ft + 1000
    row = readings.add(now_ft, g.later_kt, BOTH, g.iced_ft, g.iced_kt)

    def ask():
        answer = readings[row][0]
        rise = PRESSURE_HPA[int(g.iced_ft)] - PRESSURE_HPA[int(now_ft)]
        then, now = airspeed.impact_pressure_hpa([g.iced_kt, g.later_kt]).tolist()
        alone, with_now = airspeed.calibrated_airspeed_kt([rise, now + rise]).tolist()
        return Question(
            key="trapped speed", kind=NUMBER, title="Ice over inlet and drain", points=4, unit="kt", tolerance=3.0,
            text=(
                f"Climbing at {g.iced_kt:.0f} kt (calibrated) through {g.iced_ft:,.0f} ft, inlet and drain ice over together. Now the aircraft is "
                f"level at {now_ft:,.0f} ft and really flies {g.later_kt:.0f} kt. What does the airspeed indicator show?"
            ),
            answer=answer, table=air_table(0, g.iced_ft, now_ft),
            hint="The line keeps the static pressure and the impact pressure of the moment it iced over. Only the outside has changed since.",
            worked=(
                f"trapped above the static pressure there: {then:.1f} hPa, ½ × 1.225 × ({g.iced_kt:.0f} kt)²",
                f"since then the outside has fallen by {rise:.1f} hPa",
                f"the indicator has {then + rise:.1f} hPa, which it shows as {answer:.0f} kt",
            ),
            wrong_turns=(
                WrongTurn(g.later_kt, "true for indicated", "That is the speed really flown. The needle can't know it: its line is closed."),
                WrongTurn(g.iced_kt, "needle taken for frozen", "It would stay there only at the altitude of the blockage: the static line goes on changing."),
                WrongTurn(alone, "trapped impact pressure left out", "You counted the change of static pressure alone; the impact pressure is trapped too."),
                WrongTurn(with_now, "impact pressure of now", "You used the impact pressure of the speed now. The line keeps that of then."),
                WrongTurn(0.0, "sign of the static error", "You took the change off. In the climb the outside falls below the trapped pressure, and the needle rises."),
            ),
        )  # fmt: skip

    return ask


def _static(g, readings, cas_kt):
    now_ft = g.port_ft - STEP_FT
    row = readings.add(now_ft, cas_kt, STATIC, g.port_ft, cas_kt)

    def ask():
        answer = readings[row][0]
        rise = PRESSURE_HPA[int(now_ft)] - PRESSURE_HPA[int(g.port_ft)]
        right, dense = airspeed.impact_pressure_hpa([cas_kt, g.below_true_kt]).tolist()
        forgot, wrong_sign = airspeed.calibrated_airspeed_kt([dense + rise, max(right - rise, 0.0)]).tolist()
        return Question(
            key="static speed", kind=NUMBER, title="A static port that keeps its pressure", points=4, unit="kt", tolerance=2.5,
            text=(
                f"The static port is blocked at {g.port_ft:,.0f} ft. The aircraft descends to {now_ft:,.0f} ft and flies there at a true airspeed of "
                f"{g.below_true_kt:.0f} kt. What does the airspeed indicator show?"
            ),
            answer=answer, table=air_table(0, now_ft, g.port_ft),
            hint="Impact pressure with the density here; then the difference of the two static pressures, with its sign; then back to a speed.",
            worked=(
                f"impact pressure ½ × {DENSITY_KG_M3[int(now_ft)]:.3f} × ({g.below_true_kt:.0f} kt)² = {right:.1f} hPa",
                f"the line still holds {rise:.1f} hPa less than the outside: {right:.1f} + {rise:.1f} = {right + rise:.1f} hPa",
                f"which the indicator shows as {answer:.0f} kt",
            ),
            wrong_turns=(
                WrongTurn(g.below_true_kt, "true for indicated", "That is the true airspeed; the indicator measures pressures."),
                WrongTurn(cas_kt, "static port taken for clear", "With a clear port it would show that. The line keeps the lower pressure of higher up."),
                WrongTurn(wrong_sign, "sign of the static error", "You took the difference off. Lower down, the trapped static pressure is too low, so the needle shows too much."),
                WrongTurn(forgot, "forgot the density", "You used sea level's density for the impact pressure; the air here is thinner."),
            ),
        )  # fmt: skip

    return ask


def _which(v, readings):
    blocked = v.pick("which", (INLET, BOTH, STATIC, ALL_THREE))
    low, speed, faster = (
        v.number("which at", 1500, 4000, 500),
        v.number("which speed", 70, 80, 1),
        v.number("which faster", 88, 98, 1),
    )
    flown = ((low, speed, 0.0), (low + 200, speed, 500.0), (low + 600, faster, 500.0))
    rows = [readings.add(h, kt, blocked, low, speed, fpm) for h, kt, fpm in flown]
    options = tuple((k, BLOCKED[k][0].upper() + BLOCKED[k][1:]) for k in (INLET, BOTH, STATIC, ALL_THREE))

    def ask():
        table = [("really flown", "airspeed", "altimeter", "vertical speed")]
        table.append(_row(f"{low:,.0f} ft, level at {speed:.0f} kt", (speed, low, 0.0)))
        for (h, kt, _), row in zip(flown[1:], rows[1:], strict=True):
            table.append(_row(f"{h:,.0f} ft, climbing at {kt:.0f} kt", readings[row]))
        return Question(
            key="which", kind=CHOICE, title="Which opening is blocked?", points=3, answer=blocked,
            options=tuple(v.shuffled("which options", options)), table=tuple(table),
            text=(
                f"At {low:,.0f} ft, level at {speed:.0f} kt, everything was right. Then something was blocked, and the climb began. Attitude, power and the "
                "satellite receiver say what is really flown; the other columns are what the instruments show. What is blocked?"
            ),
            hint="First the altimeter: it hangs on the static line alone. Then ask what the airspeed indicator still follows.",
            worked=(
                "altimeter and vertical speed stand still: the static line is closed" if blocked in (STATIC, ALL_THREE)
                else "altimeter and vertical speed are right: the static line is clear",
                {INLET: "airspeed zero at any altitude: the inlet is blocked and the line drains",
                 BOTH: "airspeed rises with altitude and not with speed: the pitot line keeps its pressure",
                 STATIC: "airspeed falls in the climb, below what is flown: the pitot line is sound",
                 ALL_THREE: "airspeed stands still too: both lines keep their pressures"}[blocked],
            ),
            wrong_turns=tuple(WrongTurn(k, slip, says) for k, slip, says in (
                (INLET, "drain overlooked" if blocked == BOTH else "pitot blamed for static",
                 "With the inlet alone blocked the needle would be at zero, whatever the altitude, and the altimeter right."),
                (BOTH, "drain overlooked" if blocked == INLET else "pitot blamed for static",
                 "With inlet and drain blocked the needle rises in a climb, and the altimeter is right."),
                (STATIC, "one line seen of two" if blocked == ALL_THREE else "static blamed for pitot",
                 "With the static port alone blocked the altimeter stands still and the airspeed falls in a climb."),
                (ALL_THREE, "one line seen of two" if blocked == STATIC else "static blamed for pitot",
                 "With all three blocked all three instruments stand still."),
            ) if k != blocked),
        )  # fmt: skip

    return ask


def _row(flown, shown):
    speed, altitude, rate = shown
    return flown, f"{speed:.0f} kt", f"{altitude:,.0f} ft", f"{rate + 0:,.0f} ft/min"


SPEEDS_OF_ORDER = ((115, 100, 85, 70), (100, 115, 70, 85), (85, 70, 115, 100), (115, 70, 100, 85), (100, 85, 115, 70))


def _order(v, g, readings):
    speeds = v.pick("order speeds", SPEEDS_OF_ORDER)
    levels = [g.iced_ft + up for up in (-200, 200, 700, 1200)]
    rows = [readings.add(h, kt, BOTH, g.iced_ft, 80.0) for h, kt in zip(levels, speeds, strict=True)]
    options = [(f"at {h:.0f}", f"at {h:,.0f} ft, really flying {kt} kt") for h, kt in zip(levels, speeds, strict=True)]

    def ask():
        shown = {key: readings[row][0] for (key, _), row in zip(options, rows, strict=True)}
        flown = {key: kt for (key, _), kt in zip(options, speeds, strict=True)}
        answer = tuple(sorted(shown, key=shown.get))
        return Question(
            key="order", kind=ORDER, title="From the lowest reading to the highest", points=3, answer=answer,
            options=tuple(v.shuffled("order", options)),
            text=(
                f"Inlet and drain iced over at {g.iced_ft:,.0f} ft and 80 kt. Later the aircraft is at each of these. Put them in the order of what "
                "the airspeed indicator shows, lowest first."
            ),
            hint="The pitot line is closed. Does the speed really flown still matter?",
            worked=tuple(f"{dict(options)[key]}: shows {shown[key]:.0f} kt" for key in answer),
            wrong_turns=(
                WrongTurn(tuple(sorted(flown, key=flown.get)), "true for indicated",
                          "You put them in the order of the speeds really flown: the closed line knows nothing of them."),
                WrongTurn(answer[::-1], "sign of the static error", "It is the other way round: the higher the aircraft, the lower the static pressure, the more it shows."),
            ),
        )  # fmt: skip

    return ask


def _statements(v, readings):
    blocked, move = v.pick("statements", ((STATIC, "climb"), (STATIC, "descent"), (BOTH, "climb"), (BOTH, "descent")))
    start, speed = v.number("statements at", 3000, 6000, 500), v.number("statements speed", 85, 105, 5)
    up = 1.0 if move == "climb" else -1.0
    level, rate = start + 800 * up, 400.0 * up
    row = readings.add(level, speed, blocked, start, speed, rate)
    other = readings.add(level, speed, blocked, start, speed, rate, cabin_hpa=2.0)

    def ask():
        (kt, ft, fpm), (_, ft_open, _) = readings[row], readings[other]
        true = {
            "altimeter": (f"The altimeter shows {start:,.0f} ft", abs(ft - start) < 10),
            "rate": ("The vertical speed indicator shows 0", abs(fpm) < 10),
            "more": ("The airspeed indicator shows more than is flown", kt > speed + 2),
            "less": ("The airspeed indicator shows less than is flown", kt < speed - 2),
            "alternate": (
                "With the alternate source open (cabin 2 hPa below the outside) the altimeter is within 100 ft of right",
                abs(ft_open - level) < 100,
            ),
        }
        right = frozenset(k for k, (_, is_so) in true.items() if is_so)
        return Question(
            key="statements", kind=CHOICES, title="What is so now", points=3, answer=right,
            options=tuple(v.shuffled("statements options", [(k, text) for k, (text, _) in true.items()])),
            text=(
                f"At {start:,.0f} ft and {speed:.0f} kt {BLOCKED[blocked]} {'was' if blocked == STATIC else 'were'} blocked. Now the aircraft passes "
                f"{level:,.0f} ft in a {move} of 400 ft/min, still at {speed:.0f} kt. Choose all that is so."
            ),
            hint="Which line is closed, and which instruments hang on it? Then the sign of the airspeed's error.",
            worked=(f"airspeed {kt:.0f} kt, altimeter {ft:,.0f} ft, vertical speed {fpm + 0:,.0f} ft/min", f"with the alternate source open the altimeter shows {ft_open:,.0f} ft"),
            wrong_turns=(WrongTurn(right ^ {"more", "less"}, "sign of the static error", "All but the sign of the airspeed's error is right: it is the other way."),),
        )  # fmt: skip

    return ask


def _cabin(g, readings):
    row = readings.add(g.cabin_ft, 90.0, STATIC, 0.0, 0.0, cabin_hpa=g.cabin_hpa)

    def ask():
        answer = readings[row][1] - g.cabin_ft
        below, above = g.cabin_ft - STEP_FT, g.cabin_ft + STEP_FT
        per_hpa = (above - below) / (PRESSURE_HPA[int(below)] - PRESSURE_HPA[int(above)])
        return Question(
            key="cabin", kind=NUMBER, title="The alternate source", points=3, unit="ft", tolerance=max(4.0, round(0.07 * answer)),
            text=(
                f"At {g.cabin_ft:,.0f} ft the alternate static source is opened. The cabin is {g.cabin_hpa:.1f} hPa below the outside. By how much does the "
                "altimeter read too high? (A minus sign means too low.)"
            ),
            answer=answer, table=air_table(below, above),
            hint="From the table: how many feet go with one hPa here?",
            worked=(f"{above - below:,.0f} ft for {1000 / per_hpa:.1f} hPa, so {per_hpa:.1f} ft for each hPa", f"{g.cabin_hpa:.1f} × {per_hpa:.1f} = {answer:.0f} ft too high"),
            wrong_turns=(
                WrongTurn(-answer, "sign of the static error", "The amount is right. Less pressure is what an altimeter takes for more height: it reads too high."),
                WrongTurn(10 * g.cabin_hpa, "hPa taken for hundredths of an inch", "That is the rule for hundredths of an inch of mercury: 10 ft each. Use hPa."),
                WrongTurn(0.0, "cabin taken for outside", "The cabin has a pressure of its own, a little below the outside."),
            ),
        )  # fmt: skip

    return ask


def quick(variant):
    """Questions asked on the spot in the lesson (a tuple of `Question`)."""
    base = write(variant)
    return tuple(base.question(k) for k in ("symptom", "which", "true airspeed", "alive"))
