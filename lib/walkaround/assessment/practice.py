"""Mixed practice: what a sitting asks, when a slip comes back, and when it is cured.

What the words mean:

- A *slip* is made in a question that goes wrong: its first answer is not right, or its worked answer is looked at
  before it. It does not matter where: in the exercise, in the exercise done again with fresh numbers, or in a sitting.
  Each wrong turn that the answers match gives the slip a name.
- A *sitting* is one mixed practice: the questions put together when it is begun, until each of them is closed. One that
  is left half way goes on where it was left; the next begins after it. How much time lies between does not matter.
- A slip comes back in the next sitting. Each time that its question is then right at the first try, it stays away for
  twice as long: it comes back after 1, 2, 4 and 8 sittings (common practice, no source). If the question goes wrong
  again, anywhere, all this begins anew. A sitting has room for 6 questions: if more slips are due, the rest wait.
- A slip is *cured* when its question was right at the first try each of these four times. A slip that is made again
  later has to be cured again.
- A right answer before its time changes nothing: just after an explanation it shows little.

A hint costs nothing here either: a question that is right at the first try after a hint is right.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from walkaround.assessment.answer_sheet import Record
from walkaround.assessment.judging import Rules, judge
from walkaround.assessment.practice_file import SITTING, PracticeFile
from walkaround.assessment.questions import Question

GAPS = (1, 2, 4, 8)  # sittings until a slip comes back, after none to three right answers in a row
SIZE = 6  # questions in a sitting

Spot = tuple[str, str]  # an exercise and the key of a question


class Went(NamedTuple):
    """How a question went: in which sitting or, if `outside`, after which; right or not; names of the slips."""

    sitting: int
    right: bool
    slips: tuple[str, ...] = ()
    outside: bool = False


class Standing(NamedTuple):
    """Where a slip stands: its names, how often it was right in a row, and the sitting in which it comes back.

    `due` is 0 when nothing comes back; `cured` is the sitting in which it was cured, 0 if it was not.
    """

    slips: tuple[str, ...] = ()
    right: int = 0
    due: int = 0
    cured: int = 0


def standing(history: Iterable[Went]) -> Standing:
    """Return where the slip of one question stands after all that happened, given in any order.

    >>> standing([Went(0, False, ("litres taken for gallons",), outside=True), Went(1, True)])
    Standing(slips=('litres taken for gallons',), right=1, due=3, cured=0)
    >>> standing([Went(1, False), Went(2, True), Went(4, True), Went(8, True), Went(16, True)]).cured
    16
    """
    now = Standing()
    for went in sorted(history, key=lambda w: (w.sitting, w.outside)):
        if not went.right:
            before = now.slips if now.due else ()
            now = Standing(tuple(dict.fromkeys(before + went.slips)), due=went.sitting + GAPS[0])
        elif now.due and not went.outside and went.sitting >= now.due:
            right = now.right + 1
            if right == len(GAPS):
                now = Standing(now.slips, right, cured=went.sitting)
            else:
                now = now._replace(right=right, due=went.sitting + GAPS[right])
    return now


def plan(
    sitting: int, spots: Sequence[Spot], standings: Mapping[Spot, Standing], asked: Mapping[Spot, int], size: int = SIZE
) -> list[Spot]:
    """Return the questions of a sitting, of those in `spots`, in which they stand mixed.

    First come slips that are due: those with the fewest right answers in a row first and, of those, the longest due.
    What a sitting has no room for waits. Then come questions without a slip, those first that were asked least often
    (`asked`: how often). Only if there is nothing else, slips come before their time.

    >>> slip = Standing(due=3)
    >>> plan(3, [("oil", "a"), ("oil", "b"), ("fuel", "c")], {("fuel", "c"): slip}, {("oil", "a"): 1}, size=2)
    [('oil', 'b'), ('fuel', 'c')]
    """
    waits = {s: standings[s] for s in spots if s in standings and standings[s].due}
    due = sorted((s for s in waits if waits[s].due <= sitting), key=lambda s: (waits[s].right, waits[s].due))
    free = sorted((s for s in spots if s not in waits), key=lambda s: asked.get(s, 0))
    chosen = (due + free or sorted(waits, key=lambda s: waits[s].due))[:size]
    return [s for s in spots if s in chosen]


def judged(question: Question, record: Record, rules: Rules) -> Record:
    """Return the record of a question in an answer sheet with what became of each try, as practice keeps it."""
    tries = record["tries"][:0]
    for t in record["tries"]:
        try:
            right, turn, _ = judge(question, t["given"], rules)
        except ValueError:
            continue
        tries.append({"given": t["given"], "at": t["at"], "right": right, "slip": turn.slip if turn else ""})
    return {**record, "tries": tries}


def slips_of(record: Record) -> tuple[str, ...] | None:
    """Names of the slip made in a question, by its record; None if it did not go wrong, or nothing was answered yet.

    >>> slips_of({"tries": [{"given": "5", "at": "", "right": False, "slip": ""}], "hint": False, "worked_after": None})
    ()
    """
    tries, seen = record["tries"], record["worked_after"]
    if seen != 0 and (not tries or tries[0].get("right")):
        return None
    return tuple(dict.fromkeys(slip for t in tries if (slip := t.get("slip"))))


class History:
    """All that a student practised, and what went wrong in the exercises that count.

    `counted` has (exercise, question, record as `judged` gives it). `standings` has where each slip stands, `asked` how
    often each question was asked in sittings, `last` the number of the last sitting that was begun.
    """

    def __init__(self, file: PracticeFile, counted: Iterable[tuple[str, str, Record]] = ()) -> None:
        sittings = file.sittings()
        self.last = max(sittings, default=0)
        self.asked: dict[Spot, int] = {}
        begun = {}
        for number, places in sittings.items():
            begun[number] = min((at for p in places for at in _times(file.record(p.key))), default="")
            for p in places:
                self.asked[p.exercise, p.question] = self.asked.get((p.exercise, p.question), 0) + 1
        events: dict[Spot, list[Went]] = {}
        rows = [(p.what == SITTING and p.number, (p.exercise, p.question), record) for p, record in file.places()]
        rows += [(False, (exercise, question), record) for exercise, question, record in counted]
        for number, spot, record in rows:
            slips = slips_of(record)
            if number and (slips is not None or record["tries"]):
                events.setdefault(spot, []).append(Went(number, slips is None, slips or ()))
            elif not number and slips is not None:
                last = max(_times(record, wrong=True), default="")
                after = max((n for n, at in begun.items() if at < last), default=0)
                events.setdefault(spot, []).append(Went(after, False, slips, outside=True))
        self.standings = {spot: standing(history) for spot, history in events.items()}

    def next_sitting(self, spots: Sequence[Spot]) -> list[Spot]:
        """Return the questions of the sitting after the last, of those in `spots`, in which they stand mixed."""
        return plan(self.last + 1, spots, self.standings, self.asked)


def _times(record: Record, wrong: bool = False) -> list[str]:
    """When a question was answered or its worked answer seen; if `wrong`, only what is not right, or before that."""
    times = [t["at"] for t in record["tries"] if not (wrong and t.get("right"))]
    known = any(t.get("right") for t in record["tries"][: record["worked_after"]])
    return times + [at for at in (record.get("worked_at"),) if at and not (wrong and known)]


def comes_back(due: int, sitting: int) -> str:
    """Say when a slip comes back that is due in a sitting, after another one.

    >>> comes_back(6, 5), comes_back(7, 5)
    ('comes back in the next sitting', 'comes back in 2 sittings')
    """
    return f"comes back in {'the next sitting' if due - sitting <= 1 else f'{due - sitting} sittings'}"
