"""Controls that keep a value for each place: what was said at one stop is there again when the hand comes back."""

from walkaround.live.controls import Control


class Noted(Control):
    """A control of a kind (slider, choice or switch) with a value of its own for each place.

    `where()` returns the place now, and `closed()` whether nothing may be changed any more. `value` has a (place,
    value) pair for each place at which something was said; elsewhere the control shows `first`.
    """

    def __init__(self, kind, label, first, where, closed, details=None, tooltip=""):
        self.kind, self._first, self._where, self._closed, self._more = kind, first, where, closed, details or {}
        super().__init__(label=label, tooltip=tooltip, value=())

    def _details(self):
        return self._more

    def shown(self):
        """The value at the place where the hand is."""
        return dict(self.value).get(self._where(), self._first)

    def carry_over(self, other):
        """Take what was said at all places."""
        self.value = other.value

    def take(self, shown):
        """Note a value for the place where the hand is."""
        if not self._closed():
            here = self._where()
            self.value = (*(pair for pair in self.value if pair[0] != here), (here, shown))
