"""Every drawn flight has exactly the stated reasons, by sums made here from the aircraft file and what a student is shown.

Nothing of the lesson's own computation is used: the file is read as TOML, the flight off the table of the scene.
"""

import math
import re
import tomllib
from collections import Counter
from dataclasses import replace
from itertools import combinations, pairwise
from pathlib import Path

import pytest
import walkaround
from walkaround.assessment.judging import score
from walkaround.assessment.questions import CHOICE, NUMBER, paper
from walkaround.lessons.decision import drawn, questions
from walkaround.lessons.decision.drawn import CLEAR
from walkaround.lessons.decision.flight import FUEL, fuel_needed

FILES = Path(walkaround.__file__).parent / "aircraft"
FOUR = tomllib.loads((FILES / "morrowlark_four.toml").read_text(encoding="utf-8"))
FIELD = tomllib.loads((FILES / "quillmoor.toml").read_text(encoding="utf-8"))
PAPERS = [paper(questions, f"Student {i}") for i in range(200)]
# Of each number, more than a reader's tolerance: the flight is clearly on one side of its limit.
READS = {"off": 7, "down": 7, "cg": 0.25, "fuel": 0.45, "oil": 0.15, "engine": 1.5, "runway": 40}
KEYS = {
    "off": "weighs off", "down": "weighs down", "cg": "balanced", "fuel": "fuelled", "oil": "oiled", "engine": "warm",
    "runway": "room", "found": "found",
}  # fmt: skip


def shown(asked):
    """The flight as the scene's table shows it."""
    rows = dict(asked.scene_table)

    def of(label):
        return float(re.match(r"−?[\d,.]+", rows[label])[0].replace("−", "-").replace(",", ""))

    ahead = 1 if rows["wind along the runway"].endswith("ahead") else -1
    return {
        "front": of("front seats"),
        "rear": of("rear seats"),
        "a": of("hold A"),
        "b": of("hold B"),
        "gal": of("fuel aboard, usable"),
        "hours": of("flight"),
        "night": rows["flight"].endswith("night"),
        "inches": of("oil on the dipstick, level and run back"),
        "burns": of("oil burnt"),
        "outside": of("outside"),
        "oil_c": of("oil temperature"),
        "metal_c": of("metal temperature"),
        "wind": ahead * of("wind along the runway"),
        "runway": of("runway that can be used"),
        "found": rows["the round found"],
        "quarts": 0.0,
    }


def between(x, xs, ys):
    """Straight line between points, and level beyond them."""
    for (x0, x1), (y0, y1) in zip(pairwise(xs), pairwise(ys), strict=True):
        if x0 <= x <= x1:
            return y0 + (x - x0) / (x1 - x0) * (y1 - y0)
    return ys[0] if x < xs[0] else ys[-1]


def rooms(f):
    """How far every number is on the good side of its limit, negative past it; None where there is no limit."""
    arms = {s["name"]: s["arm"] for s in FOUR["stations"]}
    loads = [
        (FOUR["empty"]["weight"], FOUR["empty"]["arm"]),
        (f["front"], arms["front seats"]),
        (f["rear"], arms["rear seats"]),
        (f["a"], arms["hold A"]),
        (f["b"], arms["hold B"]),
    ]
    system, limits, engine = FOUR["fuel_system"], FOUR["limits"], FOUR["engine"]
    zero = sum(w for w, _ in loads)
    assert zero < limits["zero_fuel"] - READS["off"]
    pounds = FOUR["fuel"]["density"]
    loads.append((pounds * (f["gal"] - system["taxi"]), FOUR["fuel"]["tanks"][0]["arm"]))
    off = sum(w for w, _ in loads)
    cg = sum(w * arm for w, arm in loads) / off
    (low_cg, _), (fore, low), (fore_high, high), (aft, _), _ = FOUR["envelopes"][0]["corners"]
    assert low_cg == fore
    needs = system["taxi"] + system["per_hour"] * (f["hours"] + (45 if f["night"] else 30) / 60)
    oil = engine["oil"]
    quarts = f["quarts"] + between(f["inches"], oil["dipstick_marks"], oil["dipstick_quantities"])
    # Standard atmosphere, ICAO Doc 7488: 288.15 K, 6.5 K/km, exponent 5.2559.
    sigma = (1 - 0.0065 * FIELD["elevation_ft"] * 0.3048 / 288.15) ** 5.2559 * 288.15 / (273.15 + f["outside"])
    lift_off = FOUR["speeds"]["lift_off"]
    over_ground = lift_off / math.sqrt(sigma) - f["wind"]
    needed = 1.5 * FOUR["take_off"]["ground_roll"] * (over_ground / lift_off) ** 2 / sigma
    heated = f["outside"] < engine["preheat_below_c"]
    return {
        "off": limits["take_off"] - off,
        "down": limits["landing"] - (off - pounds * system["per_hour"] * f["hours"]),
        "cg": min(cg - between(off, (low, high), (fore, fore_high)), aft - cg),
        "fuel": f["gal"] - needs,
        "oil": quarts - (oil["minimum"] + f["hours"] * f["burns"] + 0.5),
        "engine": min(f["oil_c"] - engine["ready_oil_c"], f["metal_c"] - engine["ready_metal_c"]) if heated else None,
        "runway": f["runway"] - needed,
    }


