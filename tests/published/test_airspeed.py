"""Impact pressure and airspeed against published tables."""

import pytest
from walkaround.physics.air import airspeed
from walkaround.units import INH2O_20C_HPA

# NASA Reference Publication 1046, Tables A19 and A27, as given in a published manometer table derived from
# them: calibrated airspeed in kt, impact pressure in inches of water at 20 °C (407.513 inH2O = 1013.25 hPa).
# Read.
MANOMETER = [(40, 1.04), (60, 2.35), (80, 4.19), (100, 6.56), (150, 14.86), (200, 26.68)]


@pytest.mark.parametrize(("cas_kt", "inh2o"), MANOMETER)
def test_impact_pressure_of_airspeed(cas_kt, inh2o):
    assert airspeed.impact_pressure_hpa(cas_kt) / INH2O_20C_HPA == pytest.approx(inh2o, abs=0.0051)


@pytest.mark.parametrize(("cas_kt", "inh2o"), MANOMETER)
def test_airspeed_of_impact_pressure(cas_kt, inh2o):
    # Half of the table's last digit is 0.1 kt at 40 kt and less above.
    assert airspeed.calibrated_airspeed_kt(inh2o * INH2O_20C_HPA) == pytest.approx(cas_kt, abs=0.1)


def test_speed_of_sound_at_sea_level():
    # NASA RP 1046, standard values at sea level: 661.48 kt. Recalled; √(γRT) gives the same.
    assert airspeed.sound_speed_kt(0.0) == pytest.approx(661.48, abs=0.005)
