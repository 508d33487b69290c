"""Questions on readings from pressures that a closed line has kept."""

from walkaround.assessment.builders import number, order
from walkaround.lessons.pitot_static.questions import by_hand
from walkaround.physics.air import airspeed, atmosphere
from walkaround.physics.pitot_static import Openings, indications

_ICED = Openings(pitot_clear=False, drain_clear=False)
_PORT_BLOCKED = Openings(static_clear=False)


def trapped_speed(g):
    """Ask for the reading 1,000 ft above the altitude at which inlet and drain iced over."""
    now_ft = g.iced_ft + 1000
    answer = float(indications(now_ft, g.later_kt, _ICED, g.iced_ft, g.iced_kt).airspeed_kt)
    fall = float(atmosphere.pressure_hpa(g.iced_ft) - atmosphere.pressure_hpa(now_ft))
    now = float(airspeed.impact_pressure_hpa(g.later_kt))
    fall_only, with_now = airspeed.calibrated_airspeed_kt([fall, now + fall]).tolist()
    impact_line, pa = by_hand.impact_pressure(g.iced_kt)
    trapped, before, after = round(pa / 100, 1), by_hand.pressure_hpa(g.iced_ft), by_hand.pressure_hpa(now_ft)
    speed_line, kt = by_hand.shown_speed(trapped + before - after)
    really_flown = "That is the speed really flown. The needle can't know it: its line is closed."
    goes_on_changing = "It would stay there only at the altitude of the blockage: the static line goes on changing."
    only_the_change = "You counted only the change of static pressure; the impact pressure is trapped too."
    pressure_of_now = "You used the impact pressure of the speed now. The line keeps that of then."
    sign = "You subtracted the change. In the climb the outside falls below the trapped pressure, and the needle rises."
    wrong = [
        (g.later_kt, "true for indicated", really_flown),
        (g.iced_kt, "needle taken for frozen", goes_on_changing),
        (fall_only, "trapped impact pressure left out", only_the_change),
        (with_now, "impact pressure of now", pressure_of_now),
        (0.0, "sign of the static error", sign),
    ]
    return number(
        "trapped speed",
        "Ice over inlet and drain",
        f"Climbing at {g.iced_kt:.0f} kt (calibrated) through {g.iced_ft:,.0f} ft, inlet and drain ice over together. "
        f"Now the aircraft is level at {now_ft:,.0f} ft and really flies {g.later_kt:.0f} kt. "
        "What does the airspeed indicator show?",
        answer=answer,
        unit="kt",
        tolerance=3.0,
        points=4,
        table=by_hand.air_table(0, g.iced_ft, now_ft),
        hint="The line keeps the static pressure and the impact pressure of the moment it iced over. "
        "Only the outside has changed since.",
        worked=(
            f"trapped, above the static pressure there: {impact_line}",
            f"since then the outside has fallen by {before:.1f} − {after:.1f} = {before - after:.1f} hPa",
            f"the indicator has {trapped:.1f} + {before - after:.1f} = {trapped + before - after:.1f} hPa",
            f"which it shows as {speed_line}",
            *by_hand.last_digit(kt, answer, "kt", why=by_hand.COMPRESSED),
        ),
        wrong=wrong,
    )


