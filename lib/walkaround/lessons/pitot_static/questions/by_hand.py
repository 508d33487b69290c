"""Sums as a student does them: each line goes on from the numbers as the line before has printed them."""

from walkaround.physics.air import atmosphere

KNOT_M_S = 0.5144  # as the questions print it
SEA_LEVEL_KG_M3 = 1.225
COMPRESSED = "with air that is compressed a little, and nothing rounded on the way"


def pressure_hpa(altitude_ft):
    """Return the static pressure of the standard atmosphere as the tables print it.

    >>> pressure_hpa(3000)
    908.1
    """
    return round(float(atmosphere.pressure_hpa(altitude_ft)), 1)


def density_kg_m3(altitude_ft):
    """Return the density of the standard atmosphere as the tables print it.

    >>> density_kg_m3(3000)
    1.121
    """
    return round(float(atmosphere.density_kg_m3(altitude_ft)), 3)


def density_ratio(altitude_ft):
    """Return the line that divides two densities, and their ratio.

    >>> density_ratio(5000)
    ('density ratio 1.056 ÷ 1.225 = 0.862', 0.862)
    """
    density = density_kg_m3(altitude_ft)
    ratio = round(density / SEA_LEVEL_KG_M3, 3)
    return f"density ratio {density:.3f} ÷ {SEA_LEVEL_KG_M3} = {ratio:.3f}", ratio


def impact_pressure(speed_kt, density=SEA_LEVEL_KG_M3):
    """Return the line from a speed to its impact pressure, and that in Pa.

    >>> impact_pressure(70.0)
    ('70 kt × 0.5144 = 36.0 m/s; ½ × 1.225 × 36.0² = 794 Pa = 7.9 hPa', 794)
    """
    m_s = round(speed_kt * KNOT_M_S, 1)
    pa = round(0.5 * density * m_s**2)
    sums = f"{speed_kt:.0f} kt × {KNOT_M_S} = {m_s:.1f} m/s; ½ × {density:.3f} × {m_s:.1f}² = {pa:,} Pa"
    return f"{sums} = {pa / 100:.1f} hPa", pa


def shown_speed(pressure_hpa):
    """Return the line from a pressure to the speed that the indicator shows, and that in kt.

    >>> shown_speed(39.8)
    ('√(2 × 3,980 ÷ 1.225) = 80.6 m/s; 80.6 ÷ 0.5144 = 157 kt', 157)
    """
    pa = round(100 * pressure_hpa)
    m_s = round((2 * pa / SEA_LEVEL_KG_M3) ** 0.5, 1)
    kt = round(m_s / KNOT_M_S)
    return f"√(2 × {pa:,} ÷ {SEA_LEVEL_KG_M3}) = {m_s:.1f} m/s; {m_s:.1f} ÷ {KNOT_M_S} = {kt} kt", kt


def last_digit(by_hand, answer, unit, decimals=0, why="with nothing rounded on the way"):
    """Return the line that says why the answer has another last digit than the sums, or none if it has not.

    >>> last_digit(1456.7, 1457.8, "ft")
    ('with nothing rounded on the way: 1,458 ft',)
    >>> last_digit(1458.2, 1457.8, "ft")
    ()
    """
    sums, exact = (f"{value:,.{decimals}f} {unit}" for value in (by_hand, answer))
    return () if sums == exact else (f"{why}: {exact}",)


def air_table(*levels_ft):
    """Return rows of the standard atmosphere at altitudes in ft, for a question to print.

    >>> air_table(0)[1]
    ('0 ft', '1013.2 hPa', '1.225 kg/m³')
    """
    rows = ((f"{h:,.0f} ft", f"{pressure_hpa(h):.1f} hPa", f"{density_kg_m3(h):.3f} kg/m³") for h in levels_ft)
    return (("pressure altitude", "static pressure", "density"), *rows)
