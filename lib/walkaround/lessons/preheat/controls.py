"""The controls of the demonstration of preheating; the ends of some follow from others."""

from walkaround import measures
from walkaround.live.controls import choice, player, slider, switch
from walkaround.physics.preheat.words import CELSIUS, FAHRENHEIT, ONLY_CELSIUS
from walkaround.units import celsius, fahrenheit

NO_HEATER = "no air heater"
IN_DEGREES = ("outside", "thermostat")
COLDEST_OUTSIDE_C, WARMEST_OUTSIDE_C = -35, 10
LEAST_POWER_W, POWER_STEP_W = 500, 100
PLAYED_MINUTES, PLAY_MS = 1, 100  # a played second is ten minutes


def presets(kind):
    """Ready-made mornings by name, temperatures in °C, for the first heater of a heater file."""
    usual = {"outside": -15, "wind": 5, "heater": kind.name, "fast": True, "pad": False, "cover": True, "left_on": True}
    usual |= {"thermostat": kind.thermostat_c, "power": kind.power_w}
    rows = {
        "a calm cold morning, 45 minutes": {"heat": 45, "wait": 0},
        "ten minutes will do, won't it?": {"heat": 10, "wait": 0},
        "only the pad: warm oil, cold cylinders": {"heater": NO_HEATER, "pad": True, "heat": 90, "wait": 0},
        "a weak heater in a hard frost": {"outside": -22, "power": 1200, "heat": 120, "wait": 0},
        "wind, and the cover left at home": {"wind": 15, "cover": False, "left_on": False, "heat": 45, "wait": 0},
        "warm, and then a long coffee": {"heat": 45, "wait": 60, "left_on": False},
    }
    return {text: {**usual, **row, "moment": row["heat"] + row["wait"]} for text, row in rows.items()}


class Controls:
    """The controls by name, as `live.stage.Stage` takes them, for the heaters of a heater file (`Heaters`)."""

    def __init__(self, heaters):
        self._heaters, kind = heaters, heaters.air_heaters[0]
        self._unit, self._kind = CELSIUS, kind.name
        names = [NO_HEATER, *(h.name for h in heaters.air_heaters)]
        setting = kind.thermostat_least_c, kind.thermostat_most_c, kind.thermostat_c
        moment = slider("moment", "min", 0, 45, 45, 1)
        self.by_name = {
            "_play": player(moment, PLAYED_MINUTES, PLAY_MS),
            "moment": moment,
            "_morning": "The morning",
            "degrees": choice("temperatures in", [CELSIUS, FAHRENHEIT]),
            "outside": slider("outside", CELSIUS, COLDEST_OUTSIDE_C, WARMEST_OUTSIDE_C, -15, 1),
            "wind": slider("wind", "kt", 0, 30, 5, 1),
            "_heat": "Heat",
            "heater": choice("air heater", names, kind.name),
            "fast": switch("fan on high", True),
            "thermostat": slider("thermostat", CELSIUS, *setting, 1),
            "power": slider("heater power", "W", LEAST_POWER_W, kind.power_w, kind.power_w, POWER_STEP_W),
            "pad": switch("pad on the sump"),
            "cover": switch("cover on while heating", True),
            "heat": slider("heat for", "min", 0, 240, 45, 5),
            "_then": "Then",
            "wait": slider("wait for", "min", 0, 240, 0, 5),
            "left_on": switch("cover on while waiting", True),
        }
        if measures.chosen() == measures.METRIC:
            del self.by_name["degrees"]

    def scale(self, values):
        """How temperatures are written, a scale of `physics.preheat.words`."""
        return values.get("degrees", ONLY_CELSIUS)

    def in_celsius(self, values):
        """The controls' values with all temperatures in °C."""
        into_c = celsius if self.scale(values) == FAHRENHEIT else float
        return {**values, **{name: float(into_c(values[name])) for name in IN_DEGREES}}

    def as_shown(self, values):
        """Values with temperatures in °C, in the unit that the sliders have now."""
        return {name: self._shown(v) if name in IN_DEGREES else v for name, v in values.items()}

    def _shown(self, temperature_c):
        return round(float(fahrenheit(temperature_c))) if self._unit == FAHRENHEIT else temperature_c

    def fit(self, values):
        """Give the sliders the ends that follow from the values of other controls."""
        c = self.by_name
        if values.get("degrees", self._unit) != self._unit:
            self._unit = values["degrees"]
            self._change_unit(fahrenheit if self._unit == FAHRENHEIT else celsius)
        if values["heater"] not in (self._kind, NO_HEATER):
            self._kind = values["heater"]
            kind = self._heaters.air_heater(self._kind)
            c["power"].set_ends(LEAST_POWER_W, round(kind.power_w), round(kind.power_w))
            setting = kind.thermostat_least_c, kind.thermostat_most_c, kind.thermostat_c
            c["thermostat"].set_ends(*(round(self._shown(t)) for t in setting))
        whole, moment = values["heat"] + values["wait"], c["moment"]
        if whole != moment.max:
            at_end = values["moment"] in (moment.max, values["heat"])
            moment.set_ends(0, whole, whole if at_end else values["moment"])

    def _change_unit(self, into):
        for name in IN_DEGREES:
            control = self.by_name[name]
            control.unit = self._unit
            control.set_ends(*(round(float(into(t))) for t in (control.min, control.max, control.value)))
