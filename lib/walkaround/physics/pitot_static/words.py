"""Pitot and static troubles in plain words: what to do at once, the cause, and the symptom.

The actions are general: attitude and power, pitot heat, the alternate source, and a rejected take-off on the ground.
They are common practice and no procedure; the aircraft's own handbook comes first.
"""

from dataclasses import dataclass, replace
from math import floor, inf

from walkaround.checks import SLACK

ALL_RIGHT = "All three instruments are right"
ALL_CLEAR = "all openings are clear"


@dataclass(frozen=True)
class Instrument:
    """One of the instruments: its name, its reading in `Indications`, its unit, the end of its scale.

    It is read to the nearest `step`. A reading is wrong when, read that closely, it is not the right one: so whatever
    is said, drawn and judged agrees.

    >>> from walkaround.physics.pitot_static.instruments import Openings, indications
    >>> shown = AIRSPEED.of(indications(3000.0, 90.4, Openings()))
    >>> AIRSPEED.written(shown), AIRSPEED.read(shown), AIRSPEED.wrong(shown, 90.0)
    ('90 kt', 90, False)
    >>> small = AIRSPEED.with_scale_to(80.0)
    >>> small.off_scale(shown), small.written(shown)
    (True, 'off the scale, over 80 kt')
    """

    name: str
    reading: str
    unit: str
    step: int
    end: float = inf

    def with_scale_to(self, end):
        """Return the same instrument with a scale that ends there."""
        return replace(self, end=end)

    def of(self, indications):
        """Return its reading among the readings of all three (`Indications` with one number each)."""
        return float(getattr(indications, self.reading))

    def read(self, value):
        """Return a value as closely as the instrument is read."""
        return self.step * floor(value / self.step + 0.5 + SLACK)

    def off_scale(self, value):
        """Whether the needle stands at the end of its scale, up or down."""
        return bool(abs(self.read(value)) > self.end)

    def wrong(self, shown, right):
        """Whether a reading is wrong where another would be right."""
        return self.read(shown) != self.read(right)

    def written(self, value):
        """Write a reading with its unit, or that it is off the scale."""
        if self.off_scale(value):
            return f"off the scale, over {self.end:,.0f} {self.unit}{' down' if value < 0 else ''}"
        return f"{self.read(value):,} {self.unit}".replace("-", "−")


# Read to half of the distance between two marks, the airspeed indicator to 1 kt.
AIRSPEED = Instrument("airspeed", "airspeed_kt", "kt", 1)
ALTIMETER = Instrument("the altimeter", "altitude_ft", "ft", 10)
VERTICAL_SPEED = Instrument("the vertical speed indicator", "vertical_speed_fpm", "ft/min", 50)
INSTRUMENTS = (AIRSPEED, ALTIMETER, VERTICAL_SPEED)


def wrong_instruments(shown, right, instruments=INSTRUMENTS):
    """Return those of the three instruments that are wrong, as a tuple; it is empty when all are right.

    `shown` and `right`: what the instruments show, and what they would show with everything clear, each an
    `Indications` with one number for each instrument. `instruments`: airspeed indicator, altimeter and vertical speed
    indicator as they are built in, with the ends of their scales.

    >>> from walkaround.physics.pitot_static.instruments import Openings, indications
    >>> right = indications(2400.0, 90.0, Openings())
    >>> shown = indications(2400.0, 90.0, Openings(static_clear=False), blocked_at_ft=2500.0)
    >>> [instrument.name for instrument in wrong_instruments(shown, right)]
    ['airspeed', 'the altimeter']
    """
    return tuple(one for one in instruments if one.wrong(one.of(shown), one.of(right)))


def notes(action, cause, shown, right, instruments=INSTRUMENTS):
    """Return what to do at once, the cause and the symptom as sentences, in this order.

    Parameters: `action` and `cause` as `action_words` and `cause_words` give them; `shown`, `right` and `instruments`
    as in `wrong_instruments`.

    >>> from walkaround.physics.pitot_static.instruments import Openings, indications
    >>> covered = Openings(pitot_clear=False)
    >>> shown, right = indications(0.0, 50.0, covered), indications(0.0, 50.0, Openings())
    >>> for note in notes(action_words(covered, on_ground=True), cause_words(covered), shown, right):
    ...     print(note)
    Reject the take-off while there is runway to stop on, then look at the openings.
    The reason: the pitot inlet is blocked and its line has drained to the static pressure outside.
    Airspeed shows 0 kt where 50 kt is right.
    """
    if wrong_instruments(shown, right, instruments):
        return _begun(action), f"The reason: {cause}.", f"{symptom_words(shown, right, instruments)}."
    if cause == ALL_CLEAR:
        return (_begun(f"{cause}: {action}"),)
    return _begun(action), f"That is so for now, but {cause}."