def found_stops(f):
    """Whether what the round found stops the flight, and whether it is put right on the spot."""
    words = f["found"]
    figure = re.search(r"([\d,]+\.?\d*)(°| lb)", words)
    value = float(figure[1].replace(",", "")) if figure else None
    surfaces, towing = FOUR["control_surfaces"], FOUR["towing"]
    if "elevator" in words:
        return abs(value - surfaces["elevator"]["up_deg"]) > surfaces["tolerance_deg"], False
    if "nose wheel was turned" in words:
        return value > towing["turning_limit_deg"], False
    if "nose leg" in words:
        return value > towing["nose_leg_limit"], False
    if "winter kit" in words:
        on = f["outside"] > FOUR["cooling"]["kit"]["off_above_c"]
        return on, on
    left_on = any(thing in words for thing in ("pitot cover", "tape", "tow bar", "rope"))
    assert left_on or words.startswith(("nothing", "water in the first fuel sample; the next two"))
    return left_on, left_on


def failing(f):
    """Keys of what stops a flight."""
    past = {key for key, room in rooms(f).items() if room is not None and room < 0}
    return past | ({"found"} if found_stops(f)[0] else set())


def after(f, key, words):
    """The flight after a mend, as its words have it."""
    number = float((re.search(r"\d+", words) or "0")[0])
    bad_thing = {"found": "nothing"} if key == "put right" else {}
    changes = {
        "bags": {"a": f["a"] - number},
        "forward": {"front": f["front"] + number, "rear": f["rear"] - number},
        "drain": {"gal": f["gal"] - number},
        "refuel": {"gal": f["gal"] + number},
        "oil": {"quarts": number},
        "heat": {"oil_c": max(f["oil_c"], 20), "metal_c": max(f["metal_c"], 10)},
        "turn": {"wind": -f["wind"]},
        "put right": bad_thing,
    }
    return {**f, **changes[key]}


def test_every_flight_has_exactly_the_stated_reasons():
    for asked in PAPERS:
        f = shown(asked)
        stated = {key for key, name in KEYS.items() if asked.question(name).answer == "stops"}
        assert stated == failing(f), (asked.student, f)
        stops, on_the_spot = found_stops(f)
        expected = "go" if not stated else "not today" if stops and not on_the_spot else "mend first"
        assert asked.question("decide").answer == expected, asked.student


def test_exactly_what_works_is_what_mends_it():
    for asked in PAPERS:
        f, q = shown(asked), asked.question("mend")
        stops, on_the_spot = found_stops(f)
        works = {key for key, words in q.options[:-2] if not failing(after(f, key, words))}
        expected = {"mechanic"} if stops and not on_the_spot else {"none"} if not failing(f) else works
        assert q.answer == expected, asked.student


def test_no_number_is_so_near_its_limit_that_reading_decides():
    for asked in PAPERS:
        f = shown(asked)
        for each in (f, *(after(f, key, words) for key, words in asked.question("mend").options[:-2])):
            for key, room in rooms(each).items():
                assert room is None or abs(room) > READS[key], (asked.student, key, room)


def test_a_number_as_far_from_its_limit_as_it_has_to_be_is_clear_whatever_the_last_bit_is():
    at_it = [replace(a.givens.flight, fuel=fuel_needed(a.givens.flight) + CLEAR[FUEL]) for a in PAPERS[:40]]
    clear = [f for f in at_it if drawn._clear(f)]
    assert clear
    for f in clear:
        assert drawn._clear(replace(f, fuel=math.nextafter(f.fuel, 0.0)))
        assert not drawn._clear(replace(f, fuel=f.fuel - 0.01))


