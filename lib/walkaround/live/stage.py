"""The shared stage of every live demonstration: controls, a picture, and one plain sentence.

A lesson gives the stage four things: the controls; a picture that can `show` a result; a function that works out from
the controls' values what to show and what to say; and a function that says it in a sentence. The stage redraws only
what moved, sends a screen only the pixels that changed, shows an error as a sentence, and leaves a still picture with
the sentence where nothing runs. `stage.js` is its screen side; `logic.js` is the part of that which needs no screen.
"""

import base64
from contextlib import contextmanager
from typing import NamedTuple

import anywidget
import numpy as np
from PIL import Image
from traitlets import Dict

from walkaround import measures
from walkaround.live import units_choice
from walkaround.live.bands import changed
from walkaround.live.controls import Control, Player
from walkaround.live.picture import LivePicture, small_png, with_sentence
from walkaround.live.screen import sources
from walkaround.live.status import STOP

_SCALES = (1.0, 1.6)  # how large a picture may be drawn; between them the screen scales it
_LINE = 225  # characters of the second line: three lines of a laptop's screen


class Worked(NamedTuple):
    """What a demonstration has worked out: `shown` goes to its picture, `said` to its sentence."""

    shown: object
    said: object


class _State(NamedTuple):
    """The controls' traits, what was worked out from them, and what a screen is told of it."""

    controls: dict
    pixels: np.ndarray | None
    frame: np.ndarray | None
    words: dict
    told: dict
    page: dict


class _Forecast(NamedTuple):
    """What a screen may show at once: its number, the values that it is for, and the state then.

    A step back has been `worked_out` for how the hand came there the first time; in a game it may be another state now.
    """

    number: int
    asked: dict
    state: _State
    worked_out: bool


