"""A demonstration's stage on a page, driven and read as a person does."""


class StageOnPage:
    """The stage of that number on a page, from 0."""

    def __init__(self, page, number=0):
        self.page, self.root = page, page.locator(".wa-stage").nth(number)
        self.root.wait_for()
        page.wait_for_function("stage => Number(stage.dataset.frames) > 0", arg=self.root.element_handle())
        self.root.scroll_into_view_if_needed()

    @property
    def words(self):
        """What it says: the sentence, the line below it, and the details."""
        said = (p.text_content() for p in self.root.locator(".wa-sentence, .wa-more, .wa-details > p").all())
        return " ".join(said).replace("\xa0", " ").strip()

    @property
    def picture(self):
        """The pixels of the picture, as a text that changes when any of them does."""
        return self.root.locator("canvas").evaluate("canvas => canvas.toDataURL()")

    def control(self, name):
        """The control that a screen reader calls by a name that begins so."""
        exact = self.root.get_by_label(name, exact=True)
        found = (exact if exact.count() else self.root.get_by_label(name)).first
        # On a small screen it may be folded away under its heading.
        found.evaluate("control => { const fold = control.closest('details'); if (fold) fold.open = true; }")
        return found

    def press(self, name, key, times=1):
        """Give the keyboard to a control and press a key."""
        self.control(name).focus()
        for _ in range(times):
            self.page.keyboard.press(key)

    def wait_until_it_says(self, words, spoken=True):
        """Wait until it says some words, under Details perhaps, the hand rests and the sentence has been spoken.

        Not `spoken`: until the words are there.
        """
        self.page.wait_for_function(
            """([stage, words, wanted]) => {
                const says = selector => stage.querySelector(selector).textContent.replaceAll('\xa0', ' ').trim();
                const said = (says('.wa-sentence') + ' ' + says('.wa-more')).trim(), spoken = says('.wa-spoken');
                return (said + ' ' + says('.wa-details')).includes(words) && (!wanted || spoken && said.endsWith(spoken));
            }""",
            arg=[self.root.element_handle(), words, spoken],
        )

    def rest(self):
        """Wait until the hand has rested and the last frame has come."""
        self.page.wait_for_timeout(900)
