"""The game: go round an aircraft with hidden faults, look, and say what is wrong and how sure you are."""

from time import monotonic

from walkaround import aircraft
from walkaround.lessons.round.notes import Noted
from walkaround.lessons.round.picture import RoundPicture, Shown
from walkaround.lessons.round.rounds import LEVELS, RESERVE, SECTIONS, by_number, stops
from walkaround.lessons.round.score import (
    FOUND,
    IMAGINED,
    MISSED,
    NAMED_WRONGLY,
    OPEN,
    PASSED,
    Said,
    score,
    without_looking,
)
from walkaround.lessons.round.stops import KINDS
from walkaround.lessons.round.things import AS_IT_SHOULD_BE, number_of
from walkaround.live.controls import choice, count, slider, switch
from walkaround.live.stage import Stage, Worked
from walkaround.live.status import NOTE, OK, STOP
from walkaround.live.units_choice import in_chosen_units

CAUTION = (
    "A training aid with an invented aircraft. On the ramp its own handbook and checklist say what to look at. Treat "
    "the propeller as live, keep away from a hot engine, and show a mechanic what you do not understand."
)
NOTHING_SAID = "nothing yet"
FINDINGS = ("", AS_IT_SHOULD_BE, *(kind.name for kind in KINDS))
_SURE = {"min": 0, "max": 100, "step": 10, "decimals": 0}
_MARKS = {FOUND: "✓", MISSED: "✗", NAMED_WRONGLY: "✗", IMAGINED: "!"}


@in_chosen_units
def demo(name="morrowlark_four", now=monotonic):
    """Return the game for a demo aircraft's name, or for the path of an aircraft file; `now` is a clock in s.

    >>> made = demo()
    >>> made.set(number=3, stop=7)
    >>> made.words
    'Stop 7: the oil dipstick. What do you find?'
    """
    craft, rows = aircraft.with_sections(name, *SECTIONS), stops()
    game = {
        "stop": slider("stop", "", 1, len(rows), 1, 1, "stop on the round"),
        "look": slider("look at", "", 1, 2, 1, 1, "what to look at from this stop"),
    }

    def this_round():
        return game["level"].value, game["number"].value

    def here():
        return *this_round(), game["stop"].value, game["look"].value

    def over():
        return this_round() in dict(game["done"].value)

    class HandIn(Noted):
        """The switch that ends a round; it keeps when each began and the seconds that it took, and stays on."""

        begun = ()

        def shown(self):
            return over()

        def take(self, shown):
            if shown and not over():
                self.value = (*self.value, (this_round(), now() - dict(self.begun).get(this_round(), now())))

        def carry_over(self, other):
            super().carry_over(other)
            self.begun = other.begun

    names = [NOTHING_SAID, *FINDINGS[1:]]
    game |= {
        "finding": Noted("choice", "you find", 0, here, over, {"options": names}),
        "sure": Noted("slider", "sure, %", 80, here, over, _SURE, "how sure you are, per cent"),
        "level": choice("level", [(text, level) for level, text in LEVELS.items()]),
        "number": count("aircraft number", 1, 1, 9999),
        "done": HandIn("switch", "hand in: show what was there", False, this_round, over),
        "words": switch("say in words what is seen"),
    }

    def begin(_change):
        begun = game["done"].begun
        if this_round() not in dict(begun):
            game["done"].begun = (*begun, (this_round(), now()))

    for control in ("stop", "look", "finding"):
        game[control].observe(begin, "value")

    def fit(values):
        there = by_number(values["number"], values["level"], name).at(values["stop"] - 1)
        game["look"].set_ends(1, len(there), values["look"])

    def work(values):
        played = by_number(values["number"], values["level"], name)
        at = values["stop"] - 1
        there = played.at(at)
        look = min(values["look"], len(there)) - 1
        said = _said(values, played)
        seconds = dict(values["done"]).get((values["level"], values["number"]))
        scored = score(played.found, said) if seconds is not None else None
        marks = _marks(played, scored) if scored else ("",) * len(rows)
        thing = there[look].thing
        title = f"{look + 1} of {len(there)}: {thing.title}"
        shown = Shown(at, thing.name, title, there[look].seen, _day_words(played), marks)
        return Worked(shown, (values, played, played.found.index(there[look]), said, scored, seconds))

    controls = {"_where": "Where you look", "stop": game["stop"], "look": game["look"], "_say": "What you say"}
    controls |= {n: game[n] for n in ("finding", "sure")} | {"_round": "The aircraft"}
    controls |= {n: game[n] for n in ("level", "number", "done", "words")}
    presets = {
        f"level {level}, aircraft {number}": {"level": level, "number": number, "stop": 1, "look": 1}
        for level in LEVELS
        for number in (1, 2)
    }
    return Stage(
        f"{craft.name}: find the faults", controls, RoundPicture(craft, rows), work, _say, presets, CAUTION, fit
    )