def _begun(words):
    """The words as a sentence."""
    return f"{words[0].upper()}{words[1:]}."


def error_words(shown, right, instruments=INSTRUMENTS):
    """Say in a breath how far off each wrong instrument is; arguments as in `wrong_instruments`.

    >>> from walkaround.physics.pitot_static.instruments import Openings, indications
    >>> right = indications(2400.0, 90.0, Openings())
    >>> shown = indications(2400.0, 90.0, Openings(static_clear=False), blocked_at_ft=2500.0)
    >>> print(error_words(shown, right))
    Airspeed reads 11 kt high, the altimeter 100 ft high
    """
    said = []
    for one in wrong_instruments(shown, right, instruments):
        off = one.read(one.of(shown)) - one.read(one.of(right))
        reads = "" if said else "reads "
        if one.off_scale(one.of(shown)):
            said.append(f"{one.name} is off the scale")
        elif one.reading == AIRSPEED.reading and shown.on_stop:
            said.append(f"{one.name} rests on its stop at zero")
        else:
            said.append(f"{one.name} {reads}{abs(off):,} {one.unit} {'high' if off > 0 else 'low'}")
    words = ", ".join(said) or ALL_RIGHT
    return words[0].upper() + words[1:]


def symptom_words(shown, right, instruments=INSTRUMENTS):
    """Say which instruments are wrong and by how much, without the cause; arguments as in `wrong_instruments`.

    >>> from walkaround.physics.pitot_static.instruments import Openings, indications
    >>> right = indications(2400.0, 90.0, Openings())
    >>> shown = indications(2400.0, 90.0, Openings(static_clear=False), blocked_at_ft=2500.0)
    >>> print(symptom_words(shown, right))
    Airspeed shows 101 kt where 90 kt is right (slower than it looks), the altimeter 2,500 ft where 2,400 ft is right
    """
    wrong = wrong_instruments(shown, right, instruments)
    if not wrong:
        return ALL_RIGHT
    said, verb_before = [], ""
    for instrument, where in zip(instruments, _where_words(shown, right, instruments), strict=True):
        if instrument in wrong:
            value = instrument.of(shown)
            verb, reading = "is" if instrument.off_scale(value) else "shows", instrument.written(value)
            if instrument.reading == AIRSPEED.reading and shown.on_stop:
                verb, reading = "rests", "on its stop at zero"
            # A verb that is the same as the one before is left out.
            said.append(" ".join([instrument.name, *[verb] * (verb != verb_before), reading]) + where)
            verb_before = verb
    words = ", ".join(said)
    return words[0].upper() + words[1:]


def _where_words(shown, right, instruments):
    """What is right for each of the three instruments, as it is said after a wrong reading."""
    airspeed, altimeter, vertical_speed = instruments
    speed = f" where {airspeed.written(right.airspeed_kt)} is right"
    if airspeed.read(shown.airspeed_kt) > 0:
        # What a pilot would do wrong from here: raise the nose of a slow aircraft, or lower that of a fast one.
        speed += f" ({'slower' if shown.airspeed_kt > right.airspeed_kt else 'faster'} than it looks)"
    rate, level = right.vertical_speed_fpm, vertical_speed.read(right.vertical_speed_fpm) == 0
    flown = f"a {'climb' if rate > 0 else 'descent'} of {vertical_speed.written(abs(rate))}"
    where = (
        speed,
        f" where {altimeter.written(right.altitude_ft)} is right",
        f" in {'level flight' if level else flown}",
    )
    return ["," * one.off_scale(one.of(shown)) + words for one, words in zip(instruments, where, strict=True)]


def cause_words(openings, alternate_open=False, lag_s=inf):
    """Say what the blocked openings do to the pressures in the lines.

    `lag_s`: the time constant in s of each opening that is not clear; left out: blocked, with no hole in it.

    >>> from walkaround.physics.pitot_static.instruments import Openings
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

    >>> from walkaround.physics.pitot_static.instruments import Openings
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
        steps.append("switch on pitot heat if there may be ice and no cover is on")
    if not port:
        steps.append("open the alternate static source")
    if alternate_open:
        steps.append("apply the corrections for the alternate source")
    if not steps:
        return "keep comparing the instruments with attitude and power"
    return f"{', '.join(steps)}, and follow the aircraft's handbook"
