"""What a hand can move on a stage: sliders, switches, choices, counts and a player; values and words, nothing drawn."""

import contextlib
import math

from traitlets import Any, Bool, HasTraits, TraitError, Unicode, validate

from walkaround import measures


class Control(HasTraits):
    """A control: a `value` that can be observed, the label that stands beside it, and a longer name for it."""

    kind = ""
    value = Any()
    memory = Any()  # what else it goes by; a stage that has worked out a step ahead puts it back
    label = Unicode()
    unit = Unicode()
    tooltip = Unicode()

    @property
    def description(self):
        """The label with its unit."""
        return f"{self.label}, {self.unit}" if self.unit else self.label

    def spec(self):
        """What a screen needs to show it, as plain data."""
        named = {"kind": self.kind, "label": self.label, "unit": self.unit, "name": self.tooltip or self.description}
        return named | self._details()

    def _details(self):
        return {}

    def shown(self):
        """The value as plain data."""
        return self.value

    def take(self, shown):
        """Take a value as a screen gives it."""
        self.value = shown

    def carry_over(self, other):
        """Take what another control stands for, if this one can: the same control in other units."""
        with contextlib.suppress(TraitError, ValueError, TypeError, IndexError):
            self.take(other.shown())


class Between(Control):
    """A number between two ends."""

    min = Any()
    max = Any()
    whole = Bool(True)

    @validate("value")
    def _within(self, proposal):
        number = min(max(proposal.value, self.min), self.max)
        return int(number) if self.whole else float(number)

    def _details(self):
        return {"min": self.min, "max": self.max}


class Slider(Between):
    """A number between two ends, in steps; whole where ends and step are."""

    kind = "slider"
    step = Any()

    def carry_over(self, other):
        """Take another slider's number, in this one's unit and at the nearest of its steps."""
        with contextlib.suppress(ValueError):
            number = measures.converted(other.value, other.unit, self.unit)
            steps = round((number - self.min) / self.step)
            self.value = self.min + steps * self.step if self.unit != other.unit else number

    def set_ends(self, low, high, value):
        """Give it new ends and a new value between them."""
        with self.hold_trait_notifications():
            self.min, self.max = low, high
            self.value = min(max(value, low), high)

    def _details(self):
        decimals = 0 if self.whole else max(0, -math.floor(math.log10(self.step) + 1e-9))
        return super()._details() | {"step": self.step, "decimals": decimals}


class Switch(Control):
    """On or off."""

    kind = "switch"

    def take(self, shown):
        """Take a value as a screen gives it."""
        self.value = bool(shown)


class Choice(Control):
    """One of several, each with a name; a screen knows them by their places."""

    kind = "choice"

    def __init__(self, options, **traits):
        self._options = [option if isinstance(option, tuple) else (option, option) for option in options]
        super().__init__(**traits)

    @validate("value")
    def _known(self, proposal):
        values = [value for _, value in self._options]
        if proposal.value not in values:
            raise ValueError(f"{self.label} is {proposal.value!r}; allowed: {', '.join(map(repr, values))}")
        return proposal.value

    def _details(self):
        return {"options": [name for name, _ in self._options]}

    def shown(self):
        """The value as plain data."""
        return [value for _, value in self._options].index(self.value)

    def take(self, shown):
        """Take a value as a screen gives it."""
        self.value = self._options[shown][1]


class Count(Between):
    """A small whole number, such as votes."""

    kind = "count"


class Player(Control):
    """A play button that moves a slider; the screen does the moving, so there is no value of its own."""

    kind = "player"

    def __init__(self, moves, step, interval_ms):
        self.moves, self.step, self.interval_ms = moves, step, interval_ms
        super().__init__(label="Play")

    def _details(self):
        return {"step": self.step, "interval": self.interval_ms}


def slider(label, unit, low, high, value, step, tooltip=""):
    """Return a slider for a number; `tooltip` is a longer name where the label is short.

    >>> slider("front seats", "lb", 0, 400, 170, 5).description
    'front seats, lb'
    """
    whole = all(float(v).is_integer() for v in (low, high, value, step))
    number = int if whole else float
    ends = {"min": number(low), "max": number(high), "step": number(step), "whole": whole}
    return Slider(label=label, unit=unit, tooltip=tooltip, **ends, value=number(value))


def switch(label, value=False):
    """Return a switch.

    >>> switch("pitot inlet blocked").value
    False
    """
    return Switch(label=label, value=value)


def choice(label, options, value=None):
    """Return a choice from a list of names, or of (name, value) pairs; the first one without a `value`.

    >>> choice("fan", ["low", "high"]).value
    'low'
    """
    first = options[0][1] if isinstance(options[0], tuple) else options[0]
    return Choice(options, label=label, value=first if value is None else value)


def count(label, value=0, low=0, high=99):
    """Return a box for a small whole number.

    >>> count("votes", 120).value
    99
    """
    return Count(label=label, min=low, max=high, value=value)


def player(moment, step, interval_ms=100):
    """Return a play button that moves the slider `moment` by `step` every `interval_ms`; its name begins with _.

    The next value goes out only when the last one has been drawn, so a slow kernel leaves frames out, and none wait.

    >>> player(slider("moment", "s", 0, 60, 0, 1), 1).spec()["interval"]
    100
    """
    return Player(moment, step, interval_ms)
