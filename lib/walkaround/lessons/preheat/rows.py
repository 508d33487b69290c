"""Plans for the demonstration of preheating, every place of the slider that is moved in one call.

A whole row of settings costs little more than one of them, so the first movement of a slider works out all of its places,
and the hand never waits for the others; the rows of the other sliders are worked out while it rests.
"""

import numpy as np

from walkaround.numerics.broadcasting import pick
from walkaround.physics.preheat.engine import warming
from walkaround.physics.preheat.plans import Spent, plan, spent

NO_HEATER = "no air heater"
# What a plan depends on: the names of the controls.
SETTINGS = (
    "outside", "wind", "heater", "fast", "thermostat", "power", "pad", "cover", "heat", "wait", "left_on",
)  # fmt: skip
SLIDERS = ("outside", "wind", "thermostat", "power", "heat", "wait")
IN_DEGREES = ("outside", "thermostat")
_MOST_KEPT = 5000


class Rows:
    """Plans by setting, a tuple in the order of `SETTINGS`, temperatures in °C."""

    def __init__(self, section, heaters):
        self.section, self.heaters = section, heaters
        self._engine, self._known, self._last = section.engine(), {}, None

    def move_to(self, setting, places):
        """Make sure that a setting, a dict, is worked out: with it the whole row if one slider has moved.

        `places` has a function for each of `SLIDERS` that returns all places of that slider. Raises ValueError in words.
        """
        setting = tuple(setting[name] for name in SETTINGS)
        last, self._last = self._last or setting, setting
        if setting in self._known:
            return
        moved = [n for n, old, new in zip(SETTINGS, last, setting, strict=True) if old != new]
        if len(moved) == 1 and moved[0] in SLIDERS and self._learn([setting, *_row(setting, moved[0], places)]):
            return
        # Nothing to go along with it, or a place out of range, which must not spoil this one: by itself, or its own error.
        self._keep([setting], self._work_out(*setting))

    def ahead(self, name, places):
        """Work out the whole row of a slider that may be the next to move, if it is not known."""
        if self._last in self._known:
            row = [place for place in _row(self._last, name, places) if place not in self._known]
            if row:
                self._learn(row)

    def _learn(self, row):
        """Work a row of settings out and keep it; returns whether that was possible."""
        try:
            worked = self._work_out(*(_column(column) for column in zip(*row, strict=True)))
        except ValueError:
            return False
        self._keep(row, worked)
        return True

    def _keep(self, row, worked):
        if len(self._known) > _MOST_KEPT:
            self._known.clear()
        self._known |= {place: (*worked, index) for index, place in enumerate(row)}

    def at(self, setting):
        """Plan, what it used, its cost, and minutes to ready with the other fan (infinite if there is nothing to compare)."""
        row, used, cost, other_minutes, index = self._known[setting]
        one = Spent(pick(used.electricity_kwh, index), pick(used.fuel_l, index))
        return row.setting(index), one, pick(cost, index), float(pick(other_minutes, index))

    def _work_out(self, outside_c, wind_kt, heater, fast, thermostat_c, power_w, pad, cover, heat, wait, left_on):
        kind = None if heater == NO_HEATER else self.heaters.air_heater(heater)
        blower = kind and kind.set_to("high" if fast else "low", thermostat_c, power_w)
        on_sump = self.heaters.pads[0].set_to() if pad else None
        ready_c = self.section.ready_c
        made = plan(self._engine, ready_c, outside_c, heat, blower, on_sump, cover, wind_kt, wait, left_on)
        other_minutes = np.inf
        if kind is not None:
            # A fast fan whose air the thermostat holds brings more of the same: nothing to compare.
            compared = np.isinf(made.warming.cycle.first_off_s) if fast else np.True_
            if compared.any():
                other = kind.set_to("low" if fast else "high", thermostat_c, power_w)
                history = warming(self._engine, outside_c, other, on_sump, cover, wind_kt)
                other_minutes = np.where(compared, history.ready_minutes(ready_c), np.inf)
        used = spent(made.heat, self.heaters.fuel_of(kind))
        return made, used, self.heaters.cost(used, kind), other_minutes


def _row(setting, name, places):
    """The setting with a slider at every place that it has."""
    at = SETTINGS.index(name)
    return [(*setting[:at], place, *setting[at + 1 :]) for place in places[name]()]


def _column(places):
    """One setting of every place: an array where it varies, the one value where it does not."""
    return places[0] if len(set(places)) == 1 else np.array(places)
