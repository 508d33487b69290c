"""Questions with numbers: airspeeds and pressures, with all openings clear or open to the cabin."""

from walkaround import measures
from walkaround.assessment.builders import number
from walkaround.lessons.pitot_static.questions import by_hand
from walkaround.physics.air import airspeed
from walkaround.physics.pitot_static import Openings, indications


def true_airspeed(g):
    """Ask for the true airspeed at an altitude."""
    answer = float(airspeed.true_airspeed_kt(g.cruise_kt, g.cruise_ft))
    ratio_line, ratio = by_hand.density_ratio(g.cruise_ft)
    root = round(ratio**0.5, 3)
    kt = round(g.cruise_kt / root)
    needle_shows = "That is what the needle shows. In thinner air the aircraft is faster."
    root_counts = "You divided by the density ratio. It is its square root that counts."
    wrong = [
        (g.cruise_kt, "indicated taken for true", needle_shows),
        (g.cruise_kt * root, "turned round", "You multiplied by the root: in thinner air the true airspeed is higher."),
        (g.cruise_kt / ratio, "forgot the square root", root_counts),
    ]
    return number(
        "true airspeed",
        "How fast through the air",
        f"All openings are clear. At {g.cruise_ft:,.0f} ft the indicator shows {g.cruise_kt:.0f} kt. "
        "What is the true airspeed?",
        answer=answer,
        unit="kt",
        tolerance=1.5,
        points=2,
        table=by_hand.air_table(0, g.cruise_ft),
        hint="In thinner air the same impact pressure needs a higher speed. "
        "What counts is the square root of the density ratio.",
        worked=(
            f"{ratio_line}; √{ratio:.3f} = {root:.3f}",
            f"{g.cruise_kt:.0f} ÷ {root:.3f} = {kt} kt",
            *by_hand.last_digit(kt, answer, "kt", why=by_hand.COMPRESSED),
        ),
        wrong=wrong,
    )


def impact_pressure(g):
    """Ask for the impact pressure of a true airspeed at an altitude."""
    cas_kt = airspeed.calibrated_from_true_kt(g.true_kt, g.high_ft)
    answer, at_sea_level = airspeed.impact_pressure_hpa([cas_kt, g.true_kt]).tolist()
    density, at_field = (by_hand.density_kg_m3(h) for h in (g.high_ft, g.field_ft))
    line, pa = by_hand.impact_pressure(g.true_kt, density)
    at_the_field = "You used the density at the field. The inlet meets the air of where it is now."
    in_knots = "You put knots into the formula; it wants metres a second."
    wrong = [
        (at_sea_level, "forgot the density", "You used sea level's density; the air up here is thinner."),
        (answer * at_field / density, "dynamic pressure at the wrong altitude", at_the_field),
        (2 * pa / 100, "forgot the half", "You left out the half in ½ × density × speed²."),
        (0.5 * density * g.true_kt**2 / 100, "knots taken for m/s", in_knots),
        (pa, "Pa for hPa", "That is in pascals; 100 of them make one hectopascal."),
    ]
    return number(
        "impact pressure",
        "What the inlet feels",
        f"From a field at {g.field_ft:,.0f} ft the aircraft has climbed to {g.high_ft:,.0f} ft, where it flies at a "
        f"true airspeed of {g.true_kt:.0f} kt. How large is the impact pressure in the pitot inlet?",
        answer=answer,
        unit="hPa",
        tolerance=0.4,
        points=3,
        table=by_hand.air_table(0, g.field_ft, g.high_ft),
        hint="½ × density × speed², with the density where the aircraft is now, and the speed in m/s. "
        "100 Pa make 1 hPa.",
        worked=(line, *by_hand.last_digit(pa / 100, answer, "hPa", 1, by_hand.COMPRESSED)),
        wrong=wrong,
    )


def cabin(g):
    """Ask by how much the altimeter reads too high with the alternate source open to the cabin."""
    opened = indications(g.cabin_ft, 90.0, Openings(), alternate_open=True, cabin_below_hpa=g.cabin_hpa)
    answer = float(opened.altitude_ft) - g.cabin_ft
    below, above = g.cabin_ft - 500, g.cabin_ft + 500
    under, over = by_hand.pressure_hpa(below), by_hand.pressure_hpa(above)
    fall = round(under - over, 1)
    per_hpa = round((above - below) / fall, 1)
    too_high = "The amount is right. An altimeter takes lower pressure for more height, so it reads too high."
    other_rule = {
        "ft": (
            10 * g.cabin_hpa,
            "hPa taken for hundredths of an inch",
            "That is the rule for hundredths of an inch of mercury: 10 ft each. Use hPa.",
        ),
        # The rule of thumb of 8 m: common practice, no source.
        "m": (
            8 * g.cabin_hpa,
            "metres taken for feet",
            "8 m for each hPa is the rule in metres. Altimeters show feet.",
        ),
    }
    wrong = [
        (-answer, "sign of the static error", too_high),
        other_rule[measures.unit("ft")],
        (0.0, "cabin taken for outside", "The cabin has a pressure of its own, a little below the outside."),
    ]
    return number(
        "cabin",
        "The alternate source",
        f"At {g.cabin_ft:,.0f} ft the alternate static source is opened. The cabin is {g.cabin_hpa:.1f} hPa below the "
        "outside. By how much does the altimeter read too high? (A minus sign means too low.)",
        answer=answer,
        unit="ft",
        tolerance=max(4.0, round(0.07 * answer)),
        points=3,
        table=by_hand.air_table(below, above),
        hint="From the table: how many feet go with one hPa here?",
        worked=(
            f"from {below:,.0f} to {above:,.0f} ft the pressure falls by {under:.1f} − {over:.1f} = {fall:.1f} hPa",
            f"{above - below:,.0f} ÷ {fall:.1f} = {per_hpa:.1f} ft for each hPa",
            f"{g.cabin_hpa:.1f} × {per_hpa:.1f} = {g.cabin_hpa * per_hpa:.0f} ft too high",
            *by_hand.last_digit(g.cabin_hpa * per_hpa, answer, "ft"),
        ),
        wrong=wrong,
    )
