"""The table of lessons, in the order of the walkaround: the one place that names them. A new lesson is a row here."""

import importlib
from dataclasses import dataclass


@dataclass(frozen=True)
class Lesson:
    """One lesson: its place in the walkaround, its name in every folder, its title, the minutes that it takes.

    `demonstrations` has (function of the lesson, what it shows) pairs. A module of questions may have SHOWN_BY: for the
    key of a question, the (function, preset) that shows it. `tasks` names the tasks of a public standard, FAA-S-ACS-6
    (private pilot, airplane), that the lesson serves; their letters are recalled. `place` is where on the aircraft the
    stop is: the share of its length from the nose, and the share of its half span from the middle, left negative.
    """

    number: int
    name: str
    title: str
    question: str
    minutes: int
    demonstrations: tuple = ()
    tasks: str = ""
    place: tuple[float, float] = (0.5, 0.0)

    @property
    def file(self):
        """File name of its notebook in each of the folders notebooks, exercises and solutions."""
        return f"{self.number:02d}-{self.name}.ipynb"

    @property
    def questions(self):
        """The module that writes its exercise: NAME, TITLE, `write(variant)` and `quick(variant)`."""
        return importlib.import_module(f"walkaround.lessons.{self.name}.questions")

    @property
    def shown_by(self):
        """The (demonstration, preset) that shows a question, by the question's key; not every question has one."""
        return getattr(self.questions, "SHOWN_BY", {})


LESSONS = (
    Lesson(
        1,
        "loading",
        "Weight and balance",
        "How far does a bag move the centre of gravity, and may we go?",
        45,
        (("demo", "Load it and watch the balance"), ("holds", "What may still go into the holds")),
        "I.F",
        place=(0.5, -0.1),
    ),
    Lesson(
        2,
        "securing",
        "Securing",
        "How hard does a gust pull, what goes first, and in which order do I untie it?",
        45,
        (("demo", "Park it in a storm"),),
        "II.A, XII.A",
        place=(0.36, -0.6),
    ),
    Lesson(
        3,
        "pitot_static",
        "Pitot and static",
        "What does a forgotten cover make the instruments say, and when does it give itself away?",
        60,
        (
            ("dials", "Block an opening and read the instruments"),
            ("flight", "A whole flight, and a blockage on the way"),
            ("guess", "Guess the fault"),
            ("takeoff_roll", "The take-off roll with the cover on"),
        ),
        "I.G, II.A",
        place=(0.26, -0.62),
    ),
    Lesson(
        4,
        "cooling",
        "Cooling",
        "What does a plug left in an intake do, how soon, and does the gauge tell?",
        45,
        (("demo", "Block an intake, climb, and watch the gauge"),),
        "I.G, II.A",
        place=(0.04, -0.06),
    ),
    Lesson(
        5,
        "controls",
        "Controls",
        "Does every surface go the right way and all the way, and what do three missing degrees cost?",
        45,
        (("demo", "Move the controls, find the fault"), ("drill", "Sixty seconds: which way must it move?")),
        "I.G, II.A, II.F",
        place=(0.4, 0.78),
    ),
    Lesson(
        6,
        "fuel",
        "Fuel",
        "How much to order, where does water lie in a tank, and where does it come from?",
        50,
        (("demo", "Tilt the tank, watch the water run"), ("night", "Where the water comes from")),
        "I.F, I.G, II.A",
        place=(0.36, 0.3),
    ),
    Lesson(
        7,
        "oil",
        "Oil",
        "Is there enough for this flight, when is the next quart due, and what do I show a mechanic?",
        40,
        (("demo", "The oil log, and when the next quart is due"),),
        "I.G, II.A",
        place=(0.12, -0.09),
    ),
    Lesson(
        8,
        "preheat",
        "Preheat and oil",
        "When is a cold engine ready to start, and what did it cost to get it there?",
        50,
        (("demo", "Warm a cold engine"),),
        "I.G, II.C",
        place=(0.04, 0.06),
    ),
    Lesson(
        9,
        "ground_power",
        "Ground power and cold start",
        "Does it turn fast enough, and what does the wrong plug do?",
        45,
        (("demo", "Turn a cold engine, and plug in a cart"),),
        "I.G, II.C",
        place=(0.12, 0.1),
    ),
    Lesson(
        10,
        "towing",
        "Towing",
        "What moves it, where do wing tips and tail go, and will it fit through the door?",
        40,
        (
            ("demo", "Tow it into the hangar"),
            ("force", "What it takes to move it"),
            ("hangar", "Steer it in yourself, for marks"),
        ),
        "II.A, II.D",
        place=(0.15, 0.04),
    ),
    Lesson(
        11,
        "round",
        "The round: find the faults",
        "Would I see it, and how sure am I?",
        60,
        (("demo", "Find the faults on an aircraft"),),
        "I.G, II.A",
        place=(1.0, 0.0),
    ),
    Lesson(
        12,
        "decision",
        "Go or no-go",
        "May this flight go, what stops it, and what makes it a go?",
        50,
        (("demo", "One flight on a board, and what mends it"),),
        "I.F, I.G, II.A",
        place=(0.42, -0.05),
    ),
)


def find(name):
    """Return the lesson of that name, or raise ValueError listing those there are.

    >>> find("loading").title
    'Weight and balance'
    """
    for row in LESSONS:
        if row.name == name:
            return row
    raise ValueError(f"exercise {name!r} is not in the workbook; allowed: {', '.join(names())}")


def show(name, demonstration, preset=""):
    """Return a demonstration of the lesson of that name, with a preset taken if one is named.

    >>> show("loading", "demo", "full to the brim").values["hold A"] > 0
    True
    """
    stage = getattr(importlib.import_module(f"walkaround.lessons.{find(name).name}"), demonstration)()
    if preset:
        stage.take_preset(preset)
    return stage


def names():
    """Names of the lessons, sorted.

    >>> "loading" in names()
    True
    """
    return sorted(row.name for row in LESSONS)
