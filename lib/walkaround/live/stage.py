"""The shared stage of every live demonstration: controls, a picture, and one plain sentence.

A lesson gives the stage four things: the controls; a picture that can `show` a result; a function that works out from
the controls' values what to show and what to say; and a function that says it in a sentence. The stage redraws only
what moved, shows an error as a sentence, and leaves a still picture with the sentence where nothing runs.
"""

import base64
import html
import math
from contextlib import contextmanager
from typing import NamedTuple

import ipywidgets as widgets
import numpy as np

from walkaround.live.picture import LivePicture, with_sentence
from walkaround.live.png import PngStream, small_png
from walkaround.live.status import STOP, status_html

_LABEL = {"description_width": "10.5em"}
LARGER = 1.6
WIDEST = "1000px"  # a picture drawn for 820 pixels blurs when it is stretched much further
WIDEST_LARGER = "1150px"  # about 700 pixels high: sentence and picture fit on a projector's screen together
_LARGER_STYLE = (
    "<style>.walkaround-larger .widget-label, .walkaround-larger .widget-readout, .walkaround-larger select, "
    ".walkaround-larger label {font-size: 18px}</style>"
)


def _wide():
    return widgets.Layout(width="98%")


def slider(label, unit, low, high, value, step, tooltip=""):
    """Return a slider for a number; its label names the unit.

    >>> slider("wind", "kt", 0, 30, 5, 1).description
    'wind, kt'
    """
    whole = all(float(v).is_integer() for v in (low, high, value, step))
    kind, number = (widgets.IntSlider, int) if whole else (widgets.FloatSlider, float)
    decimals = 0 if whole else max(0, -math.floor(math.log10(step) + 1e-9))
    return kind(
        value=number(value),
        min=number(low),
        max=number(high),
        step=number(step),
        readout_format="d" if whole else f".{decimals}f",
        description=f"{label}, {unit}" if unit else label,
        tooltip=tooltip or f"{label}, {unit}",
        style=_LABEL,
        layout=_wide(),
    )


def switch(label, value=False):
    """Return a switch with two positions.

    >>> switch("cover on", True).value
    True
    """
    return widgets.Checkbox(value=value, description=label, indent=False, layout=_wide())


def choice(label, options, value=None):
    """Return a choice from a list of names, or of (name, value) pairs; the first is chosen if `value` is left out.

    >>> choice("temperatures in", ["°C", "°F"]).value
    '°C'
    """
    first = options[0][1] if isinstance(options[0], tuple) else options[0]
    chosen = first if value is None else value
    return widgets.Dropdown(options=options, value=chosen, description=label, style=_LABEL, layout=_wide())


def count(label, value=0, low=0, high=99):
    """Return a box for a small whole number, such as votes: typed, or counted up and down with the arrow keys.

    >>> count("votes", 3).value
    3
    """
    style = {"description_width": "70%"}
    return widgets.BoundedIntText(value=value, min=low, max=high, description=label, style=style, layout=_wide())


def player(moment, step, interval_ms=100):
    """Return a play button that moves a slider by `step` every `interval_ms`; give it a name that begins with _.

    The browser links the two. It sends no new value before the kernel has answered the last one, so a slow kernel
    drops frames, and none wait in a queue.

    >>> player(slider("moment", "min", 0, 45, 20, 1), step=1).value
    20
    """
    play = widgets.Play(
        value=moment.value,
        min=moment.min,
        max=moment.max,
        step=step,
        interval=interval_ms,
        tooltip="play, pause, stop, repeat",
        show_repeat=False,
        layout=_wide(),
    )
    play.link = widgets.jslink((play, "value"), (moment, "value"))
    return play


class Worked(NamedTuple):
    """What a demonstration has worked out: `shown` goes to its picture, `said` to its sentence."""

    shown: object
    said: object


