"""Warming and cooling against textbooks, a standard and independent solvers."""

import numpy as np
import pytest
from ht import effectiveness_from_NTU
from ht.conv_external import Nu_cylinder_Churchill_Bernstein, Nu_cylinder_Zukauskas
from scipy.integrate import solve_ivp
from walkaround.physics.preheat import heat_transfer
from walkaround.physics.preheat.air_heater import AirHeater
from walkaround.physics.preheat.engine import Engine, Part, SumpPad, warming
from walkaround.physics.preheat.network import modes
from walkaround.units import KNOT_M_S


def test_one_part_warms_as_the_thermocouple_example():
    # Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, the thermocouple example: time constant 1 s,
    # from 25 °C in gas at 200 °C to 199 °C in 5.2 s. Recalled; ln(175/1) = 5.16.
    rate = modes([1.0], [[0.0]], [1.0]).rates[0]
    assert -np.log((200 - 199) / (200 - 25)) / rate == pytest.approx(5.2, abs=0.05)


def test_an_engine_with_a_tight_link_cools_as_one_lump():
    # Lumped capacitance, the same book, eq. 5.6: θ/θ₀ = exp(−h A t / C). A link a million times the loss makes one
    # lump.
    engine = Engine(metal=Part(50e3, 6.0), oil=Part(10e3, 2.0, to_metal_w_per_k=8e6))
    cooling = warming(engine, -10.0, start_c=60.0)
    minutes = np.array([10.0, 60.0, 300.0])
    one_lump = -10.0 + 70.0 * np.exp(-8.0 * 60 * minutes / 60e3)
    assert cooling.temperature_c("oil", minutes) == pytest.approx(one_lump, abs=1e-3)


# ISO 6946, table of outside surface resistances in m²K/W by wind in m/s. Recalled; h = 4 + 4 v with
# radiation at 0 °C gives each of them to the last digit.
@pytest.mark.parametrize(
    ("wind_m_s", "resistance"), [(1, 0.08), (2, 0.06), (3, 0.05), (4, 0.04), (5, 0.04), (7, 0.03), (10, 0.02)]
)
def test_surface_resistance_in_wind(wind_m_s, resistance):
    assert round(1 / float(heat_transfer.surface_w_per_m2_k(wind_m_s)), 2) == resistance


@pytest.mark.parametrize("wind_kt", [2.0, 5.0, 10.0])
def test_loss_in_wind_is_of_the_size_that_an_engine_cylinder_has(wind_kt):
    # An independent correlation (Churchill and Bernstein, in the ht package) for a cylinder 0.12 m thick.
    diameter, conductivity, viscosity, prandtl = 0.12, 0.0236, 13.3e-6, 0.715  # air at 0 °C
    wind = wind_kt * KNOT_M_S
    nusselt = Nu_cylinder_Churchill_Bernstein(Re=wind * diameter / viscosity, Pr=prandtl)
    radiation = heat_transfer.surface_w_per_m2_k(0.0) - 4.0
    by_air = float(heat_transfer.surface_w_per_m2_k(wind) - radiation)
    assert by_air == pytest.approx(nusselt * conductivity / diameter, rel=0.35)


def test_conductance_goes_with_the_flow_as_for_a_cylinder():
    # Žukauskas, as the ht package has it: the Nusselt number of a cylinder grows with Re^0.6 from 1,000 to 200,000.
    slope = np.log(Nu_cylinder_Zukauskas(Re=2e4, Pr=0.71) / Nu_cylinder_Zukauskas(Re=1e4, Pr=0.71)) / np.log(2)
    assert pytest.approx(slope, abs=0.01) == heat_transfer.FLOW_EXPONENT


@pytest.mark.parametrize("ntu", [0.1, 0.66, 1.0, 3.0])
def test_effectiveness(ntu):
    assert float(heat_transfer.effectiveness(ntu)) == pytest.approx(effectiveness_from_NTU(NTU=ntu, Cr=0.0))


def test_heat_capacity_of_air():
    # Incropera and DeWitt, table A.4, air at 300 K: 1.007 kJ/kg K. Recalled.
    assert pytest.approx(1007, rel=3e-3) == heat_transfer.AIR_J_PER_KG_K


