"""The head of an exercise on screen: who does it, the scene, how far they have come, and the way between questions."""

import anywidget
from traitlets import Dict, Unicode

from walkaround.exercises.answer_box import CSS, HERE
from walkaround.live.screen import sources


class FormHead(anywidget.AnyWidget):
    """What stands above the questions; `name` is the text in the box for the name.

    `page`: `asks` who it is, with a `label` and a `placeholder` for the name, the names `known` here, and the
    line about the `course`. `now`: `said`, rows of a verdict and a text; the `scene` with its `table`; `progress`; the
    `titles` of the questions, the `place` of the one shown, and whether `all` are shown (None: they can't be);
    `actions`, a name and a text for each further button; where `begun` rises, the focus goes to the head; `units`, as
    `live.units_choice.for_screen` gives them. `on_press`
    takes what a screen presses, as keywords: begin, place, all, the place of a choice of `units`, or the name of an
    action as `act`; `on_name` is called when the name changes.

    >>> head = FormHead({"asks": True}, lambda **pressed: print(pressed, head.name), lambda: None)
    >>> head.take({"name": "Ines Okafor", "press": "begin"})
    {'begin': True} Ines Okafor
    """

    _esm = sources("screen.js") + sources("answer_logic.js", "form_head.js", folder=HERE)
    _css = CSS
    page = Dict().tag(sync=True)
    now = Dict().tag(sync=True)
    # Not echoed: an echo of what was typed a moment ago would overwrite what has been typed since.
    name = Unicode().tag(sync=True, echo_update=False)

    def __init__(self, page, on_press, on_name):
        lists, texts = {"said": [], "table": [], "titles": [], "actions": []}, {"scene": "", "progress": ""}
        empty = {**lists, **texts, "place": 0, "all": False, "turn": 0, "begun": 0, "units": []}
        super().__init__(page={"label": "", "placeholder": "", "known": [], "course": ""} | page, now=empty)
        self._on_press = on_press
        self.observe(lambda _: on_name(), "name")
        self.on_msg(lambda _, content, __: self.take(content))

    def show(self, **changed):
        """Show something else from now on; a screen hears of it even if it is the same again."""
        self.now = {**self.now, **changed, "turn": self.now["turn"] + 1}

    def take(self, content):
        """Take a message of the screen: the `name` as it stands, and what was pressed."""
        self.set_state({"name": str(content.get("name", self.name))})  # as from a screen: it is not sent back there
        if content.get("press") == "begin":
            self._on_press(begin=True)
        for what in ("place", "all", "act", "units"):
            if what in content:
                self._on_press(**{what: content[what]})
