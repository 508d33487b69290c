"""Live demonstration of preheating: a cold engine, a heater, a pad, a cover, and when it may be started."""

import asyncio
from functools import lru_cache, partial

import numpy as np

from walkaround import aircraft
from walkaround.aircraft.heaters import demo_heaters, read_heaters
from walkaround.lessons.preheat.picture import PreheatPicture
from walkaround.lessons.preheat.rows import IN_DEGREES, NO_HEATER, SETTINGS, SLIDERS, Rows
from walkaround.live.stage import Stage, Worked, choice, player, slider, switch
from walkaround.live.status import NOTE, OK, STOP
from walkaround.physics.electrical.battery import COLDEST_C, capacity_share
from walkaround.physics.oil.viscosity import times_thicker
from walkaround.physics.preheat import words as preheat_words
from walkaround.physics.preheat.words import CELSIUS, FAHRENHEIT, degrees, duration
from walkaround.units import celsius, fahrenheit

CAUTION = preheat_words.CAUTION
COLDEST_OUTSIDE_C, WARMEST_OUTSIDE_C = -35, 10
LEAST_POWER_W, POWER_STEP_W = 500, 100
REST_S = 0.15  # after so long without a change the hand rests
PLAYED_MINUTES, PLAY_MS = 1, 100  # a played second is ten minutes


def demo(name="morrowlark_four", heater_file=None):
    """Return the live demonstration for a demo aircraft's name, or for the paths of an aircraft file and a heater file."""
    craft = aircraft.with_sections(name, "engine")
    return PreheatStage(craft, demo_heaters() if heater_file is None else read_heaters(heater_file))


