"""Going through a form by keyboard, and answering a question of any kind."""

import json

from walkaround import measures
from walkaround.assessment.questions import CHOICE, CHOICES, NUMBER, ORDER, paper

FEEDBACK = ".wa-answer [role=status]"
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


def answer_by_keyboard(page, question, answer, says, key="Tab"):
    """Enter an answer by keyboard, hand it in, and wait until it says some words."""
    enter_by_keyboard(page, question, answer, "Tab" if question.kind == NUMBER else key)
    if question.kind != NUMBER:
        tab_to(page, "Check")
    page.keyboard.press("Enter")
    page.wait_for_selector(f"{FEEDBACK}:has-text({json.dumps(says, ensure_ascii=False)})")


def answer_wrong_then_right(page, lab, questions, name):
    """Begin an exercise under a name, and answer its first question with a slip and then right; both are on the sheet."""
    page.get_by_label("Your name").fill(name)
    page.keyboard.press("Enter")
    page.wait_for_selector(f"text=Paper of {name}")
    tab_to(page, "Next")
    question = paper(questions, name).questions[0]
    wrong = question.wrong_turns[0]
    given = [f"{a:.4f}" if question.kind == NUMBER else a for a in (wrong.answer, question.answer)]
    answer_by_keyboard(page, question, given[0], wrong.says)
    answer_by_keyboard(page, question, given[1], f"of {question.points}.", "Shift+Tab")
    unit = f" {question.unit}" * measures.in_both(question.unit)
    assert answers(lab, questions.NAME, name)[question.key] == [g + unit if unit else g for g in given]


def answers(lab, exercise, name):
    """What a student's answer sheet holds by now: the answers given to each question."""
    path = lab.folder / "exercises" / f"{exercise}-{name.lower().replace(' ', '-')}.answers.json"
    stored = json.loads(path.read_text(encoding="utf-8"))["answers"]
    return {key: [t["given"] for t in record["tries"]] for key, record in stored.items()}
