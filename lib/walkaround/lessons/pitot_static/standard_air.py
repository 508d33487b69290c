"""The standard atmosphere in steps of 500 ft, worked out once, for the small tables in questions."""

import numpy as np

from walkaround.physics.air import atmosphere

STEP_FT = 500  # the small tables go in these steps
_LEVELS_FT = np.arange(0, 10001, STEP_FT)
PRESSURE_HPA = dict(zip(_LEVELS_FT.tolist(), atmosphere.pressure_hpa(_LEVELS_FT).tolist(), strict=True))
DENSITY_KG_M3 = dict(zip(_LEVELS_FT.tolist(), atmosphere.density_kg_m3(_LEVELS_FT).tolist(), strict=True))


def air_table(*levels_ft):
    """Return rows of the standard atmosphere at levels in ft, multiples of 500, for a question.

    >>> air_table(0)[1]
    ('0 ft', '1013.2 hPa', '1.225 kg/m³')
    """
    rows = (
        (f"{h:,.0f} ft", f"{PRESSURE_HPA[int(h)]:.1f} hPa", f"{DENSITY_KG_M3[int(h)]:.3f} kg/m³") for h in levels_ft
    )
    return (("pressure altitude", "static pressure", "density"), *rows)
