"""The invented airfield says that it is invented, and the planned flight flies what its words say."""

import numpy as np
import pytest
from walkaround import aircraft
from walkaround.aircraft import airfield as quillmoor

TEXT = quillmoor.FILE.read_text(encoding="utf-8")


def test_its_numbers_are_invented():
    assert "invented" in TEXT.lower()


@pytest.mark.parametrize("name", aircraft.demo_names())
def test_the_words_are_what_is_flown(name):
    craft = aircraft.demo(name)
    plan = quillmoor.planned_flight(craft)
    flight, field = plan.flight, quillmoor.airfield()
    now = dict(zip(plan.parts, plan.begins_s, strict=True))
    assert list(now.values()) == sorted(now.values())
    on_ground = flight.time_s <= plan.airborne_s
    assert np.all(flight.altitude_ft[on_ground] == field.elevation_ft)
    assert flight.altitude_ft[~on_ground].min() > field.elevation_ft
    i = np.searchsorted(flight.time_s, plan.airborne_s)
    assert flight.cas_kt[i] == pytest.approx(craft.speeds.lift_off, abs=2.5)
    for at_s, fpm, kt in (
        (150.0, field.plan.climb_fpm, craft.speeds.climb),
        (plan.begins_s[3] + 60.0, 0.0, craft.speeds.cruise),
        (plan.begins_s[4] + 60.0, -field.plan.descent_fpm, craft.speeds.cruise),
        (plan.begins_s[5] + 60.0, 0.0, craft.speeds.approach),
    ):
        a, b = np.searchsorted(flight.time_s, [at_s, at_s + 20.0])
        rate = 60 * (flight.altitude_ft[b] - flight.altitude_ft[a]) / (flight.time_s[b] - flight.time_s[a])
        assert rate == pytest.approx(fpm, abs=1e-6)
        assert flight.cas_kt[a] == pytest.approx(kt)
        assert f"{kt:.0f} kt" in plan.part(at_s)
