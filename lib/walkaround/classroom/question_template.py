"""Bags in two units: a set of questions to copy, rename and change.

How a question set works, from the top:

1. NAME is what the course file calls it; TITLE is what the student reads.
2. write(variant) makes one student's paper. Draw numbers with variant.number(label, low, high, step), or one of several
   things with variant.pick(label, things). A label keeps its draw for ever: give each draw a label of its own, and do
   not change it once you have handed out.
3. Compute the answer from the numbers drawn, never type it in. Then compute what the usual slips would give, a row
   each: (the wrong answer, name of the slip, what the student is told). The class report counts slips by their name.
4. tolerance is in the answer's unit: what a person with a pocket calculator can meet. Numbers that bring a wrong answer
   within twice the tolerance of the right one are drawn again by themselves.

Kinds of question: number; choice (one option); choices (several); order (all options in an order). See the second
question for options. Try the file with:  walkaround check
A mistake is shown with its line.
"""

from walkaround.assessment.builders import choice, number
from walkaround.assessment.questions import Paper

NAME = "bags"
TITLE = "Bags in two units"

POUND_KG = 0.45359237  # exact: international yard and pound agreement, 1959


def write(variant):
    """Write one student's paper."""
    kilograms = variant.number("bag", 8, 26, 0.5)
    limit = variant.number("placard", 40, 60, 5)
    pounds = kilograms / POUND_KG
    fits = pounds <= limit
    # Within 2 lb of the placard the second question would be about rounding: the answer "unclear" draws again.
    clear = abs(pounds - limit) > 2
    questions = (
        number(
            key="pounds",
            title="From kilograms to pounds",
            text=f"A passenger's bag weighs {kilograms:g} kg. How many pounds is that?",
            answer=pounds,
            unit="lb",
            tolerance=0.5,
            points=2,
            hint="One pound is 0.4536 kg, so there are more pounds than kilograms.",
            worked=f"{kilograms:g} kg ÷ 0.4536 kg/lb = {pounds:.1f} lb",
            wrong=[
                (
                    kilograms * POUND_KG,
                    "multiplied instead of divided",
                    "There are more pounds than kilograms: divide.",
                ),
                (kilograms, "kilograms taken as pounds", "That is the number of kilograms."),
            ],
        ),
        choice(
            key="placard",
            title="The placard in the door",
            text=f"The placard says: at most {limit:.0f} lb. May that bag of {kilograms:g} kg go in?",
            options=[("yes", "Yes, it is within the limit"), ("no", "No, it is over the limit")],
            answer=("yes" if fits else "no") if clear else "unclear",
            points=1,
            hint="Compare two weights in one unit.",
            worked=f"{pounds:.1f} lb is {'not ' if fits else ''}more than {limit:.0f} lb",
            wrong=[("no" if fits else "yes", "limit misread", "Turn the bag's weight into pounds before you compare.")],
        ),
    )
    scene = (
        "A passenger has brought a bag, weighed at home in kilograms. The aircraft's placards are in pounds. "
        "All numbers are invented."
    )
    return Paper(NAME, TITLE, variant.student, variant.course, questions, scene)
