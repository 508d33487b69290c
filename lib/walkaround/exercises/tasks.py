"""What a form asks: an exercise that counts, the same again with fresh numbers, or a sitting of mixed practice.

Each task has the file that answers go to, the questions it asks, and what it says; the form shows them.
"""

from typing import NamedTuple

from walkaround.assessment import answer_sheet, practice
from walkaround.assessment.answer_sheet import AnswerSheet, was_begun
from walkaround.assessment.judging import Rules, judge, score
from walkaround.assessment.practice_file import AGAIN, SITTING, Place, PracticeFile
from walkaround.assessment.questions import Question, Table
from walkaround.assessment.variant import Variant
from walkaround.live.status import NOTE, OK, STOP

COUNTED, MIXED = "counted", "mixed"  # beside AGAIN, what a button of the form may begin
PRACTISE = ((AGAIN, "Practise again with fresh numbers"), (MIXED, "Mixed practice"))
BACK = (COUNTED, "Back to the exercise that counts")


class Asked(NamedTuple):
    """A question as it is asked: the key of its record in the file, the rules, its exercise and round of practice."""

    question: Question
    key: str
    rules: Rules
    exercise: str
    round: str = ""


class Shown(NamedTuple):
    """A question as it is shown, in the units that are chosen, with the scene that it belongs to."""

    question: Question
    scene: str
    table: Table


class _Task:
    """What all tasks share: the papers as they are shown."""

    def __init__(self, enrolled, student):
        self.enrolled, self.student, self._papers = enrolled, student, {}

    def shown(self, asked, units):
        """The question as it is shown in a system of units; the same object where no other units were chosen."""
        place = asked.exercise, asked.round, units
        if place not in self._papers:
            self._papers[place] = self.enrolled.paper(asked.exercise, self.student, asked.round, units)
        paper = self._papers[place]
        if units == self.enrolled.units:
            return Shown(asked.question, paper.scene, paper.scene_table)
        return Shown(self._titled(paper, asked.question.key), paper.scene, paper.scene_table)

    def _titled(self, paper, key):
        """The paper's question, under the title that this task gives it."""
        return paper.question(key)


class Counted(_Task):
    """The exercise that counts, whose answers go to the answer sheet."""

    counts, in_one_scene = True, True

    def __init__(self, enrolled, exercise, folder, student, kept_open):
        super().__init__(enrolled, student)
        self._kept = enrolled.kept(exercise)
        self.paper, rules = enrolled.paper(exercise, student), enrolled.rules_for(exercise)
        self.asked = [Asked(q, q.key, rules, exercise) for q in self.paper.questions]
        self.file = kept_open(AnswerSheet) or AnswerSheet(
            folder, exercise, student, enrolled.course, enrolled.signing_key
        )
        self.begins = []

    def save(self, asked, what, *given):
        """Save what was done with a question: answered, hinted or worked."""
        getattr(self.file, what)(asked.key, *given)

    def progress(self, where, scores):
        """How far the student has come, in words."""
        done, earned = sum(s.closed for s in scores), sum(s.earned for s in scores)
        text = f"Paper of {self.student.strip()}. {where}{done} of {len(scores)} done, "
        text += "kept for your instructor to mark." if self._kept else f"{earned} of {self.paper.points} points."
        if done == len(scores):
            full = " Full marks!" if earned == self.paper.points else ""
            text += full if self.file.unsaved else f"{full} Your answers are in the file {self.file.path.name}."
        return text

    def ends(self, scores):
        """What is said below the questions, rows of a verdict and a text, and the buttons there."""
        return [], [] if self._kept else list(PRACTISE)


class _Practice(_Task):
    """What both kinds of practice share: a file that nobody marks, and no points."""

    counts = False

    def save(self, asked, what, *given):
        """Save what was done with a question: answered, hinted or worked."""
        if what != "answered":
            getattr(self.file, what)(asked.key)
            return
        right, turn, _ = judge(asked.question, given[0], asked.rules)
        self.file.judged(asked.key, given[0], right, turn.slip if turn else "")

    def _closed(self, asked):
        return score(asked.question, self.file.record(asked.key), asked.rules).closed

    def _slips(self, asked):
        return practice.slips_of(self.file.record(asked.key))

    def _at_first(self):
        right = sum(self._slips(a) is None for a in self.asked)
        return f"{right} of {len(self.asked)} right at the first try."


