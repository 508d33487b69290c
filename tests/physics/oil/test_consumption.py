"""Logs of dipstick readings: the fit and its intervals against scipy, how often they hold, and what must always be so."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy import optimize, stats
from walkaround.physics import oil
from walkaround.physics.oil import change_of_rate, trend

LOGS = 4000
HOURS = np.array([0.0, 2.5, 4.0, 7.5, 11.0, 12.5, 17.0, 20.0])
ADDED = np.array([0.0, 0.0, 1.0, 0.0, 0.0, 1.0, 0.0, 0.0])


def made(per_hour=0.12, scatter=0.15, logs=LOGS, seed=7, bend=0.0, bend_at=11.0, step=0.0):
    """Logs of an engine that is known: readings off by chance, oil added on the way, more burnt after the bend."""
    burnt = per_hour * HOURS + bend * np.maximum(HOURS - bend_at, 0.0)
    there = 7.0 - burnt + np.cumsum(np.append(0.0, ADDED[:-1]))
    read = there + np.random.default_rng(seed).normal(0.0, scatter, (logs, HOURS.size))
    return np.round(read / step) * step if step else read


def true_level(hours, per_hour=0.12):
    """Oil there is at a later time, with all that was added."""
    return 7.0 + ADDED.sum() - per_hour * hours


@st.composite
def logs(draw, least=3):
    """A log with some scatter in it: hours, quantities and what was added."""
    count = draw(st.integers(least, 12))
    gaps = draw(st.lists(st.integers(1, 60), min_size=count, max_size=count))
    read = draw(st.lists(st.integers(40, 80), min_size=count, max_size=count))
    added = draw(st.lists(st.sampled_from([0.0, 0.0, 0.5, 1.0]), min_size=count, max_size=count))
    return np.cumsum(gaps) / 10, np.array(read) / 10, np.array(added)


def counted(quantities, added):
    """Readings in terms of the oil there is now, written out in another way than in the library."""
    return [q + sum(added[i:]) for i, q in enumerate(quantities)]


@given(logs())
def test_the_line_is_that_of_linregress(log):
    hours, quantities, added = log
    line, other = trend(*log), stats.linregress(hours, counted(quantities, added))
    assume(line.scatter > 1e-3)  # scipy finds the error from 1 − r², which loses digits where a line fits well
    freedom = len(hours) - 2
    assert line.per_hour == pytest.approx(-other.slope, abs=1e-9)
    assert line.quantity(3.0) == pytest.approx(other.intercept + 3.0 * other.slope, abs=1e-8)
    assert line.per_hour_within == pytest.approx(stats.t.ppf(0.975, freedom) * other.stderr, rel=1e-4, abs=1e-6)
    assert line.within(0.0) == pytest.approx(stats.t.ppf(0.975, freedom) * other.intercept_stderr, rel=1e-4, abs=1e-6)


@given(logs(), st.floats(0.5, 6.0))
def test_oil_is_due_where_the_limits_of_the_line_come_down_to_the_level(log, level):
    line = trend(*log, step=0.1)
    due, early, late = (float(h) for h in line.due_h(level))
    assert early <= due <= late or line.per_hour <= 0
    for h, sign in ((early, -1), (late, 1)):
        if abs(h) < 1e4:
            assert line.quantity(h) + sign * line.within(h) == pytest.approx(level, abs=1e-5)
    if due < 1e4:
        assert line.quantity(due) == pytest.approx(level, abs=1e-6)


def test_the_earliest_and_the_latest_are_roots_that_scipy_finds():
    hours, quantities = [0.0, 5.0, 10.0, 15.0, 19.0], [7.0, 6.6, 5.9, 5.5, 5.0]
    other, t = stats.linregress(hours, quantities), stats.t.ppf(0.975, 3)

    def limit(h, sign):
        error = np.hypot(other.stderr * (h - np.mean(hours)), np.std(hours) * other.stderr)
        return other.intercept + other.slope * h + sign * t * error - 4.5

    _, early, late = trend(hours, quantities).due_h(4.5)
    assert early == pytest.approx(optimize.brentq(limit, 0, 60, (-1,)))
    assert late == pytest.approx(optimize.brentq(limit, 0, 60, (1,)))


@given(logs(), st.randoms())
def test_the_order_of_the_readings_does_not_matter(log, dice):
    places = list(range(len(log[0])))
    dice.shuffle(places)
    one, other = trend(*log), trend(*(each[places] for each in log))
    assert other.per_hour == pytest.approx(one.per_hour, abs=1e-12)
    assert other.per_hour_within == pytest.approx(one.per_hour_within, abs=1e-12)
    assert other.last_h == one.last_h
    assert other.quantity(30.0) == pytest.approx(one.quantity(30.0))


@given(logs(), st.data())
def test_what_is_added_counts(log, data):
    # A quart more in the sump from some reading on, and a quart more written down as added: nothing else was burnt.
    hours, quantities, added = log
    at = data.draw(st.integers(0, len(hours) - 2))
    poured, shown = added.copy(), quantities.copy()
    poured[at] += 1.0
    shown[at + 1 :] += 1.0
    one, other = trend(*log), trend(hours, shown, poured)
    assert other.per_hour == pytest.approx(one.per_hour, abs=1e-9)
    assert other.quantity(hours[-1]) == pytest.approx(one.quantity(hours[-1]) + 1.0)


@given(logs(), st.integers(2, 4))
def test_more_readings_of_the_same_scatter_never_widen_an_interval(log, times):
    hours, quantities, _ = log
    one, more = trend(hours, quantities), trend(np.tile(hours, times), np.tile(quantities, times))
    assert more.per_hour == pytest.approx(one.per_hour, abs=1e-9)
    assert more.per_hour_within <= one.per_hour_within + 1e-12
    assert more.within(40.0) <= one.within(40.0) + 1e-12


@given(logs(), st.floats(0.6, 0.9), st.floats(0.91, 0.999))
def test_to_be_surer_is_to_say_less(log, share, larger):
    assert trend(*log, step=0.1, share=larger).within(30.0) > trend(*log, step=0.1, share=share).within(30.0)


def test_readings_on_one_line_are_no_better_than_the_dipstick_is_read():
    hours = np.arange(6.0)
    line = trend(hours, 7.0 - 0.1 * hours, step=0.25)
    assert line.scatter == pytest.approx(0.25 / np.sqrt(12))  # ISO/IEC Guide 98-3, 4.3.7
    assert trend(hours, 7.0 - 0.1 * hours).per_hour_within == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("share", [0.8, 0.95])
@pytest.mark.parametrize("step", [0.0, 0.25])
def test_intervals_hold_their_share_of_made_logs(share, step):
    line = trend(HOURS, made(step=step), ADDED, step, share)
    # 4,000 logs: a standard deviation of 0.6 % or less in the share. Without rounding it is met from both sides.
    most = share + 0.02 if step == 0 else 1.0
    assert share - 0.02 < np.mean(np.abs(line.per_hour - 0.12) <= line.per_hour_within) < most
    assert share - 0.02 < np.mean(np.abs(line.quantity(22.0) - true_level(22.0)) <= line.within(22.0)) < most
    _, early, late = line.due_h(6.0)
    true_h = (7.0 + ADDED.sum() - 6.0) / 0.12
    assert share - 0.02 < np.mean((early <= true_h) & (true_h <= late)) < most


@settings(deadline=None, max_examples=20)
@given(st.floats(0.05, 0.4), st.floats(0.05, 0.5), st.integers(0, 10**6))
def test_the_due_date_holds_for_thirsty_engines_and_careless_readers(per_hour, scatter, seed):
    line = trend(HOURS, made(per_hour, scatter, 1000, seed).clip(0.0), ADDED)
    due, early, late = line.due_h(5.5)
    true_h = (7.0 + ADDED.sum() - 5.5) / per_hour
    # 1,000 logs: a standard deviation of 0.7 %; readings clipped at 0 are rare enough not to count.
    assert np.mean((early <= true_h) & (true_h <= late)) > 0.92
    assert not np.isnan(np.stack([due, early, late])).any()


def test_an_engine_that_burns_none_is_never_due():
    line = trend([0.0, 5.0, 10.0, 15.0], [6.0, 6.1, 6.2, 6.3])
    assert line.due_h(5.0) == (np.inf, np.inf, np.inf)
    assert trend([0.0, 5.0, 10.0], [6.0, 6.0, 6.0], step=0.1).due_h(6.5) == (np.inf, -np.inf, np.inf)
    due, early, late = trend([0.0, 5.0, 10.0], [6.0, 5.8, 6.1], step=0.1).due_h(5.9)
    assert (due, early, late) == (np.inf, -np.inf, np.inf)  # three readings that tell nothing


def test_a_level_that_the_log_itself_has_passed():
    line = trend([0.0, 5.0, 10.0, 15.0], [7.0, 6.6, 5.9, 5.5])
    for level in (6.1, 6.25, 6.4):
        due, early, late = line.due_h(level)
        assert 0.0 < early < due < late < 15.0
        assert line.quantity(early) - line.within(early) == pytest.approx(level)
        assert line.quantity(late) + line.within(late) == pytest.approx(level)


@given(logs(least=5))
def test_the_bend_is_that_of_least_squares(log):
    hours, quantities, added = log
    level, count = np.array(counted(quantities, added)), len(hours)
    found = change_of_rate(*log)
    t = stats.t.ppf(1 - 0.025 / (count - 4), count - 3)
    sizes = []
    for place in range(2, count - 2):
        x = np.column_stack([np.ones(count), -hours, -np.maximum(hours - hours[place], 0.0)])
        solved = np.linalg.lstsq(x, level, rcond=None)[0]
        left = level - x @ solved
        error = np.sqrt(left @ left / (count - 3) * np.linalg.inv(x.T @ x)[2, 2])
        sizes.append((abs(solved[2]) / max(error, 1e-12), hours[place], solved, t * error))
    size, at, solved, within = max(sizes, key=lambda each: each[0])
    assume(1e-6 < size < 1e6 and found.within > 1e-6)  # otherwise readings lie on two lines, or on one
    ours = abs(found.after - found.before) / found.within * t
    assert ours == pytest.approx(size, rel=1e-5, abs=1e-6)
    if sorted(each[0] for each in sizes)[-1] > 1.0001 * sorted(each[0] for each in [(0.0,), *sizes])[-2]:
        assert found.at_h == at
        assert (found.before, found.after) == pytest.approx((solved[1], solved[1] + solved[2]), abs=1e-7)
        assert found.within == pytest.approx(within, rel=1e-5, abs=1e-7)
        assert found.at_quantity == pytest.approx(solved[0] - solved[1] * at, abs=1e-6)


def test_false_alarms_are_as_rare_as_stated():
    # At most 5 %, as Bonferroni's bound has it, and with places that share readings not far below.
    assert 0.02 < np.mean(change_of_rate(HOURS, made(), ADDED).found) < 0.055
    assert np.mean(change_of_rate(HOURS, made(), ADDED, share=0.99).found) < 0.0125
    # With a single place to choose from, it is 5 %.
    five = change_of_rate(HOURS[:5], made()[:, :5], ADDED[:5])
    assert 0.035 < np.mean(five.found) < 0.065


def test_an_engine_that_starts_to_burn_more_is_seen():
    found = change_of_rate(HOURS, made(bend=0.25, scatter=0.1).clip(0.0), ADDED)
    assert np.mean(found.found & (found.after > found.before)) > 0.95
    assert np.median(found.after - found.before) == pytest.approx(0.25, abs=0.02)


def test_what_was_added_is_no_change_of_rate():
    plain = 7.0 - 0.1 * HOURS + np.cumsum(np.append(0.0, ADDED[:-1]))
    assert not change_of_rate(HOURS, plain, ADDED, step=0.1).found
    assert trend(HOURS, plain, ADDED).per_hour == pytest.approx(0.1)
    assert trend(HOURS, plain).per_hour < 0.02


def test_readings_without_scatter():
    assert not change_of_rate(HOURS, 7.0 - 0.1 * HOURS).found
    bent = change_of_rate(HOURS, 7.0 - 0.1 * HOURS - 0.1 * np.maximum(HOURS - 7.5, 0.0))
    assert bent.found
    assert (bent.at_h, bent.before, bent.after) == pytest.approx((7.5, 0.1, 0.2))
    assert not change_of_rate([0.0, 0.0, 0.0, 3.0, 3.0, 3.0], [7, 7.1, 7, 6, 6.1, 6]).found


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: oil.trend([0.0, 1.0], [7.0, 6.9]), "hours has 2 readings; allowed: 3 or more"),
        (lambda: oil.trend(1.0, 7.0), "hours has 1 reading; allowed: 3 or more"),
        (lambda: oil.trend([2.0] * 3, [7.0] * 3), "hours are all the same"),
        (lambda: oil.trend([[0.0, 1.0, 2.0], [2.0] * 3], [7.0] * 3), "hours are all the same"),
        (lambda: oil.trend([0.0, 1.0, 2.0], [7.0, np.nan, 6.0]), r"quantities\[1\] is not a number"),
        (lambda: oil.trend([0.0, 1.0, -2.0], [7.0, 6.0, 6.0]), r"hours\[2\] is -2 h; allowed: 0 h or more"),
        (lambda: oil.trend([0.0, 1.0, 2.0], [7.0, 6.0]), r"hours has shape \(3,\), quantities has shape \(2,\)"),
        (lambda: oil.trend([0.0, 1.0, 2.0], [7.0] * 3, [0.0, -1.0, 0.0]), r"added\[1\] is -1"),
        (lambda: oil.trend([0.0, 1.0, 2.0], [7.0] * 3, step=-0.1), "step is -0.1"),
        (lambda: oil.trend([0.0, 1.0, 2.0], [7.0] * 3, share=95), "share is 95; allowed: more than 0, less than 1"),
        (lambda: oil.trend([0.0, 1.0, 2.0], [7.0] * 3, share="95"), "share is"),
        (lambda: oil.change_of_rate(range(7), [7.0] * 7, share=0.0), "share is 0; allowed: more than 0"),
        (lambda: oil.change_of_rate(range(7), [7.0] * 7, share=1.5), "share is 1.5; allowed: more than 0, less than 1"),
        (lambda: oil.trend([0.0, 1.0, 2.0], [7.0, 6.0, 6.0]).quantity(np.nan), "hours is not a number"),
        (lambda: oil.trend([0.0, 1.0, 2.0], [7.0, 6.0, 6.0]).within(np.inf), "hours is infinite h"),
        (lambda: oil.change_of_rate([0.0, 1.0, 2.0, 3.0], [7.0] * 4), "hours has 4 readings; allowed: 5 or more"),
        (lambda: oil.trend([0.0, 1.0, 2.0], [7.0, 6.0, 6.0]).due_h(-1.0), "quantity is -1"),
    ],
)
def test_bad_input_is_named(call, words):
    with pytest.raises(ValueError, match=words):
        call()
