"""The wind on a parked aircraft: lift of each half of the wing, of the tail, drag and side force.

The air is taken to blow steadily along the ground, and the aircraft to stay as it stands. With wind from one side, only
the part of it that crosses the span makes lift, and the dihedral gives the windward half more incidence (strip theory:
J. D. Anderson, Fundamentals of Aerodynamics, and any textbook on lateral stability, recalled). The tail stands in the
wing's downwash. Left out: the ground, which gives a little more lift and less downwash, propeller and flaps.
"""

from dataclasses import dataclass, fields
from typing import NamedTuple

import numpy as np

from walkaround import checks
from walkaround.physics.air.atmosphere import density_kg_m3
from walkaround.physics.controls import lift_slope_per_rad
from walkaround.units import KNOT_M_S

SEA_LEVEL_KG_M3 = float(density_kg_m3(0.0))  # ICAO Doc 7488
MOST_KT = 200.0
HALF_WING = 4 / (3 * np.pi)  # where a half wing's lift acts, as a share of the semi-span: elliptical loading


@dataclass(frozen=True)
class Airframe:
    """What the wind finds: areas in m², lengths in m, angles in degrees; arms as everywhere, aft positive.

    `zero_lift_deg`, how far the nose must go down for the wing to make no lift; `most_lift` and `most_tail_lift`,
    greatest lift coefficients; `elevator_effect`, degrees of incidence for each degree of elevator; `drag_area_m2`,
    drag from ahead without that of lift, over the wind's pressure; `side_area_m2` the same from the side;
    `drag_height_m` and `side_height_m`, where they act above the ground.

    >>> round(Airframe(16, 11, 2.6, 4.5, 1.7, 1.4, 3, 3.3, 7.4, 0.9, 0.7, 1, 1.3, 6, 1.2).span_m)
    11
    """

    wing_area_m2: float
    span_m: float
    wing_arm_m: float
    zero_lift_deg: float
    dihedral_deg: float
    most_lift: float
    tail_area_m2: float
    tail_span_m: float
    tail_arm_m: float
    most_tail_lift: float
    elevator_effect: float
    drag_area_m2: float
    drag_height_m: float
    side_area_m2: float
    side_height_m: float

    def __post_init__(self):
        free = {"wing_arm_m", "tail_arm_m", "zero_lift_deg", "dihedral_deg"}
        for name in (field.name for field in fields(self)):
            bounds = {} if name in free else {"above": 0}
            checks.number(name, getattr(self, name), **bounds)


class WindLoads(NamedTuple):
    """Forces in N: lift of the two halves of the wing and of the tail, up; drag, aft; side force, to the right.

    >>> WindLoads(300.0, 200.0, 0.0, 90.0, 120.0).side_n
    120.0
    """

    left_n: float
    right_n: float
    tail_n: float
    drag_n: float
    side_n: float


def wind_pressure_pa(wind_kt, density_kg_m3=SEA_LEVEL_KG_M3):
    """Dynamic pressure of a wind in Pa, ½ ρ V² (shapes broadcast).

    Raises ValueError for a wind outside 0 to 200 kt or a density that is not above 0.

    >>> wind_pressure_pa([20.0, 40.0]).round(1).tolist()
    [64.8, 259.4]
    """
    wind = checks.numbers("wind_kt", wind_kt, 0, MOST_KT, "kt") * KNOT_M_S
    density = checks.numbers("density_kg_m3", density_kg_m3, above=0, unit="kg/m³")
    checks.same_shape(wind_kt=wind, density_kg_m3=density)
    return 0.5 * density * wind**2


