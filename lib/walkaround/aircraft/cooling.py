"""The [cooling] section of an aircraft file: heat of the running engine, its cooling air, and what the gauges mark.

Heat in kJ/K, links in W/K, temperatures in °C, speeds in kt, whatever the units of the rest of the file.
"""

from typing import Annotated, Literal

from pydantic import Field, model_validator

from walkaround.aircraft.section import Celsius, Positive, Section, Share
from walkaround.physics import cooling

Part = Annotated[float, Field(gt=0, lt=1, strict=True)]


class Air(Section):
    """A stream of cooling air at climb speed with all clear: its flow, and U A between it and what it cools."""

    flow_m3_h: Positive
    w_per_k: Positive


class Kit(Section):
    """A winter kit: what it covers of each intake and of the oil cooler, and the warmest day that it is for."""

    covers_intakes: Share
    covers_cooler: Share
    off_above_c: Celsius


class Cooling(Section):
    """What heats a running engine, what cools it, its limits, and the warmest day on which it was shown to stay cool.

    `gauge_on` is the bank with the probe; the green arcs begin at `head_green_c` and `oil_green_c`. `taxi_power` and
    `run_up_power` are shares of full power. The limit of the oil stands in [engine].
    """

    note: str = ""
    head_limit_c: Celsius
    head_green_c: Celsius
    oil_green_c: Celsius
    most_outside_c: Celsius
    gauge_on: Literal["left", "right"]
    efficiency: Part
    heads_share: Part
    oil_share: Part
    heads_kj_per_k: Positive
    heads_to_crankcase_w_per_k: Positive
    oil_to_crankcase_w_per_k: Positive
    heads_air: Air
    oil_air: Air
    slipstream_kt: Positive
    intake_ratio: Positive
    leak: Part
    shared: Share
    taxi_power: Part
    run_up_power: Part
    kit: Kit

    @model_validator(mode="after")
    def _fits(self):
        if self.head_green_c >= self.head_limit_c:
            raise ValueError(f"head_green_c {self.head_green_c:g}; allowed: below head_limit_c, {self.head_limit_c:g}")
        total = self.efficiency + self.heads_share + self.oil_share
        if total >= 1:
            raise ValueError(f"efficiency, heads_share and oil_share make {total:g}; allowed: less than 1 together")
        if self.taxi_power >= self.run_up_power:
            raise ValueError(f"taxi_power {self.taxi_power:g}; allowed: below run_up_power, {self.run_up_power:g}")
        return self

    def engine(self, engine, climb_kt):
        """The running engine as `physics.cooling.Engine`, from the section [engine] and the climb speed in kt."""
        heads = 1e3 * self.heads_kj_per_k
        return cooling.Engine(
            horsepower=engine.horsepower,
            heads_j_per_k=heads,
            crankcase_j_per_k=_metal_j_per_k(engine) - heads,
            oil_j_per_k=engine.oil.heat_j_per_k(engine.oil.usual),
            crankcase_w_per_k=engine.metal.loss_w_per_k,
            heads_air=cooling.Stream(**self.heads_air.model_dump()),
            oil_air=cooling.Stream(**self.oil_air.model_dump()),
            at_kt=climb_kt,
            **{name: getattr(self, name) for name in _AS_THEY_ARE},
        )

    def setting(self, power, speed_kt, left_blocked=0.0, right_blocked=0.0, kit=False):
        """How the engine is run, as `physics.cooling.Setting`, with shares of the intakes blocked, kit on or off."""
        past_kit = 1 - self.kit.covers_intakes if kit else 1.0
        left, right = ((1 - blocked) * past_kit for blocked in (left_blocked, right_blocked))
        return cooling.Setting(power, speed_kt, left, right, 1 - self.kit.covers_cooler if kit else 1.0)


_AS_THEY_ARE = (
    *("efficiency", "heads_share", "oil_share", "heads_to_crankcase_w_per_k", "oil_to_crankcase_w_per_k"),
    *("slipstream_kt", "intake_ratio", "leak", "shared"),
)


def cooling_problems(parts):
    """What does not fit between [cooling] and [engine]: (key, value, what is allowed) for each."""
    section, engine = parts.get("cooling"), parts.get("engine")
    if not section or not engine:
        return []
    problems, whole = [], _metal_j_per_k(engine) / 1e3
    if section.heads_kj_per_k >= whole:
        allowed = f"less than all the metal of the engine, {whole:g} kJ/K"
        problems.append(("cooling.heads_kj_per_k", section.heads_kj_per_k, allowed))
    if section.oil_green_c >= engine.oil_limit_c:
        allowed = f"below engine.oil_limit_c, {engine.oil_limit_c:g}"
        problems.append(("cooling.oil_green_c", section.oil_green_c, allowed))
    return problems


def _metal_j_per_k(engine):
    return 1e3 * (engine.metal.heat_kj_per_k + (engine.cylinders.heat_kj_per_k if engine.cylinders else 0.0))
