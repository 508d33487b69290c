"""Pitot and static troubles in plain words: the symptom, the cause, and what to do at once.

The actions are general: attitude and power, pitot heat, the alternate source, and a rejected take-off on the ground.
They are common practice and no procedure; the aircraft's own handbook comes first.
"""

from dataclasses import dataclass
from math import inf

from walkaround.physics.pitot_static.instruments import Openings

ALL_RIGHT = "All three instruments are right"
ALL_CLEAR = "all openings are clear"


@dataclass(frozen=True)
class Instrument:
    """One of the instruments: its name, its reading in `Indications`, its unit, and the error that makes it wrong.

    >>> from walkaround.physics.pitot_static.instruments import indications
    >>> shown = AIRSPEED.of(indications(3000.0, 90.4, Openings()))
    >>> AIRSPEED.written(shown), AIRSPEED.wrong(shown, 90.0)
    ('90 kt', False)
    """

    name: str
    reading: str
    unit: str
    within: float

    def of(self, indications):
        """Return its reading among the readings of all three (`Indications` with one number each)."""
        return float(getattr(indications, self.reading))

    def wrong(self, shown, right):
        """Whether a reading counts as wrong where another would be right."""
        return abs(shown - right) >= self.within

    def written(self, value):
        """Write a reading with its unit."""
        return f"{round(value) + 0:,} {self.unit}"


AIRSPEED = Instrument("airspeed", "airspeed_kt", "kt", 1.0)
ALTIMETER = Instrument("the altimeter", "altitude_ft", "ft", 10.0)
VERTICAL_SPEED = Instrument("the vertical speed indicator", "vertical_speed_fpm", "ft/min", 20.0)
INSTRUMENTS = (AIRSPEED, ALTIMETER, VERTICAL_SPEED)


def wrong_instruments(shown, right):
    """Return those of the three instruments that are wrong, as a tuple; it is empty when all are right.

    `shown` and `right`: what the instruments show, and what they would show with everything clear, each an
    `Indications` with one number for each instrument.

    >>> from walkaround.physics.pitot_static.instruments import indications
    >>> right = indications(2400.0, 90.0, Openings())
    >>> shown = indications(2400.0, 90.0, Openings(static_clear=False), blocked_at_ft=2500.0)
    >>> [instrument.name for instrument in wrong_instruments(shown, right)]
    ['airspeed', 'the altimeter']
    """
    return tuple(one for one in INSTRUMENTS if one.wrong(one.of(shown), one.of(right)))


def sentence(openings, shown, right, on_ground=False, alternate_open=False):
    """Return one sentence that names the symptom, the cause and the immediate action.

    Parameters: `openings`, which are clear; `shown` and `right` as in `wrong_instruments`; `on_ground`, in the take-off
    roll; `alternate_open`, the static line open to the cabin. Single numbers, no arrays.

    >>> from walkaround.physics.pitot_static.instruments import indications
    >>> covered = Openings(pitot_clear=False)
    >>> shown, right = indications(0.0, 50.0, covered), indications(0.0, 50.0, Openings())
    >>> print(sentence(covered, shown, right, on_ground=True))
    Airspeed shows 0 kt where 50 kt is right, because the pitot inlet is blocked and its line has drained \
to the static pressure outside: reject the take-off while there is runway to stop on, then look at the \
openings.
    """
    clear = openings == Openings() and not alternate_open
    link = ", and " if clear else ", because " if wrong_instruments(shown, right) else " for now, but "
    cause, action = cause_words(openings, alternate_open), action_words(openings, on_ground, alternate_open)
    return f"{symptom_words(shown, right)}{link}{cause}: {action}."


def symptom_words(shown, right):
    """Say which instruments are wrong and by how much, without the cause; arguments as in `wrong_instruments`.

    >>> from walkaround.physics.pitot_static.instruments import indications
    >>> right = indications(2400.0, 90.0, Openings())
    >>> shown = indications(2400.0, 90.0, Openings(static_clear=False), blocked_at_ft=2500.0)
    >>> print(symptom_words(shown, right))
    Airspeed shows 101 kt where 90 kt is right (slower than it looks), the altimeter 2,500 ft where 2,400 ft is right
    """
    wrong = wrong_instruments(shown, right)
    if not wrong:
        return ALL_RIGHT
    say = {AIRSPEED: _airspeed_words, ALTIMETER: _altimeter_words, VERTICAL_SPEED: _vertical_speed_words}
    parts = [(instrument.name, *say[instrument](shown, right)) for instrument in wrong]
    # The verb stands once, after the first instrument.
    first = " ".join(parts[0])
    return ", ".join([first[0].upper() + first[1:], *(f"{name} {reading}" for name, _, reading in parts[1:])])