def static_speed(g):
    """Ask for the reading 500 ft below the altitude at which the static port was blocked."""
    now_ft = g.port_ft - 500
    cas_kt = float(airspeed.calibrated_from_true_kt(g.below_true_kt, now_ft))
    answer = float(indications(now_ft, cas_kt, _PORT_BLOCKED, g.port_ft, cas_kt).airspeed_kt)
    rise = float(atmosphere.pressure_hpa(now_ft) - atmosphere.pressure_hpa(g.port_ft))
    right, dense = airspeed.impact_pressure_hpa([cas_kt, g.below_true_kt]).tolist()
    forgot, wrong_sign = airspeed.calibrated_airspeed_kt([dense + rise, max(right - rise, 0.0)]).tolist()
    impact_line, pa = by_hand.impact_pressure(g.below_true_kt, by_hand.density_kg_m3(now_ft))
    impact, here, held = round(pa / 100, 1), by_hand.pressure_hpa(now_ft), by_hand.pressure_hpa(g.port_ft)
    speed_line, kt = by_hand.shown_speed(impact + here - held)
    clear_port = "With a clear port it would show that. The line keeps the lower pressure of higher up."
    thinner = "You used sea level's density for the impact pressure; the air here is thinner."
    wrong = [
        (g.below_true_kt, "true for indicated", "That is the true airspeed; the indicator measures pressures."),
        (cas_kt, "static port taken for clear", clear_port),
        (
            wrong_sign,
            "sign of the static error",
            "You subtracted the difference. Lower down, the trapped static pressure is too low, "
            "so the needle shows too much.",
        ),
        (forgot, "forgot the density", thinner),
    ]
    return number(
        "static speed",
        "A static port that keeps its pressure",
        f"The static port is blocked at {g.port_ft:,.0f} ft. The aircraft descends to {now_ft:,.0f} ft and flies there "
        f"at a true airspeed of {g.below_true_kt:.0f} kt. What does the airspeed indicator show?",
        answer=answer,
        unit="kt",
        tolerance=2.5,
        points=4,
        table=by_hand.air_table(0, now_ft, g.port_ft),
        hint="Impact pressure with the density here; then the difference of the two static pressures, with its sign; "
        "then back to a speed.",
        worked=(
            f"impact pressure: {impact_line}",
            f"the static line still holds {here:.1f} − {held:.1f} = {here - held:.1f} hPa less than the outside",
            f"the indicator has {impact:.1f} + {here - held:.1f} = {impact + here - held:.1f} hPa",
            f"which it shows as {speed_line}",
            *by_hand.last_digit(kt, answer, "kt", why=by_hand.COMPRESSED),
        ),
        wrong=wrong,
    )


# Speeds really flown at four altitudes, the lowest altitude first.
_SPEEDS_KT = ((115, 100, 85, 70), (100, 115, 70, 85), (85, 70, 115, 100), (115, 70, 100, 85), (100, 85, 115, 70))


def order_of_readings(v, g):
    """Ask for the order of the readings at four altitudes, inlet and drain being iced over."""
    speeds = v.pick("order speeds", _SPEEDS_KT)
    levels = [g.iced_ft + up for up in (-200, 200, 700, 1200)]
    keys = [f"at {h:.0f}" for h in levels]
    words = [f"at {h:,.0f} ft, really flying {kt} kt" for h, kt in zip(levels, speeds, strict=True)]
    shown = indications(levels, speeds, _ICED, g.iced_ft, 80.0).airspeed_kt
    options = list(zip(keys, words, strict=True))
    rising = sorted(zip(shown, options, strict=True))
    steps = [option for _, option in rising]
    answer = [key for key, _ in steps]
    by_speed = [key for _, key in sorted(zip(speeds, keys, strict=True))]
    reverse = "It is the other way round: the higher the aircraft, the lower the static pressure, the more it shows."
    by_speed_flown = "You put them in the order of the speeds really flown: the closed line knows nothing of them."
    wrong = [(by_speed, "true for indicated", by_speed_flown), (answer[::-1], "sign of the static error", reverse)]
    return order(
        "order",
        "From the lowest reading to the highest",
        f"Inlet and drain iced over at {g.iced_ft:,.0f} ft and 80 kt. Later the aircraft is at each of these. Put them "
        "in the order of what the airspeed indicator shows, lowest first.",
        steps=steps,
        shown=v.shuffled("order", options),
        points=3,
        hint="The pitot line is closed. Does the speed really flown still matter?",
        worked=tuple(f"{text}: shows {kt:.0f} kt" for kt, (_, text) in rising),
        wrong=wrong,
    )
