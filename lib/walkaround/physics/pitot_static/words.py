"""Pitot and static troubles in plain words: the symptom, the cause, and what to do at once.

The actions are general: attitude and power, pitot heat, the alternate source, and a rejected take-off on the
ground. They are common practice and no procedure; the aircraft's own handbook comes first.
"""

from math import inf

from walkaround.physics.pitot_static.instruments import STANDARD_SETTING_HPA, Openings, indications

RIGHT_WITHIN_KT, RIGHT_WITHIN_FT, RIGHT_WITHIN_FPM = 1.0, 10.0, 20.0
ALL_RIGHT = "All three instruments are right"


def sentence(
    openings,
    shown,
    altitude_ft,
    cas_kt,
    climb_fpm=0.0,
    on_ground=False,
    alternate_open=False,
    setting_hpa=STANDARD_SETTING_HPA,
):
    """One sentence that names the symptom, the cause and the immediate action. Single numbers, no arrays.

    Parameters: `openings`, which are clear; `shown`, the `pitot_static.Indications`; then the truth: pressure
    altitude in ft, calibrated airspeed in kt, rate of climb in ft/min; `on_ground` in the take-off roll;
    `alternate_open`, the static line open to the cabin; `setting_hpa` on the altimeter.

    >>> covered = Openings(pitot_clear=False)
    >>> print(sentence(covered, indications(0.0, 50.0, covered), 0.0, 50.0, on_ground=True))
    Airspeed shows 0 kt where 50 kt is right, because the pitot inlet is blocked and its line has drained \
to the static pressure outside: reject the take-off while there is runway to stop on, then look at the \
openings.
    """
    symptom = symptom_words(shown, altitude_ft, cas_kt, climb_fpm, setting_hpa)
    cause = cause_words(openings, alternate_open)
    action = action_words(openings, on_ground, alternate_open)
    link = " for now, but " if symptom == ALL_RIGHT else ", because "
    link = ", and " if cause == ALL_CLEAR else link
    return f"{symptom}{link}{cause}: {action}."


def symptom_words(shown, altitude_ft, cas_kt, climb_fpm=0.0, setting_hpa=STANDARD_SETTING_HPA):
    """Say which instruments are wrong and by how much, without the cause. Arguments as in `sentence`.

    >>> blocked = Openings(static_clear=False)
    >>> shown = indications(2400.0, 90.0, blocked, blocked_at_ft=2500.0)
    >>> print(symptom_words(shown, 2400.0, 90.0))
    Airspeed shows 101 kt where 90 kt is right (slower than it looks), the altimeter 2,500 ft where \
2,400 ft is right
    """
    right = indications(altitude_ft, cas_kt, Openings(), climb_fpm=climb_fpm, setting_hpa=setting_hpa)
    wrong = []
    if abs(shown.airspeed_kt - cas_kt) >= RIGHT_WITHIN_KT:
        wrong.append(_airspeed_words(shown, cas_kt))
    if abs(shown.altitude_ft - right.altitude_ft) >= RIGHT_WITHIN_FT:
        wrong.append(f"the altimeter {_number(shown.altitude_ft)} ft where {_number(right.altitude_ft)} ft is right")
    if abs(shown.vertical_speed_fpm - climb_fpm) >= RIGHT_WITHIN_FPM:
        true = "level flight"
        if round(climb_fpm) != 0:
            true = f"a {'climb' if climb_fpm > 0 else 'descent'} of {_number(abs(climb_fpm))} ft/min"
        wrong.append(f"the vertical speed indicator {_number(shown.vertical_speed_fpm)} ft/min in {true}")
    if not wrong:
        return ALL_RIGHT
    if not wrong[0].startswith("airspeed"):
        wrong[0] = wrong[0].replace("altimeter", "altimeter shows").replace("indicator", "indicator shows")
    words = ", ".join(wrong)
    return words[0].upper() + words[1:]


def _airspeed_words(shown, cas_kt):
    if shown.on_stop:
        return f"airspeed rests on its stop at zero where {_number(cas_kt)} kt is right"
    reading = f"airspeed shows {_number(shown.airspeed_kt)} kt where {_number(cas_kt)} kt is right"
    if shown.airspeed_kt < RIGHT_WITHIN_KT:
        return reading
    # What a pilot would do wrong from here: raise the nose of a slow aircraft, or lower that of a fast one.
    return f"{reading} ({'slower' if shown.airspeed_kt > cas_kt else 'faster'} than it looks)"


ALL_CLEAR = "all openings are clear"


def cause_words(openings, alternate_open=False, lag_s=inf):
    """Say what the blocked openings do to the pressures in the lines.

    `lag_s`: the time constant in s of each opening that is not clear; left out: blocked, no hole in it.

    >>> cause_words(Openings(static_clear=False))
    'the static port is blocked and its line keeps an old pressure'
    >>> cause_words(Openings(static_clear=False), lag_s=12.0)
    'the static port is blocked but for a small hole and its line lags the outside (time constant 12 s)'
    """
    seeps = lag_s < inf
    causes = []
    if not openings.pitot_clear and not openings.drain_clear:
        does = "keeps an old pressure"
        if seeps:
            # Two equal holes side by side: half the time constant, and a mean of the two pressures.
            does = f"settles between total and static pressure (time constant {lag_s / 2:,.1f} s)"
        causes.append(f"the pitot inlet and drain are {_blocked(seeps)} and their line {does}")
    elif not openings.pitot_clear:
        causes.append("the pitot inlet is blocked and its line has drained to the static pressure outside")
    if alternate_open:
        causes.append("the alternate source lets cabin air into the static line")
    elif not openings.static_clear:
        does = f"lags the outside (time constant {lag_s:,.3g} s)" if seeps else "keeps an old pressure"
        causes.append(f"the static port is {_blocked(seeps)} and its line {does}")
    if openings.pitot_clear and not openings.drain_clear:
        causes.append("the drain is blocked, which changes nothing while the inlet is clear")
    return ", and ".join(causes) or ALL_CLEAR


def _blocked(seeps):
    return "blocked but for a small hole" if seeps else "blocked"


def action_words(openings, on_ground=False, alternate_open=False):
    """Say what to do at once, in general terms, and that the handbook comes first.

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


def _number(value):
    return f"{round(float(value)) + 0:,}"