def wind_loads(
    airframe, wind_kt, from_deg=0.0, nose_up_deg=0.0, elevator_deg=0.0, density_kg_m3=SEA_LEVEL_KG_M3
) -> WindLoads:
    """What a wind does to a parked aircraft: `WindLoads` in N (shapes broadcast).

    Parameters: an `Airframe`; `wind_kt`; `from_deg`, the side it comes from, 0 ahead, 90 from the left, −90 from the
    right; `nose_up_deg`, the aircraft's attitude; `elevator_deg`, trailing edge down positive. With q' the pressure of
    the part that crosses the span, q cos² β, half a wing lifts q' S/2 C, C = a (α ± Γ tan β) up to `most_lift`, with a
    as `controls.lift_slope_per_rad`, α the nose and `zero_lift_deg`, Γ the dihedral, + to windward. The tail lifts
    q' S_t a_t (nose + elevator_effect · elevator − 2 C/πA) up to `most_tail_lift`; drag is q' (drag_area + S C²/πA),
    both with the halves' mean C; the side force q side_area sin² β. Raises ValueError for a wind outside 0 to 200 kt, a
    direction outside −90 to 90°, an attitude outside −10 to 20° or an elevator outside −45 to 45°.

    >>> frame = Airframe(16, 11, 2.6, 4.5, 1.7, 1.4, 3, 3.3, 7.4, 0.9, 0.7, 1, 1.3, 6, 1.2)
    >>> [round(float(force)) for force in wind_loads(frame, 40.0)]
    [788, 788, -92, 285, 0]
    """
    pressure = wind_pressure_pa(wind_kt, density_kg_m3)
    side, nose, elevator = (
        np.radians(checks.numbers(name, value, low, high, "°"))
        for name, value, low, high in (
            ("from_deg", from_deg, -90, 90),
            ("nose_up_deg", nose_up_deg, -10, 20),
            ("elevator_deg", elevator_deg, -45, 45),
        )
    )
    pressure, side, nose, elevator = checks.same_shape(
        wind_kt=pressure, from_deg=side, nose_up_deg=nose, elevator_deg=elevator
    )
    across, crosses_span = np.sin(side), pressure * np.cos(side) ** 2
    aspect = airframe.span_m**2 / airframe.wing_area_m2
    slope, most = lift_slope_per_rad(aspect), airframe.most_lift
    incidence, tilt = nose + np.radians(airframe.zero_lift_deg), np.tan(side) * np.radians(airframe.dihedral_deg)
    left, right = (np.clip(slope * (incidence + sign * tilt), -most, most) for sign in (1, -1))
    lift = (left + right) / 2
    tail_slope = lift_slope_per_rad(airframe.tail_span_m**2 / airframe.tail_area_m2)
    tail = tail_slope * (nose + airframe.elevator_effect * elevator - 2 * lift / (np.pi * aspect))
    tail = np.clip(tail, -airframe.most_tail_lift, airframe.most_tail_lift)
    half = crosses_span * airframe.wing_area_m2 / 2
    return WindLoads(
        half * left,
        half * right,
        crosses_span * airframe.tail_area_m2 * tail,
        crosses_span * (airframe.drag_area_m2 + airframe.wing_area_m2 * lift**2 / (np.pi * aspect)),
        pressure * airframe.side_area_m2 * across * np.abs(across),
    )


def lift_off_kt(weight_n, area_m2, lift_coefficient, density_kg_m3=SEA_LEVEL_KG_M3):
    """Wind in kt at which a wing's lift equals the weight: √(2 W / (ρ S CL)) (shapes broadcast).

    Raises ValueError for a negative weight, or an area, coefficient or density that is not above 0.

    >>> round(float(lift_off_kt(7000.0, 16.0, 0.5)), 1)
    73.5
    """
    weight = checks.numbers("weight_n", weight_n, low=0, unit="N")
    others = {
        "area_m2": checks.numbers("area_m2", area_m2, above=0, unit="m²"),
        "lift_coefficient": checks.numbers("lift_coefficient", lift_coefficient, above=0),
        "density_kg_m3": checks.numbers("density_kg_m3", density_kg_m3, above=0, unit="kg/m³"),
    }
    weight, area, lift, density = checks.same_shape(weight_n=weight, **others)
    return np.sqrt(2 * weight / (density * area * lift)) / KNOT_M_S
