"""What blocked pitot and static openings make the instruments say, at one moment and over a whole flight."""

from walkaround.physics.pitot_static.instruments import (
    EVERY_COMBINATION,
    STANDARD_SETTING_HPA,
    Indications,
    Openings,
    indications,
)
from walkaround.physics.pitot_static.line_lag import air_viscosity_pa_s, follow, time_constant_s
from walkaround.physics.pitot_static.over_flight import Blockage, blockage, indications_over