class Stage(widgets.VBox):
    """A live demonstration.

    `controls` maps names to ipywidgets with a `value`; a text in place of a widget is a heading, and a widget whose
    name begins with _ is shown and not watched. `work(values)` takes the controls' values by name and returns a
    `Worked`, or raises ValueError in words. `picture` has `figure`, `moving` and `show(shown)`, as `LivePicture` takes
    it. `say(said)` returns a verdict (`status.OK`, `STOP` or `NOTE`) and a sentence. `presets` maps a name to values
    for several controls at once. `caution` stands above everything.

    Two more are for controls that depend on each other. `fit(values)` is called before each `work` and may give
    controls new ends. `as_shown(values)` turns values for `set`, and those of presets, into what the controls show,
    such as °C into °F.

    `verdict` and `words` are what the stage says now.
    """

    def __init__(self, title, controls, picture, work, say, presets=None, caution="", fit=None, as_shown=dict):
        self.controls = {n: c for n, c in controls.items() if isinstance(c, widgets.Widget) and not n.startswith("_")}
        self._work, self._say, self._fit, self._as_shown, self._held = work, say, fit, as_shown, False
        self._frame, self.verdict, self.words = None, "", ""
        self.live, self._stream = LivePicture(picture), PngStream()
        self.image = widgets.Image(format="png", layout=widgets.Layout(width="100%", max_width=WIDEST))
        # Above the picture, where every screen shows it, and at least two lines high, so that nothing jumps.
        self.sentence = widgets.HTML(layout=widgets.Layout(min_height="64px"))
        self.larger = widgets.ToggleButton(
            description="Larger, for a projector",
            icon="expand",
            tooltip="Draw the picture and its letters larger",
            layout=widgets.Layout(width="auto"),
        )
        column = [
            c if isinstance(c, widgets.Widget) else widgets.HTML(f"<b>{html.escape(c)}</b>") for c in controls.values()
        ]
        if presets:
            column.insert(0, self._preset_control(presets))
        self._column = widgets.VBox([*column, self.larger], layout=widgets.Layout(flex="1 1 320px", min_width="300px"))
        self._show_side = widgets.VBox(
            [self.sentence, self.image], layout=widgets.Layout(flex="3 1 560px", min_width="320px")
        )
        self._column.add_class("walkaround-controls")
        head = [widgets.HTML(f"{_LARGER_STYLE}<b style='font-size:115%'>{html.escape(title)}</b>")]
        if caution:
            head.append(widgets.HTML(f"<p style='line-height:1.4'><b>Caution.</b> {html.escape(caution)}</p>"))
        body = widgets.Box(
            [self._column, self._show_side],
            layout=widgets.Layout(display="flex", flex_flow="row wrap", align_items="flex-start", width="100%"),
        )
        super().__init__([*head, body])
        for control in self.controls.values():
            control.observe(self._moved, "value")
        self.larger.observe(self._resize, "value")
        self.refresh()

    def _preset_control(self, presets):
        self.preset = choice("ready-made", [("choose one …", ""), *presets.items()])
        self.preset.observe(self._take_preset, "value")
        return self.preset

    def _take_preset(self, change):
        if change.new:
            self.set(**change.new)
            # Back to none, so that the same one can be chosen again, and none is named that no longer holds.
            self.preset.value = ""

    def set(self, **values):
        """Set several controls and draw once."""
        with self._drawing_held():
            # Twice, since one control's value may give another its ends: the second time every value has room.
            for _ in range(2):
                for name, value in self._as_shown(values).items():
                    self.controls[name].value = value
                if self._fit is not None:
                    self._fit(self.values)
        self.refresh()

    @contextmanager
    def _drawing_held(self):
        """Meanwhile a control that moves draws nothing."""
        before, self._held = self._held, True
        try:
            yield
        finally:
            self._held = before

    @property
    def values(self):
        """Values of the controls by name."""
        return {name: control.value for name, control in self.controls.items()}

    def refresh(self):
        """Work out and show what the controls say now."""
        try:
            if self._fit is not None:
                with self._drawing_held():
                    self._fit(self.values)
            worked = self._work(self.values)
            self.verdict, self.words = self._say(worked.said)
        except ValueError as error:
            # The picture keeps the last state that made sense, paler; the sentence says what is wrong.
            self.verdict, self.words = STOP, f"This can't be worked out: {error}."
            if self._frame is not None:
                self.image.value = self._stream.png((0.4 * self._frame + 0.6 * 255).astype(np.uint8))
        else:
            self._frame = self.live.draw(worked.shown)
            self.image.value = self._stream.png(self._frame)
        self.sentence.value = status_html(self.words, self.verdict, "170%" if self.larger.value else "115%")

    def _moved(self, _change):
        if not self._held:
            self.refresh()

    def _resize(self, change):
        # The controls stay beside the picture, since whoever moves them has to see both at once.
        self.live.set_scale(LARGER if change.new else 1.0)
        self._column.layout.flex = "0 0 380px" if change.new else "1 1 320px"
        self._show_side.layout.flex = "3 1 500px" if change.new else "3 1 560px"
        self.image.layout.max_width = WIDEST_LARGER if change.new else WIDEST
        (self._column.add_class if change.new else self._column.remove_class)("walkaround-larger")
        self.refresh()

    def _repr_mimebundle_(self, **kwargs):
        data = super()._repr_mimebundle_(**kwargs)
        # Where no kernel runs, the picture and the sentence stand in for the live demonstration.
        data["text/plain"] = self.words
        if self._frame is None:
            return data
        data["image/png"] = base64.b64encode(small_png(with_sentence(self._frame, self.words))).decode("ascii")
        return data
