"""A labelled text box whose Enter key carries the whole text that stands in the box."""

from pathlib import Path

import anywidget
from traitlets import Unicode


class TextEntry(anywidget.AnyWidget):
    """A text box behind its label; `value` is the text in it.

    >>> entry = TextEntry(label="Your name:")
    >>> entry.on_enter(print)
    >>> entry.take({"entered": "Ines Okafor"})
    Ines Okafor
    """

    _esm = Path(__file__).parent / "text_entry.js"
    _css = """
    .walkaround-text-entry { margin: 2px; color: var(--jp-ui-font-color1, #1a1a1a); }
    .walkaround-text-entry input {
      font: inherit; margin: 0 4px; padding: 3px 6px; max-width: 100%; color: inherit;
      border: 1px solid #767676; background: var(--jp-layout-color1, #fff);
    }
    .walkaround-text-entry input:focus { outline: 3px solid #0063a0; outline-offset: -1px; }
    """
    label = Unicode().tag(sync=True)
    placeholder = Unicode().tag(sync=True)
    width = Unicode("12em").tag(sync=True)
    # Not echoed: an echo of what was typed a moment ago would overwrite what has been typed since.
    value = Unicode().tag(sync=True, echo_update=False)

    def __init__(self, **kwargs):
        self._on_enter = []
        super().__init__(**kwargs)
        self.on_msg(lambda _, content, __: self.take(content))

    def on_enter(self, call):
        """Call with the text in the box when Enter is pressed in it."""
        self._on_enter.append(call)

    def take(self, content):
        """Take a message of the screen: the text in the box, as {"typed": text}, or {"entered": text} with Enter."""
        text = str(content.get("entered", content.get("typed", self.value)))
        self.set_state({"value": text})  # as from a screen: it is not sent back there
        if "entered" in content:
            for call in self._on_enter:
                call(text)
