"""Going through a form by keyboard, and answering a question of any kind."""

from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER

ON = "(e => e.tagName === 'BUTTON' ? e.innerText.trim() : e.type ?? e.tagName)(document.activeElement)"


def tab_to(page, wanted, key="Tab"):
    """Press Tab until what has the focus is a button of that text, or a control of that kind."""
    for _ in range(60):
        if page.evaluate(ON).startswith(wanted):
            return
        page.keyboard.press(key)
    raise AssertionError(f"Tab never reached {wanted}; it is at {page.evaluate(ON)}")


def enter_by_keyboard(page, question, answer, key="Tab"):
    """Enter an answer by keyboard, where an earlier one may stand, from before or behind its controls."""
    keys = [key for key, _ in question.options]
    if question.kind == NUMBER:
        tab_to(page, "text", key)
        page.keyboard.press("Control+A")
        page.keyboard.type(answer if isinstance(answer, str) else f"{answer:.4f}")
        return
    control = {CHOICE: "radio", CHOICES: "checkbox", ORDER: "select"}[question.kind]
    tab_to(page, control, key)
    if question.kind == CHOICE:
        page.keyboard.press("Space")
        at = page.evaluate("(e => [...e.closest('fieldset').elements].indexOf(e))(document.activeElement)")
        for _ in range((keys.index(answer) - at) % len(keys)):
            page.keyboard.press("ArrowDown")
        return
    for _ in keys[1:] if key != "Tab" else ():
        page.keyboard.press(key)
    for i, option in enumerate(keys):
        if i:
            page.keyboard.press("Tab")
        if question.kind == ORDER:
            page.keyboard.press(str(answer.index(option) + 1))
        elif page.evaluate("document.activeElement.checked") != (option in answer):
            page.keyboard.press("Space")