def test_the_numbers_are_those_of_the_file():
    for asked in PAPERS[:50]:
        f = shown(asked)
        room = rooms(f)
        limits = FOUR["limits"]
        expected = {
            "take-off": limits["take_off"] - room["off"],
            "landing": limits["landing"] - room["down"],
            "fuel": f["gal"] - room["fuel"],
            "runway": f["runway"] - room["runway"],
            "oil": between(f["inches"], FOUR["engine"]["oil"]["dipstick_marks"], (4, 5, 6, 7, 8)),
        }
        for key, value in expected.items():
            q = asked.question(key)
            assert q.answer == pytest.approx(value, abs=q.tolerance / 2), (asked.student, key)


def test_what_carries_it_is_ranked_by_its_share():
    for asked in PAPERS:
        f = shown(asked)
        room, limit = rooms(f), FOUR["limits"]["take_off"]
        quarts = between(f["inches"], FOUR["engine"]["oil"]["dipstick_marks"], (4, 5, 6, 7, 8))
        shares = {
            "take-off weight": room["off"] / limit,
            "fuel": room["fuel"] / (f["gal"] - room["fuel"]),
            "oil": room["oil"] / (quarts - room["oil"]),
            "runway": room["runway"] / f["runway"],
        }
        ranked = sorted(shares, key=shares.get)
        assert asked.question("carries").answer == tuple(ranked)
        assert all(shares[b] - shares[a] > 0.015 for a, b in pairwise(ranked))


def test_every_sort_comes_up_in_a_fair_share_and_every_reason_and_mend_somewhere():
    sorts = Counter(asked.givens.sort for asked in PAPERS)
    assert {"go", "looks bad", "mend", "not today"} == set(sorts)
    assert min(sorts["looks bad"], sorts["mend"]) >= 40
    assert min(sorts["go"], sorts["not today"]) >= 8
    decided = Counter(asked.question("decide").answer for asked in PAPERS)
    assert 0.35 < decided["go"] / len(PAPERS) < 0.48  # neither answer is the one to guess
    for name in KEYS.values():
        answers = Counter(asked.question(name).answer for asked in PAPERS)
        assert min(answers["stops"], answers["does not stop"]) >= 3, (name, answers)
    worked = set().union(*(asked.question("mend").answer for asked in PAPERS))
    assert worked == {"bags", "forward", "drain", "refuel", "oil", "heat", "turn", "put right", "none", "mechanic"}


def test_what_looks_bad_looks_bad_and_is_fine():
    for asked in PAPERS:
        if asked.givens.sort == "looks bad":
            f = shown(asked)
            room = rooms(f)
            little = (
                room["off"] < 140 or room["down"] < 130 or room["cg"] < 0.8 or room["oil"] < 0.4 or room["runway"] < 120
                or room["fuel"] < 2 or (room["engine"] or 99) < 5
            )  # fmt: skip
            assert little or f["outside"] < -7 or not f["found"].startswith("nothing"), asked.student
            assert not failing(f)
            # That it may be taken off is offered where it may stay on, too: the list does not tell.
            assert ("winter kit" in f["found"]) == ("put right" in dict(asked.question("mend").options))


def test_each_reason_is_marked_by_itself():
    for name in KEYS.values():
        q = PAPERS[0].question(name)
        assert (q.kind, q.points, len(q.wrong_turns)) == (CHOICE, 1, 1)


def test_nobody_clicks_through_the_options_to_the_points():
    for asked in PAPERS[:20]:
        for q in (q for q in asked.questions if q.kind == CHOICE):
            others = [{"given": key} for key, _ in q.options if key != q.answer]
            assert score(q, {"tries": [*others, {"given": q.answer}]}).earned == 0
            assert score(q, {"tries": [*others[1:], {"given": q.answer}]}).earned == q.points


def test_each_number_that_is_typed_names_one_slip():
    for asked in PAPERS:
        for q in (q for q in asked.questions if q.kind == NUMBER):
            assert len({turn.slip for turn in q.wrong_turns}) == len({turn.says for turn in q.wrong_turns})
            for a, b in combinations((turn.answer for turn in q.wrong_turns), 2):
                assert abs(a - b) > 2 * q.tolerance, (asked.student, q.key)


def test_the_runway_is_the_same_to_the_foot_wherever_it_is_told():
    for asked in PAPERS:
        told = re.search(r"= ([\d,]+) ft; ", asked.question("runway").worked[-1])[1]
        assert asked.question("room").worked == (f"{told} ft, limit {shown(asked)['runway']:,.0f}",)


def test_words_fit_what_they_are_about():
    for asked in PAPERS:
        for _, words in asked.question("mend").options:
            assert not words.startswith("1 qt") or words == "1 qt of oil is added"
        assert "is the engine too cold?" in asked.question("warm").text
        assert "number" not in asked.question("found").hint  # a rope has none