def _said(values, played):
    """What was said of each thing, in the order of the round."""
    findings, sure = dict(values["finding"]), dict(values["sure"])
    where = [
        (values["level"], values["number"], stop + 1, look + 1)
        for stop in range(len(played.stops))
        for look in range(len(played.at(stop)))
    ]
    return [Said(FINDINGS[findings.get(place, 0)], sure.get(place, 80)) for place in where]


def _marks(played, scored):
    """What stands at each stop once the round is over."""
    return tuple(
        "".join(_MARKS.get(o, "") for f, o in zip(played.found, scored.outcomes, strict=True) if f.stop is stop)
        for stop in played.stops
    )


def _day_words(played):
    day, units = played.day, played.craft.units
    oil = played.craft.engine.oil.unit
    return (
        f"The flight: {day.hours:g} h, {number_of(day.outside_c)} °C outside,\n"
        f"landing by night: {RESERVE:.0f} min reserve\n"
        f"fuel needed: {day.fuel_needed:.1f} {units.volume}, with reserve\n"
        f"oil needed: {day.oil_needed:.1f} {oil}\n"
        "\nA tractor holds it by the nose wheel.\nNothing else may be on it or under it;\n"
        "the hand tow bar belongs in the hold.\n"
    )


def _say(said):
    values, played, place, all_said, scored, seconds = said
    found, mine = played.found[place], all_said[place]
    where = f"Stop {found.stop.number}: {found.thing.title}."
    if scored is None:
        judged = sum(bool(s.finding) for s in all_said)
        seen = found.thing.sees(found.seen) if values["words"] else ""
        asks = f"You say: {mine.finding}, {mine.sure} % sure." if mine.finding else "What do you find?"
        return NOTE, f"{where} {asks}", seen, f"Judged so far: {judged} of {len(all_said)}."
    verdict, words, why = _told(found, mine, scored.outcomes[place], played)
    return verdict, words, why, *_result(values["level"], played, scored, seconds)


def _told(found, mine, outcome, played):
    """The verdict on one thing, the sentence, and what the fault would have done or why there was none."""
    if found.kind is None:
        why = f"It looks like something: {found.alarm.why}." if found.alarm else f"{found.thing.sees(found.seen)}"
        words = {
            PASSED: "Rightly passed: as it should be.",
            OPEN: "You said nothing here, and it is as it should be.",
            IMAGINED: f"Imagined: {mine.finding}. It is as it should be.",
        }[outcome]
        return STOP if outcome == IMAGINED else OK, words, why
    name, would = found.kind.name, found.kind.would(played.craft, played.day, found.seen)
    words = {
        FOUND: f"Found: {name}.",
        MISSED: f"Missed: {name}.",
        NAMED_WRONGLY: f"Named wrongly: it is {name}, not {mine.finding}.",
    }[outcome]
    return OK if outcome == FOUND else STOP, f"{words} What shows it: {found.kind.told(found.seen)}.", would


def _result(level, played, scored, seconds):
    """The result of the round, and what was missed and imagined, a sentence each."""
    faults, counted = len(played.faults), scored.count
    wrongly = counted(NAMED_WRONGLY)
    minutes, rest = divmod(round(seconds), 60)
    result = (
        f"The round: {counted(FOUND)} of {faults} found, {counted(MISSED)} missed, "
        + f"{wrongly} named wrongly, " * bool(wrongly)
        + f"{counted(IMAGINED)} imagined; {number_of(scored.points, 1)} points of {len(scored.outcomes)}, "
        f"{without_looking(level):.1f} without looking; {minutes} min {rest} s."
    )
    return result, *(_listed(what, played, scored) for what in (MISSED, NAMED_WRONGLY, IMAGINED))


def _listed(outcome, played, scored):
    at = [f for f, o in zip(played.found, scored.outcomes, strict=True) if o == outcome]
    named = [f"{f.kind.name if f.kind else f.thing.title} (stop {f.stop.number})" for f in at]
    return f"{outcome.capitalize()}: {', '.join(named)}." if named else ""