class Again(_Practice):
    """An exercise done again with fresh numbers: the round that is not done yet, or the next, later than `after`."""

    in_one_scene = True

    def __init__(self, enrolled, exercise, folder, student, kept_open, after=0):
        super().__init__(enrolled, student)
        self.file = kept_open(PracticeFile) or PracticeFile(folder, student, enrolled.course)
        rules, first = enrolled.rules_for(exercise), max(self.file.last_round(exercise), after + 1)
        for self.number in (first, first + 1):
            name = Place(AGAIN, self.number, exercise, "")
            self.paper = enrolled.paper(exercise, student, name.round)
            self.asked = [
                Asked(q, name._replace(question=q.key).key, rules, exercise, name.round) for q in self.paper.questions
            ]
            if not all(map(self._closed, self.asked)):
                break
        told = "Fresh numbers, for practice: nothing here counts, and your answers in the exercise stay as they are."
        self.begins = [[NOTE, told]]

    def progress(self, where, scores):
        """How far the student has come, in words."""
        done = sum(s.closed for s in scores)
        return f"Practice {self.number} of {self.student.strip()}, not counted. {where}{done} of {len(scores)} done."

    def ends(self, scores):
        """What is said below the questions, rows of a verdict and a text, and the buttons there."""
        said = []
        if all(s.closed for s in scores):
            wrong = [_named(a.question.title, names) for a in self.asked if (names := self._slips(a)) is not None]
            said = [[NOTE if wrong else OK, f"Done: {self._at_first()}"]]
            said += [[STOP, f"Went wrong: {', '.join(wrong)}. Mixed practice brings it back."]] * bool(wrong)
        return said, [(AGAIN, "Fresh numbers once more"), BACK, PRACTISE[1]]