class Stage(anywidget.AnyWidget):
    """A live demonstration.

    `controls` maps names to controls (`live.controls`); a text in place of one is a heading, and a control whose name
    begins with _ is shown and not watched. `work(values)` takes the controls' values by name and returns a `Worked`, or
    raises ValueError in words. `picture` has `figure`, `moving` and `show(shown)`, as `LivePicture` takes it.
    `say(said)` returns a verdict (`status.OK`, `STOP` or `NOTE`), a sentence and, the most important first, what more
    there is to say, a text each: those that fit go into a second line, the others under *Details*. `presets` maps a
    name to values for several controls at once. `caution` stands above everything.

    Two more are for controls that depend on each other. `fit(values)` is called before each `work` and may give
    controls new ends. `as_shown(values)` turns values for `set`, and those of presets, into what the controls show,
    such as °C into °F.

    `verdict`, `words`, `more` and `details` are what the stage says now. `pixels` is its picture: bytes of shape
    (height, width, 4).
    """

    _esm = sources("screen.js", "logic.js", "stage.js")
    _css = sources("screen.css", "stage.css")
    page = Dict().tag(sync=True)
    now = Dict().tag(sync=True)

    _still = None, ""  # a frame, and the image of it that stands where no kernel runs
    build_again = None  # what makes it once more, in whichever units are shown then

    def __init__(self, title, controls, picture, work, say, presets=None, caution="", fit=None, as_shown=dict):
        self._number = 0  # of the last forecast
        self._take_parts(title, controls, picture, work, say, presets, caution, fit, as_shown)
        super().__init__()
        self.on_msg(self._take)
        self.refresh()

    def _take_parts(self, *parts):
        """Take what a lesson gives, in the units that are shown now."""
        title, controls, picture, work, say, presets, caution, fit, as_shown = self._parts = parts
        self._units = measures.chosen()
        self._all = {name: c for name, c in controls.items() if isinstance(c, Control)}
        self._rows = controls
        self.controls = {name: c for name, c in self._all.items() if not name.startswith("_")}
        self.title, self.caution, self.presets = title, caution, presets or {}
        self._work, self._say, self._fit, self._as_shown, self._held = work, say, fit, as_shown, False
        self._frame = self.pixels = None
        self._say_now("", "")
        self.live = LivePicture(picture)
        self._forget_screen()
        self._size = [round(side * picture.figure.dpi) for side in picture.figure.get_size_inches()]
        for control in self.controls.values():
            control.observe(self._moved, "value")

    def show_units(self, system):
        """Show everything in another system of units; the controls keep the quantities that they stand for."""
        if self.build_again is None or system == self._units:
            return
        with measures.shown_in(system):
            other = self.build_again()
            for control in other.controls.values():
                control.unobserve(other._moved, "value")
            for _ in range(2):  # as in `set`
                for name in other.controls.keys() & self.controls.keys():
                    other.controls[name].carry_over(self.controls[name])
                if other._fit is not None:
                    other._fit(other.values)
            other.close()
            scale = self.live.scale
            self._take_parts(*other._parts)
            self.live.set_scale(scale)
        self._forget_screen()
        self.refresh()

    def set(self, **values):
        """Set several controls and draw once."""
        with self._drawing_held(), measures.shown_in(self._units):
            # Twice, since one control's value may give another its ends: the second time every value has room.
            for _ in range(2):
                for name, value in self._as_shown(values).items():
                    self.controls[name].value = value
                if self._fit is not None:
                    self._fit(self.values)
        self.refresh()

    def take_preset(self, name):
        """Set the controls to one of the presets."""
        self.set(**self.presets[name])

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
        self._work_out()
        self._show()

    def _work_out(self):
        """Take what the controls say now into the words and the pixels; what was worked out ahead is of no use then."""
        with measures.shown_in(self._units):
            self._work_out_in_units()

    def _work_out_in_units(self):
        self._forecasts = []
        try:
            if self._fit is not None:
                with self._drawing_held():
                    self._fit(self.values)
            worked = self._work(self.values)
            self._say_now(*self._say(worked.said))
        except Exception as error:
            # The picture keeps the last state that made sense, paler; the sentence says what is wrong. An error that is
            # not in words is a fault of the workbook, and no traceback may take the lesson's place.
            fault = "" if isinstance(error, ValueError) else f", by a fault of the workbook ({type(error).__name__})"
            self._say_now(STOP, f"This can't be worked out{fault}: {error}.")
            if self._frame is not None:
                self.pixels = (0.4 * self._frame + 0.6 * 255).astype(np.uint8)
        else:
            # A copy, since the next drawing writes over what this one gives.
            self.pixels = self._frame = self.live.draw(worked.shown).copy()

    def _say_now(self, verdict, words, *notes):
        """Take what is to be said; notes go into the second line in their order as long as they fit."""
        self.verdict, self.words, notes = verdict, words, [note for note in notes if note]
        lengths = np.cumsum([len(note) + 1 for note in notes])
        fit = max(1, int(np.searchsorted(lengths, _LINE + 1, side="right")))
        self.more, self.details = " ".join(notes[:fit]), " ".join(notes[fit:])

    def _moved(self, _change):
        if not self._held:
            self.refresh()

    def _show(self):
        """Send a screen what it lacks."""
        if self.comm is not None:
            self._post(*self._answer())

    def _answer(self, **content):
        """What a screen lacks, with more beside it, as `_post` takes it; the screen has it from now on."""
        state = self._state()
        lacks = self._lacks(state, **content)
        self._on_screen, self._sent_page = state.pixels, state.page
        return lacks

    def _lacks(self, state, **content):
        """What a screen lacks of a state: what it is told, and pixels."""
        parts = [] if state.pixels is None else changed(state.pixels, self._on_screen)
        content |= {"bands": [place for place, _ in parts], **state.told}
        if state.page != self._sent_page:
            content["page"] = state.page
        return content, [pixels for _, pixels in parts]

    def _post(self, content, pixels, ahead=()):
        """Send a screen a message, with what it may show at once after it."""
        if ahead:
            content["ahead"] = [offered for offered, _ in ahead]
            pixels = [*pixels, *(each for _, more in ahead for each in more)]
        self.send(content, pixels)

    def _take(self, _widget, content, _buffers):
        """What a screen says: everything again, a preset, another scale or units, or new values and their units."""
        _, units = units_choice.for_screen(self._units)
        if "set" in content and content.get("units", units) != units:
            self._show()  # numbers from before the screen had these units stand for other quantities
        elif "set" in content:
            before = self._state() if self.comm is not None else None
            came = self._take_values(content["set"], content.get("shows"))
            if before is not None:
                self._answer_and_offer(came, content.get("next"), before)
        elif "units" in content:
            units_choice.choose(units_choice.CHOICES[content["units"]][1])
        elif "preset" in content:
            self.take_preset(list(self.presets)[content["preset"]])
        elif "scale" in content:
            with measures.shown_in(self._units):
                self.live.set_scale(min(_SCALES, key=lambda scale: abs(scale - content["scale"])))
            self.refresh()
        else:
            self._forget_screen()
            self._show()

    def _take_values(self, shown, shows):
        """Take the values that a screen sends; `shows` is the number of the forecast that it shows already, or None.

        Returns the forecast that came true, by its number, for the answer.
        """
        forecast = next((f for f in self._forecasts if f.asked == shown and shows in (None, f.number)), None)
        with self._drawing_held():
            for name, value in shown.items():
                if name in self.controls:
                    self.controls[name].take(value)
            if forecast is not None and forecast.worked_out:
                self._put_back(forecast.state)
        if forecast is not None:
            self._on_screen, self._sent_page = forecast.state.pixels, forecast.state.page
        elif shows is not None:
            self._forget_screen()  # it shows what is no longer so
        if forecast is not None and forecast.worked_out:
            self._forecasts = []
        else:
            self._work_out()
        return {} if forecast is None else {"came": forecast.number}

    def _answer_and_offer(self, came, asked, before):
        """Answer a screen, and send what comes next if the hand goes on, or back.

        What it waits for goes first, by itself; what it shows already is confirmed with the rest: a message costs a
        browser more than what is in it.
        """
        answer = self._answer(**came)
        if asked is None or not came:
            self._post(*answer)
            answer = {}, []
        ahead = []
        try:
            if asked is not None:
                back = {name: before.told["values"][name] for name in asked}
                ahead = [self._offer(asked, self._ahead(asked), worked_out=True), self._offer(back, before)]
        finally:
            if ahead or answer[0]:
                self._post(*answer, ahead)

    def _ahead(self, asked):
        """What comes next if the hand goes on as it does: `asked` maps the name of one control to its value.

        The state stays as it is until a screen sends those values.
        """
        now = self._state()
        with self._drawing_held():
            try:
                for name, value in asked.items():
                    self.controls[name].take(value)
                self._work_out()
                return self._state()
            finally:  # a picture that can't be drawn there must not leave the controls there
                self._put_back(now)

    def _offer(self, asked, state, worked_out=False):
        """What a screen can show at once when the hand asks for some values, as `_post` takes it."""
        self._number += 1
        self._forecasts.append(_Forecast(self._number, asked, state, worked_out))
        return self._lacks(state, forecast=self._number, asked=asked)

    def _state(self):
        controls = {control: control.trait_values() for control in self.controls.values()}
        return _State(controls, self.pixels, self._frame, self._words(), self._told(), self._page())

    def _put_back(self, state):
        for control, traits in state.controls.items():
            with control.hold_trait_notifications():
                for trait, was in traits.items():
                    setattr(control, trait, was)
        self.pixels, self._frame = state.pixels, state.frame
        self.verdict, self.words, self.more, self.details = state.words.values()

    def _forget_screen(self):
        self._on_screen = self._sent_page = None  # the pixels and the page that a screen has
        self._forecasts = []

    def _page(self):
        """What stays while a hand moves controls: their labels, ends and order, and the words above them."""
        rows = []
        for name, row in self._rows.items():
            if not isinstance(row, Control):
                rows.append([name, {"kind": "heading", "label": row}])
            elif isinstance(row, Player):
                moves = next(n for n, c in self.controls.items() if c is row.moves)
                rows.append([name, {**row.spec(), "moves": moves}])
            else:
                rows.append([name, row.spec()])
        return {
            "title": self.title,
            "caution": self.caution,
            "controls": rows,
            "presets": list(self.presets),
            "size": self._size,
            "units": units_choice.for_screen(self._units) if self.build_again else [],
        }

    def _pixel_size(self):
        return [] if self.pixels is None else [self.pixels.shape[1], self.pixels.shape[0]]

    def _words(self):
        return {"verdict": self.verdict, "words": self.words, "more": self.more, "details": self.details}

    def _told(self):
        """What a screen is told of a picture, besides its pixels."""
        return {"size": self._pixel_size(), "values": self._shown_values(), **self._words()}

    def _shown_values(self):
        return {name: control.shown() for name, control in self.controls.items()}

    def get_state(self, key=None, drop_defaults=False):
        """State for a screen that opens now; what a hand moves goes as messages, so the state is made only here."""
        quiet = {"page": self._page()}
        if self.pixels is not None:
            quiet["now"] = {**self._words(), "values": self._shown_values(), "size": self._pixel_size()}
            of, still = self._still
            quiet["now"]["picture"] = still if of is self.pixels else ""
        self._trait_values.update(quiet)
        return super().get_state(key, drop_defaults)

    @property
    def said(self):
        """All that the stage says now: the sentence, the second line and the details, if there are any."""
        return " ".join(part for part in (self.words, self.more, self.details) if part)

    def __repr__(self):
        return self.said

    def _repr_mimebundle_(self, **kwargs):
        data, metadata = super()._repr_mimebundle_(**kwargs)
        # Where no kernel runs, the picture and the sentence stand in for the live demonstration.
        data["text/plain"] = self.said
        if self._frame is not None:
            still = with_sentence(self._frame, self.said)
            data["image/png"] = base64.b64encode(small_png(still)).decode("ascii")
            # The stage begins with it too: its own pixels come when the kernel has run the rest of the page.
            self._still = self._frame, f"data:image/png;base64,{data['image/png']}"
            self.send_state("now")
        return data, metadata

    def image(self):
        """The picture as it is now, as a PIL image, for whoever wants to keep it."""
        return Image.fromarray(self.pixels[:, :, :3])
