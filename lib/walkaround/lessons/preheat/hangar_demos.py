"""For the hangar: a table of minutes until ready, and an engine's coefficients from one's own thermometer log."""

import base64
import html
from pathlib import Path

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg

from walkaround import aircraft, measures
from walkaround.aircraft.heaters import demo_heaters, read_heaters
from walkaround.lessons.preheat.hangar_picture import hangar_table as draw_table
from walkaround.live.picture import figure_png
from walkaround.live.status import OK, STOP, status_html
from walkaround.live.units_choice import in_chosen_units
from walkaround.physics.preheat import log_fit as preheat_fit
from walkaround.physics.preheat import words as preheat_words
from walkaround.physics.preheat.engine import warming
from walkaround.physics.preheat.log import read_log
from walkaround.physics.preheat.words import CELSIUS, FAHRENHEIT, ONLY_CELSIUS, degrees

OUTSIDE_C = tuple(range(0, -31, -5))
FANS = ("low", "high")
RULES = (
    "The engine maker's limits and the aircraft's handbook come first. Treat the propeller as live.",
    "Fire: keep clear of fuel, extinguisher at hand; never refuel a running heater.",
    "Carbon monoxide: outside or well aired. Never leave a heater alone that is not approved for it.",
    "No hot air on fabric or hoses; leave it a way out. No oil pressure after the start: stop.",
)


class HangarTable:
    """Minutes to ready by outside temperature, fan and cover, as a picture to look at and a page to print.

    `minutes` has a row for each of `outside_c` and a column for each of `columns`.
    """

    def __init__(self, title, outside_c, columns, minutes, notes):
        self.title, self.outside_c, self.columns, self.minutes = title, outside_c, columns, minutes
        self._scale = _scale()
        scales = (CELSIUS,) if self._scale == ONLY_CELSIUS else (CELSIUS, FAHRENHEIT)
        self.figure = draw_table(outside_c, columns, minutes, title, notes, scales=scales)
        FigureCanvasAgg(self.figure)

    def save(self, path="hangar-table.pdf"):
        """Write the page to a file to print, PDF or PNG by its ending; says where it is."""
        self.figure.savefig(path)
        return f"Written to {Path(path).name}: print it on A4 across."

    def __repr__(self):
        least = ["never" if not np.isfinite(row).any() else f"{np.ceil(row.min()):.0f} min" for row in self.minutes]
        best = [f"at {degrees(c, self._scale)} {each}" for c, each in zip(self.outside_c, least, strict=True)]
        return f"{self.title}. The shortest time in the table: {', '.join(best)}."

    def _repr_png_(self):
        return figure_png(self.figure)

    def _repr_html_(self):
        # With its words, for anyone who can't see the picture.
        picture = base64.b64encode(self._repr_png_()).decode("ascii")
        return f'<img alt="{html.escape(repr(self))}" style="max-width:100%" src="data:image/png;base64,{picture}">'


@in_chosen_units
def hangar_table(name="morrowlark_four", heater=None, wind_kt=5.0, outside_c=OUTSIDE_C, heater_file=None):
    """Return the table for the hangar wall: minutes until the engine is ready, by outside temperature, fan and cover.

    Parameters: `name` of a demo aircraft or path of an aircraft file; `heater`, the name of an air heater in the heater
    file (its first one if left out).

    >>> hangar_table(outside_c=(0,))
    Morrowlark Four: minutes until the engine is ready. The shortest time in the table: at 0 °C (32 °F) 18 min.
    """
    craft, heaters = aircraft.with_sections(name, "engine"), _heaters(heater_file)
    section, kind = craft.engine, heaters.air_heater(heater) if heater else heaters.air_heaters[0]
    # Axes: outside, cover, fan.
    outside = np.asarray(outside_c, dtype=float)
    cover = np.array([[True], [False]])
    made = warming(section.engine(), outside[:, np.newaxis, np.newaxis], kind.set_to(FANS), None, cover, wind_kt)
    minutes = made.ready_minutes(section.ready_c).swapaxes(1, 2).reshape(outside.size, -1)
    columns = [f"{fan} fan\n{cover}" for fan in FANS for cover in ("cover on", "no cover")]
    ready = ", ".join(f"{part} {degrees(c, _scale())}" for part, c in section.ready_c.items())
    notes = [
        f"Ready: {ready}. {'All invented.' if 'invented' in section.note.lower() else ''}",
        f"{kind.name.capitalize()} of {kind.power_w:,.0f} W, thermostat at {degrees(kind.thermostat_c, _scale())}, "
        f"wind {wind_kt:g} kt.",
        *RULES,
    ]
    return HangarTable(f"{craft.name}: minutes until the engine is ready", outside, columns, minutes, notes)


class FitShown:
    """What a thermometer log says about an engine, in words; `fit` is None if the log can't tell."""

    def __init__(self, words, fit=None):
        self.words, self.fit = words, fit

    def __repr__(self):
        return self.words

    def _repr_html_(self):
        return status_html(self.words, OK if self.fit else STOP, "110%").replace("\n", "<br>")


@in_chosen_units
def fit(path, name="morrowlark_four", fan="high", cover=False, wind_kt=0.0, heater=None, heater_file=None):
    """Return what one's own thermometer log (`physics.preheat.log` has its form) says about an engine, in words.

    `fan`, `cover` and `wind_kt` say how things stood while logging. A log that can't be read, or can't tell, gets a
    sentence.

    >>> fit("none.csv")
    There is no file 'none.csv' beside this notebook: put your log there, or name its folder too.
    """
    section, heaters = aircraft.with_sections(name, "engine").engine, _heaters(heater_file)
    kind = heaters.air_heater(heater) if heater else heaters.air_heaters[0]
    if not Path(path).is_file():
        return FitShown(
            f"There is no file {Path(path).name!r} beside this notebook: put your log there, or name its folder too."
        )
    try:
        blower = kind.set_to(fan)
        found = preheat_fit.fit(read_log(path), section.engine(), blower.flow_m3_h, cover, wind_kt)
    except ValueError as error:
        return FitShown(f"Nothing could be learned from this log: {error}.")
    outside_c = section.preheat_below_c - 5.0
    made = (warming(e, outside_c, blower, None, cover, wind_kt) for e in (section.engine(), found.engine))
    then, now = (float(each.ready_minutes(section.ready_c)) for each in made)
    lines = [
        *(f"{line[:1].upper()}{line[1:]}." for line in preheat_fit.fit_words(found).split("\n")),
        f"At {degrees(outside_c, _scale())} with the {kind.name} on {fan} this engine is {_ready(now)}; by the "
        f"aircraft file as it is, {_ready(then)}.",
        "To use it, put these into your aircraft file:",
        *_file_lines(found),
    ]
    return FitShown("\n".join(lines), found)


def _file_lines(found):
    for part in found.engine.parts:
        values = getattr(found.engine, part)
        names = [n for n in ("loss_w_per_k", "air_w_per_k", "to_metal_w_per_k") if getattr(values, n) > 0]
        yield f"[engine.{part}] " + ", ".join(f"{n} = {getattr(values, n):.3g}" for n in names)


def _ready(minutes):
    return f"ready after {preheat_words.duration(minutes)}" if np.isfinite(minutes) else "never ready"


def _scale():
    return ONLY_CELSIUS if measures.chosen() == measures.METRIC else CELSIUS


def _heaters(heater_file):
    return demo_heaters() if heater_file is None else read_heaters(heater_file)