class PreheatStage(Stage):
    """The stage, whose sliders follow the choice of °C or °F, of the heater, and of how long it all takes."""

    def __init__(self, craft, heaters):
        self.section, self.heaters = craft.engine, heaters
        self._unit, self._kind = CELSIUS, heaters.air_heaters[0].name
        self._rows, self._ahead = Rows(self.section, self.heaters), None
        self._shown = lru_cache(maxsize=256)(self._shown)
        picture = PreheatPicture(self.section.engine().parts, self.section.ready_c, self.section.oil)
        super().__init__(
            f"{craft.name}: warm a cold engine",
            self._controls(),
            picture,
            self._at,
            self._say,
            self._presets(),
            CAUTION,
        )

    def _controls(self):
        kind = self.heaters.air_heaters[0]
        self._moment = slider("moment", "min", 0, 45, 45, 1)
        self._play = player(self._moment, PLAYED_MINUTES, PLAY_MS)
        names = [NO_HEATER, *(h.name for h in self.heaters.air_heaters)]
        return {
            "_play": self._play,
            "moment": self._moment,
            "_morning": "The morning",
            "degrees": choice("temperatures in", [CELSIUS, FAHRENHEIT]),
            "outside": slider("outside", CELSIUS, COLDEST_OUTSIDE_C, WARMEST_OUTSIDE_C, -15, 1),
            "wind": slider("wind", "kt", 0, 30, 5, 1),
            "_heat": "Heat",
            "heater": choice("air heater", names, kind.name),
            "fast": switch("fan on high", True),
            "thermostat": slider(
                "thermostat", CELSIUS, kind.thermostat_least_c, kind.thermostat_most_c, kind.thermostat_c, 1
            ),
            "power": slider("heater power", "W", LEAST_POWER_W, kind.power_w, kind.power_w, POWER_STEP_W),
            "pad": switch("pad on the sump"),
            "cover": switch("cover on while heating", True),
            "heat": slider("heat for", "min", 0, 240, 45, 5),
            "_then": "Then",
            "wait": slider("wait for", "min", 0, 240, 0, 5),
            "left_on": switch("cover on while waiting", True),
        }

    def _presets(self):
        ends = {"outside": -15, "wind": 5, "heater": self._kind, "fast": True, "pad": False, "cover": True, "left_on": True}  # fmt: skip
        power = {"thermostat": self.heaters.air_heaters[0].thermostat_c, "power": self.heaters.air_heaters[0].power_w}  # fmt: skip
        rows = {
            "a calm cold morning, 45 minutes": {"heat": 45, "wait": 0},
            "ten minutes will do, won't it?": {"heat": 10, "wait": 0},
            "the pad alone: only the oil": {"heater": NO_HEATER, "pad": True, "heat": 90, "wait": 0},
            "a weak heater in a hard frost": {"outside": -22, "power": 1200, "heat": 120, "wait": 0},
            "wind, and the cover left at home": {"wind": 15, "cover": False, "left_on": False, "heat": 45, "wait": 0},
            "warm, and then a long coffee": {"heat": 45, "wait": 60, "left_on": False},
        }  # fmt: skip
        return {text: {**ends, **power, **row, "moment": row["heat"] + row["wait"]} for text, row in rows.items()}  # fmt: skip

    def set(self, **values):
        """Set several controls and draw once; temperatures in °C, whatever the sliders show."""
        for name in ("outside", "thermostat"):
            if name in values and self._unit == FAHRENHEIT:
                values[name] = round(float(fahrenheit(values[name])))
        # The sliders' ends first, so that the values have room.
        self._held = True
        try:
            for name in ("heater", "heat", "wait"):
                if name in values:
                    self.controls[name].value = values[name]
            self._fit_sliders()
        finally:
            self._held = False
        super().set(**values)

    def refresh(self):
        """Work out and show what the controls say now, sliders made to fit first."""
        held, self._held = self._held, True
        try:
            self._fit_sliders()
        finally:
            self._held = held
        super().refresh()
        self._work_ahead_soon()

    def _fit_sliders(self):
        """Give the sliders the ends that follow from other controls."""
        c, v = self.controls, self.values
        if v["degrees"] != self._unit:
            self._unit = v["degrees"]
            self._change_unit(fahrenheit if self._unit == FAHRENHEIT else celsius)
        if v["heater"] not in (self._kind, NO_HEATER):
            self._kind = v["heater"]
            kind = self.heaters.air_heater(self._kind)
            _move(c["power"], LEAST_POWER_W, round(kind.power_w), round(kind.power_w))
            ends = (kind.thermostat_least_c, kind.thermostat_most_c, kind.thermostat_c)
            _move(c["thermostat"], *(round(float(t if self._unit == CELSIUS else fahrenheit(t))) for t in ends))
        whole = v["heat"] + v["wait"]
        if whole != self._moment.max:
            at_end = v["moment"] in (self._moment.max, v["heat"])
            _move(self._moment, 0, whole, whole if at_end else min(v["moment"], whole))
            self._play.max = max(whole, 1)

    def _change_unit(self, into):
        for name in ("outside", "thermostat"):
            control = self.controls[name]
            _move(control, *(round(float(into(t))) for t in (control.min, control.max, control.value)))
            label = control.description.rsplit(",", 1)[0]
            control.description = control.tooltip = f"{label}, {self._unit}"

    def _at(self, v):
        """The plan that the controls ask for, its verdict and words, the moment to show it at, and the scale."""
        into_c = self._into_c(v)
        setting = {name: float(into_c(v[name])) if name in IN_DEGREES else v[name] for name in SETTINGS}
        self._rows.move_to(setting, self._places(v))
        made, verdict, words = self._shown(*setting.values())
        return Worked((made, v["moment"], v["degrees"]), (verdict, words, made, v["moment"]))

    @staticmethod
    def _into_c(v):
        return float if v["degrees"] == CELSIUS else celsius

    def _places(self, v):
        """A function for each slider that returns all of its places, temperatures in °C."""

        def places(name):
            c, into = self.controls[name], self._into_c(v) if name in IN_DEGREES else float
            return [float(into(place)) for place in range(c.min, c.max + 1, c.step)]

        return {name: partial(places, name) for name in SLIDERS}

    def work_ahead(self, names=SLIDERS):
        """Work out the rows of some sliders, so that the next movement of one of them finds its row ready."""
        for name in names:
            self._rows.ahead(name, self._places(self.values))

    def _work_ahead_soon(self, names=SLIDERS, wait_s=REST_S):
        """Do that a row at a time once the hand rests; anything that comes meanwhile goes first."""
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:
            return  # no kernel, so no hand
        if self._ahead is not None:
            self._ahead.cancel()

        def one_row():
            self.work_ahead(names[:1])
            if names[1:]:
                self._work_ahead_soon(names[1:], 0.0)

        self._ahead = loop.call_later(wait_s, one_row)

    def _shown(self, *setting):
        """The plan of a setting, its verdict and its words; all that does not depend on the moment shown."""
        made, used, cost, other_minutes = self._rows.at(setting)
        outlay = preheat_words.outlay_words(made, used, cost, self.heaters.currency)
        fast = setting[SETTINGS.index("fast")]
        return made, self._verdict(made), f"{self._words(made, fast, other_minutes)} {outlay}".strip()

    def _asked(self, made):
        """Whether the engine is to be preheated at all, this morning."""
        return bool(made.warming.outside_c < self.section.preheat_below_c)

    def _verdict(self, made):
        if made.at_end_of_heating["oil"] > self.section.oil_limit_c:
            return STOP
        return OK if made.ready_at_start else STOP if self._asked(made) else NOTE

    def _words(self, made, fast, other_minutes):
        section, outside_c, ready = self.section, float(made.warming.outside_c), bool(made.ready_at_start)
        parts = [preheat_words.readiness_words(made)]
        if ready or self._asked(made):
            parts.append(preheat_words.start_words(made))
        else:
            parts.append(
                f"This engine asks for preheating below {degrees(section.preheat_below_c)}: this morning it may be "
                "started cold, though warm oil reaches its bearings sooner."
            )
        parts += [preheat_words.oil_words(made, section.oil_limit_c), preheat_words.limit_words(made.warming)]
        minutes = float(made.ready_minutes)
        if other_minutes < minutes - 0.5:
            parts.append(preheat_words.fan_words(*((other_minutes, minutes) if fast else (minutes, other_minutes))))
        flows = section.oil.pour_point_c <= outside_c < section.ready_oil_c
        if self._asked(made) and not ready and flows:
            parts.append(_cold_start(section, outside_c))
        return " ".join(part for part in parts if part)

    def _say(self, said):
        verdict, words, made, moment = said
        return verdict, f"{words} {_moment_words(made, moment)}"


def _cold_start(section, outside_c):
    oil = section.oil
    times = times_thicker(outside_c, section.ready_oil_c, oil.viscosity_40_mm2_s, oil.viscosity_100_mm2_s)
    share = capacity_share(outside_c) if outside_c >= COLDEST_C else None
    return preheat_words.cold_start_words(float(times), None if share is None else float(share))


def _moment_words(made, moment):
    """What the engine sketch shows, for who can't see it."""
    now = made.temperatures_c(float(moment))
    each = [f"{part} {degrees(t)}" for part, t in zip(made.warming.parts, now, strict=False)]
    return f"The engine is shown after {duration(moment)}: {', '.join(each)}."


def _move(control, low, high, value):
    """Give a slider new ends and a new value, by way of ends that hold both the old value and the new one.

    The browser hears of one after the other, and shows the nearest end for a value that is not between them.
    """
    control.min, control.max = min(control.min, low), max(control.max, high)
    control.value = int(np.clip(value, low, high))
    control.min, control.max = low, high