class Sitting(_Practice):
    """A sitting of mixed practice: the one that is not done yet, or else the next.

    `from_exercise` if the student came from an exercise, and may go back. Raises ValueError when nothing was begun.
    """

    in_one_scene = False  # each question has the scene of its own exercise

    def __init__(self, enrolled, folder, student, kept_open, from_exercise=False):
        super().__init__(enrolled, student)
        self._back, self.begins = from_exercise, []
        self.file = kept_open(PracticeFile) or PracticeFile(folder, student, enrolled.course)
        self._counted, self._titles = [], {}
        spots = self._begun(enrolled, folder)
        if not spots:
            raise ValueError("it draws from the exercises that you have begun, and you have begun none here yet")
        history = practice.History(self.file, self._counted)
        self.number = history.last
        planned = [(p.exercise, p.question) for p in self.file.sittings().get(history.last, ())]
        self.asked = self._ask(enrolled, [spot for spot in planned if spot in spots])
        goes_on = not all(map(self._closed, self.asked))
        if not goes_on:
            self.number = history.last + 1
            order = Variant(enrolled.course, student, "mixed practice", practice=f"{SITTING} {self.number}")
            self.asked = self._ask(enrolled, history.next_sitting(order.shuffled("order", spots)))
        if not self.asked:
            raise ValueError("; ".join(text for _, text in self.begins).rstrip("."))
        self.begins.insert(0, [NOTE, self._told(history, goes_on)])

    def _begun(self, enrolled, folder):
        """The questions of all exercises begun; also keeps what became of them in the answer sheets, and the titles."""
        spots = []
        for exercise in filter(lambda name: not enrolled.kept(name), enrolled.names):
            try:
                sheet = answer_sheet.look(folder, exercise, self.student, enrolled.course)
            except ValueError as error:
                self.begins.append([STOP, f"{error}: its slips are not brought back."])
                sheet = {}
            if not any(map(was_begun, sheet.values())) and not self.file.last_round(exercise):
                continue
            try:
                paper, rules = enrolled.paper(exercise, self.student), enrolled.rules_for(exercise)
            except ValueError as error:
                self.begins.append([STOP, f"The exercise {exercise} is left out: {error}."])
                continue
            self._titles[exercise] = paper.title
            spots += [(exercise, q.key) for q in paper.questions]
            judged = ((q.key, practice.judged(q, sheet[q.key], rules)) for q in paper.questions if q.key in sheet)
            self._counted += [(exercise, key, record) for key, record in judged]
        return spots

    def _ask(self, enrolled, spots):
        """The questions of this sitting; one that can't be made is left out, which is told."""
        asked = []
        for exercise, key in spots:
            place = Place(SITTING, self.number, exercise, key)
            try:
                drawn = exercise, place.round, enrolled.units
                if drawn not in self._papers:
                    self._papers[drawn] = enrolled.paper(exercise, self.student, place.round)
                paper = self._papers[drawn]
                question = self._titled(paper, key)
            except ValueError as error:
                self.begins.append([STOP, f"A question of {self._titles[exercise]} is left out: {error}."])
                continue
            self.file.record(place.key)  # the plan of the sitting, kept with its first answer
            asked.append(Asked(question, place.key, enrolled.rules_for(exercise), exercise, place.round))
        return asked

    def _titled(self, paper, key):
        question = paper.question(key)
        return question._replace(title=f"{paper.title} · {question.title}")

    def _told(self, history, goes_on):
        """What is told at the beginning: how many questions there are, and how many come back."""
        due = (history.standings[spot].due for spot in map(_spot, self.asked) if spot in history.standings)
        back = sum(0 < n <= self.number for n in due)
        count, lessons = len(self.asked), len({_spot(a)[0] for a in self.asked})
        told = (
            f"Sitting {self.number}{' goes on' if goes_on else ''}: {count} "
            f"{'question' if count == 1 else 'questions'} with fresh numbers, from {lessons} "
            f"{'exercise' if lessons == 1 else 'exercises'} that you have begun. Nothing here counts."
        )
        if back and not goes_on:
            some = f"{'All' if back == count else back} of them" if count > 1 else "It"
            told += f" {some} {'come' if back > 1 else 'comes'} back because of a slip."
        return told

    def progress(self, where, scores):
        """How far the student has come, in words."""
        done = sum(s.closed for s in scores)
        start = f"Mixed practice of {self.student.strip()}, sitting {self.number}, not counted. "
        return f"{start}{where}{done} of {len(scores)} done."

    def ends(self, scores):
        """What is said below the questions, rows of a verdict and a text, and the buttons there."""
        back = [BACK] * self._back
        if not all(s.closed for s in scores):
            return [], back
        standings = practice.History(self.file, self._counted).standings
        said = [[NOTE, f"Sitting {self.number} is done: {self._at_first()}"], *self._cured_and_waiting(standings)]
        said.append(["", "One sitting a day does more than several in a row."])  # common practice, no source
        return said, [(MIXED, "Begin the next sitting"), *back]

    def _cured_and_waiting(self, standings):
        """Rows on each slip of this sitting: made, right again or cured; and what else waits."""
        rows, here, n = {STOP: [], NOTE: [], OK: []}, {_spot(a) for a in self.asked}, self.number
        for a in self.asked:
            stands, went_wrong = standings.get(_spot(a)), self._slips(a) is not None
            if stands is None:
                continue
            name = _named(a.question.title, stands.slips)
            if stands.cured == n:
                rows[OK].append(f"Cured: {name}. Right at the first try all {len(practice.GAPS)} times.")
            elif went_wrong:
                rows[STOP].append(f"Went wrong: {name}. It {practice.comes_back(stands.due, n)}.")
            elif stands.due and stands.right:
                times = f"{stands.right} of {len(practice.GAPS)} times"
                rows[NOTE].append(f"Right, {times}: {name}. It {practice.comes_back(stands.due, n)}.")
        others = sorted(
            s.due for spot, s in standings.items() if s.due and spot not in here and spot[0] in self._titles
        )
        if others:
            many = "1 other slip waits: it" if len(others) == 1 else f"{len(others)} other slips wait: the first"
            rows[NOTE].append(f"{many} {practice.comes_back(others[0], n)}.")
        due = sum(0 < s.due <= n + 1 for spot, s in standings.items() if spot[0] in self._titles)
        if due > practice.SIZE:
            rows[NOTE].append(f"{due} slips are due. A sitting has room for {practice.SIZE}: the rest wait.")
        return [[verdict, text] for verdict in (OK, STOP, NOTE) for text in rows[verdict]]


def _spot(asked):
    _, exercise, key = asked.key.split("/", 2)
    return exercise, key


def _named(title, slips):
    return f"{title} ({', '.join(slips)})" if slips else title