def drawn(seed):
    """An engine, its heaters and its weather, drawn at random."""
    draw = np.random.default_rng(seed).uniform

    def part(link):
        return Part(draw(5e3, 80e3), draw(0.5, 8.0), draw(0.0, 30.0), link)

    engine = Engine(
        metal=part(0.0),
        oil=part(draw(2.0, 40.0)),
        cylinders=part(draw(2.0, 60.0)) if draw(0, 1) < 0.5 else None,
        air_flow_m3_h=draw(100.0, 400.0),
        wind_share=draw(0.0, 0.4),
        cover_loss_left=draw(0.2, 1.0),
        cover_wind_left=draw(0.0, 1.0),
    )
    heater = AirHeater(
        power_w=draw(2e3, 15e3),
        flow_m3_h=draw(80.0, 600.0),
        thermostat_c=draw(25.0, 80.0),
        dead_band_c=draw(2.0, 12.0),
        core_j_per_k=draw(4e3, 12e3),
        fan_w=draw(0.0, 150.0),
    )
    pad = SumpPad(draw(0.0, 400.0), draw(0.4, 1.0))
    weather = {"outside_c": draw(-35.0, 15.0), "wind_kt": draw(0.0, 25.0), "cover": bool(draw(0, 1) < 0.5)}
    return (engine, heater, pad, weather, dict(zip(engine.parts, draw(-35.0, 60.0, len(engine.parts)), strict=True)))


def stepped(engine, heater, pad, outside_c, wind_kt, cover, start_c, seconds):
    """The same engine stepped through time by scipy: temperatures at `seconds`, and when the thermostat switched."""
    capacities, losses = engine.stacked("heat_j_per_k"), engine.losses_w_per_k(cover, wind_kt)
    to_metal, from_air = engine.stacked("to_metal_w_per_k"), engine.heating_w_per_k(heater.flow_m3_h)
    steady = np.zeros(len(engine.parts))
    steady[:2] = pad.power_w * (1 - pad.share_to_oil), pad.power_w * pad.share_to_oil

    def slopes(_, state, power_w):
        parts, air = state[:-1], state[-1]
        heat = steady + from_air * (air - parts) - losses * (parts - outside_c)
        across = to_metal[1:] * (parts[0] - parts[1:])
        heat[1:] += across
        heat[0] -= across.sum()
        into_air = power_w + heater.fan_w - heater.flow_w_per_k * (air - outside_c)
        return np.append(heat / capacities, into_air / heater.core_j_per_k)

    state, now, on = np.append([start_c[p] for p in engine.parts], outside_c), 0.0, True
    found, switchings = np.zeros((seconds.size, state.size)), []
    while True:
        level = heater.thermostat_c - (0.0 if on else heater.dead_band_c)

        def thermostat(_, state, _power, level=level):
            return state[-1] - level

        thermostat.terminal, thermostat.direction = True, 1.0 if on else -1.0
        part = solve_ivp(
            slopes,
            (now, seconds[-1]),
            state,
            events=thermostat,
            args=(heater.power_w * on,),
            dense_output=True,
            rtol=1e-7,
            atol=1e-6,
        )
        here = (seconds >= now) & (seconds <= part.t[-1])
        if here.any():
            found[here] = part.sol(seconds[here]).T
        if part.status != 1:
            return found, np.array(switchings)
        now, state, on = part.t[-1], part.y[:, -1], not on
        switchings.append(now)


def compare(engine, heater, pad, weather, start_c, minutes):
    by_steps, switchings = stepped(engine, heater, pad, **weather, start_c=start_c, seconds=60 * minutes)
    history = warming(engine, heater=heater, pad=pad, start_c=start_c, **weather)
    assert np.abs(history.temperatures_c(minutes) - by_steps).max() < 0.01
    moments = 60 * history.switchings_minutes(minutes[-1])
    assert moments.size == switchings.size
    assert moments == pytest.approx(switchings, abs=0.005)
    return switchings.size


def test_fifty_engines_stepped_by_scipy():
    switchings = []
    for seed in range(50):
        engine, heater, pad, weather, start_c = drawn(seed)
        switchings.append(compare(engine, heater, pad, weather, start_c, np.linspace(0.0, 18.0, 73)))
    assert sum(n > 15 for n in switchings) > 10  # many of them cycle, again and again
    assert sum(n == 0 for n in switchings) > 5  # some never reach the thermostat's setting


def test_hours_of_cycling_stepped_by_scipy():
    engine, heater, pad, weather, start_c = drawn(3)
    heater = AirHeater(9000.0, 250.0, 50.0, 10.0, 20e3, 100.0)
    assert compare(engine, heater, pad, weather, start_c, np.linspace(0.0, 360.0, 721)) > 200
