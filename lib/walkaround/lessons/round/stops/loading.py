"""In the cabin: the papers, and what lies in the hold."""

from walkaround import measures
from walkaround.aircraft.airfield import airfield
from walkaround.lessons.round.things import Alarm, Kind, Thing, pull
from walkaround.physics.air import takeoff
from walkaround.physics.loading import cg_after_change
from walkaround.physics.loading.words import say

PAPERS = ("registration certificate", "airworthiness certificate", "flight manual", "weighing report")
NEW_EQUIPMENT = 25.0  # invented: what the old report may lack, in the file's unit of weight, carried in the rear hold
HOT_C = 30.0  # a hot day, for a take-off roll that nobody can look up
CRASH_G = 9.0  # forward, that loose things have to be held against: 14 CFR 23.561 before its 2017 rewrite (recalled)


def _papers(place):
    return {"papers": PAPERS, "superseded": False}


def _one_missing(place):
    missing = place.pick("missing paper", PAPERS)
    new = measures.converted(NEW_EQUIPMENT, place.file_units.weight, place.craft.units.weight)
    return {"papers": tuple(p for p in PAPERS if p != missing), "superseded": place.level > 2, "new": new}


def _without_papers(craft, day, seen):
    (missing,) = (p for p in PAPERS if p not in seen["papers"])
    unit, hold = craft.units, craft.stations[-1]
    if missing == "weighing report":
        moved = cg_after_change(craft.empty.weight, craft.empty.cg, seen["new"], hold.arm) - craft.empty.cg
        return (
            f"Nobody knows the empty aircraft: {seen['new']:.0f} {unit.weight} of new equipment at {hold.name} would "
            f"move its CG by {say(moved, unit.arm)}."
        )
    if missing == "flight manual":
        standard = craft.take_off.ground_roll_ft(unit)
        warm = takeoff.takeoff_roll(standard, craft.speeds.lift_off, airfield().elevation_ft, HOT_C)
        return (
            f"Nobody can look anything up: {measures.words(standard, 'ft')} of ground roll on a standard day at sea "
            f"level are {measures.words(warm.ground_roll_ft, 'ft')} from Quillmoor at {HOT_C:.0f} °C."
        )
    return "Both certificates have to be aboard (14 CFR 91.203, recalled): without them the numbers don't matter."


def _hold(craft):
    return next(s for s in craft.stations if s.kind == "hold")


def _bags(total):
    first = round(0.45 * total)
    second = round(0.6 * (total - first))
    return first, second, total - first - second


def _load(place, total, **more):
    return {"hold": _hold(place.craft).name, "limit": _hold(place.craft).maximum, "unit": place.craft.units.weight,
            "bags": _bags(round(total)), "net": True, "large": False} | more  # fmt: skip


def _within(place):
    return _load(place, _hold(place.craft).maximum * place.number("hold load", 55, 92) / 100)


def _over(place):
    return _load(place, _hold(place.craft).maximum * (1 + place.size(0.35, 0.15, 0.05)))


def _large(place):
    return _load(place, _hold(place.craft).maximum * place.number("large bags", 40, 70) / 100, large=True)


def _hold_over(craft, day, seen):
    hold, total = _hold(craft), sum(seen["bags"])
    over = total - hold.maximum
    weight = craft.empty.weight + hold.maximum
    before = cg_after_change(craft.empty.weight, craft.empty.cg, hold.maximum, hold.arm)
    moved = cg_after_change(weight, before, over, hold.arm) - before
    return (
        f"{total} {seen['unit']} on a floor for {hold.maximum:g}: {over:.0f} too many, and the CG of the empty "
        f"aircraft {say(moved, craft.units.arm)} further aft than the full hold has it."
    )


def _thrown(craft, day, seen):
    heaviest = max(seen["bags"])
    return (
        f"At {CRASH_G:.0f} g, for which cargo has to be held, the bag of {heaviest} {seen['unit']} flies forward with "
        f"{pull(CRASH_G * heaviest, seen['unit'])}."
    )


THINGS = (
    Thing(
        "papers",
        "the door pocket with the papers",
        _papers,
        lambda seen: (
            "In the pocket: "
            + ", ".join(seen["papers"])
            + ("; an older weighing report, crossed out." if seen["superseded"] else ".")
        ),
        (
            Kind(
                "a paper missing",
                _one_missing,
                lambda seen: (
                    f"four have to be there, and there is no {next(p for p in PAPERS if p not in seen['papers'])}"
                ),
                _without_papers,
            ),
        ),
        (
            Alarm(
                lambda place: {"papers": PAPERS, "superseded": True},
                "the old report is crossed out, the new one is there",
            ),
        ),
    ),
    Thing(
        "hold",
        "the forward hold",
        _within,
        lambda seen: (
            f"Placard: {seen['hold']}, {seen['limit']:g} {seen['unit']}. "
            f"{'Large bags' if seen['large'] else 'Bags'} with tags of {', '.join(map(str, seen['bags']))} "
            f"{seen['unit']}; "
            f"{'a net over them' if seen['net'] else 'nothing over them, a net in the corner'}."
        ),
        (
            Kind(
                "hold over its limit",
                _over,
                lambda seen: (
                    f"the tags add up to {sum(seen['bags'])} {seen['unit']}, the placard says {seen['limit']:g}"
                ),
                _hold_over,
            ),
            Kind(
                "bags not held by the net",
                lambda place: _within(place) | {"net": False},
                lambda seen: "the net lies in the corner",
                _thrown,
            ),
        ),
        (Alarm(_large, "large bags, but their tags stay below the placard"),),
    ),
)
