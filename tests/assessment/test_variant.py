"""A student's own numbers are the same for ever, and differ between students."""

import hashlib

from hypothesis import given
from hypothesis import strategies as st
from walkaround.assessment.variant import Variant, same_name


def test_the_draw_is_the_hash_and_nothing_else():
    # FIPS 180-4 by hashlib, the parts written out by hand: a change here would change every student's numbers.
    text = "4:home" + "11:ines okafor" + "7:loading" + "0:" + "1:0" + "3:bag"
    n = int.from_bytes(hashlib.sha256(text.encode()).digest()[:8], "big")
    assert Variant("home", "Ines Okafor", "loading").number("bag", 20, 60, 5) == 20 + 5 * (n % 9)


def test_pinned_draws():
    # Written down once; they must never change.
    v = Variant("home", "Ines Okafor", "loading")
    assert [v.number("bag", 20, 60, 5), v.pick("who", ("a", "b", "c")), v.shuffled("s", "abcd")] == [
        20,
        "a",
        ["d", "b", "a", "c"],
    ]


@given(st.text(min_size=1, max_size=20), st.floats(-50, 50), st.integers(1, 40), st.sampled_from([0.1, 0.5, 1, 5]))
def test_draws_are_within_range_and_on_a_step(label, low, steps, step):
    value = Variant("c", "s", "e").number(label, low, low + steps * step, step)
    assert low - 1e-9 <= value <= low + steps * step + 1e-9
    assert abs((value - low) / step - round((value - low) / step)) < 1e-6


def test_every_value_comes_up_about_equally_often():
    counts = [0] * 10
    for i in range(2000):
        counts[int(Variant("c", f"student {i}", "e").number("x", 0, 9))] += 1
    assert min(counts) > 140
    assert max(counts) < 260


def test_names_are_the_same_in_any_spelling_of_space_and_case():
    assert same_name(" Ines\u00a0 OKAFOR") == same_name("ines okafor")
    assert Variant("c", "Zoë", "e").number("x", 0, 10**9) == Variant("c", "ZOE\u0308", "e").number("x", 0, 10**9)


def test_course_student_exercise_key_attempt_and_label_all_count():
    base = Variant("c", "s", "e").number("x", 0, 10**9)
    others = [
        Variant("d", "s", "e"),
        Variant("c", "t", "e"),
        Variant("c", "s", "f"),
        Variant("c", "s", "e", "k"),
        Variant("c", "s", "e", "", 1),
    ]
    drawn = [v.number("x", 0, 10**9) for v in others] + [Variant("c", "s", "e").number("y", 0, 10**9)]
    assert len({base, *drawn}) == 7


def test_no_two_lists_of_parts_make_the_same_text():
    assert Variant("a", "b1:c", "d").number("x", 0, 10**9) != Variant("a1:b", "c", "d").number("x", 0, 10**9)


def test_a_shuffle_holds_every_option_once():
    assert sorted(Variant("c", "s", "e").shuffled("o", ["p", "q", "r", "s"])) == ["p", "q", "r", "s"]