def _airspeed_words(shown, right):
    is_right = f"where {AIRSPEED.written(right.airspeed_kt)} is right"
    if shown.on_stop:
        return "rests", f"on its stop at zero {is_right}"
    reading = f"{AIRSPEED.written(shown.airspeed_kt)} {is_right}"
    if shown.airspeed_kt < AIRSPEED.within:
        return "shows", reading
    # What a pilot would do wrong from here: raise the nose of a slow aircraft, or lower that of a fast one.
    return "shows", f"{reading} ({'slower' if shown.airspeed_kt > right.airspeed_kt else 'faster'} than it looks)"


def _altimeter_words(shown, right):
    return "shows", f"{ALTIMETER.written(shown.altitude_ft)} where {ALTIMETER.written(right.altitude_ft)} is right"


def _vertical_speed_words(shown, right):
    flown = "level flight"
    if round(right.vertical_speed_fpm) != 0:
        rate = VERTICAL_SPEED.written(abs(right.vertical_speed_fpm))
        flown = f"a {'climb' if right.vertical_speed_fpm > 0 else 'descent'} of {rate}"
    return "shows", f"{VERTICAL_SPEED.written(shown.vertical_speed_fpm)} in {flown}"


def cause_words(openings, alternate_open=False, lag_s=inf):
    """Say what the blocked openings do to the pressures in the lines.

    `lag_s`: the time constant in s of each opening that is not clear; left out: blocked, with no hole in it.

    >>> cause_words(Openings(static_clear=False))
    'the static port is blocked and its line keeps an old pressure'
    >>> cause_words(Openings(static_clear=False), lag_s=12.0)
    'the static port is blocked but for a small hole and its line lags the outside (time constant 12 s)'
    """
    seeps = lag_s < inf
    blocked = "blocked but for a small hole" if seeps else "blocked"
    causes = []
    if not openings.pitot_clear and not openings.drain_clear:
        does = "keeps an old pressure"
        if seeps:
            # Two equal holes side by side: half the time constant, and a mean of the two pressures.
            does = f"settles between total and static pressure (time constant {lag_s / 2:,.1f} s)"
        causes.append(f"the pitot inlet and drain are {blocked} and their line {does}")
    elif not openings.pitot_clear:
        causes.append("the pitot inlet is blocked and its line has drained to the static pressure outside")
    if alternate_open:
        causes.append("the alternate source lets cabin air into the static line")
    elif not openings.static_clear:
        does = f"lags the outside (time constant {lag_s:,.3g} s)" if seeps else "keeps an old pressure"
        causes.append(f"the static port is {blocked} and its line {does}")
    if openings.pitot_clear and not openings.drain_clear:
        causes.append("the drain is blocked, which changes nothing while the inlet is clear")
    return ", and ".join(causes) or ALL_CLEAR


def action_words(openings, on_ground=False, alternate_open=False):
    """Say what to do at once, in general terms, and that the aircraft's handbook comes first.

    >>> action_words(Openings(static_clear=False))
    "hold a known attitude and power, open the alternate static source, and follow the aircraft's handbook"
    """
    inlet, port = bool(openings.pitot_clear), bool(openings.static_clear) or alternate_open
    if on_ground and not (inlet and openings.static_clear):
        return "reject the take-off while there is runway to stop on, then look at the openings"
    steps = []
    if not (inlet and port):
        steps.append("hold a known attitude and power")
    if not inlet or not openings.drain_clear:
        steps.append("switch on pitot heat if there may be ice")
    if not port:
        steps.append("open the alternate static source")
    if alternate_open:
        steps.append("apply the corrections for the alternate source")
    if not steps:
        return "keep comparing them with attitude and power"
    return f"{', '.join(steps)}, and follow the aircraft's handbook"
