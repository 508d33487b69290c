"""The live demonstration of the three instruments: block an opening, and read the dials beside the truth."""

import numpy as np

from walkaround import aircraft, measures
from walkaround.aircraft.airfield import airfield
from walkaround.lessons.pitot_static.picture import InstrumentsPicture
from walkaround.live.controls import Slider, slider, switch
from walkaround.live.stage import Stage, Worked
from walkaround.live.status import NOTE, OK, STOP
from walkaround.live.units_choice import in_chosen_units
from walkaround.physics.pitot_static import STANDARD_SETTING_HPA, Openings, indications, words
from walkaround.units import INHG_HPA

CAUTION = (
    "A training aid with an invented aircraft; the real aircraft's handbook comes first. Treat the propeller as live, "
    "keep off a pitot head that may be hot, and never switch on pitot heat with the cover on."
)
# Lowest setting, highest, the standard one as a window shows it, and a step.
_SETTINGS = {"inHg": (28.0, 31.0, 29.92, 0.01), "hPa": (948, 1050, 1013, 1)}


class _Setting(Slider):
    """The altimeter setting, in inHg or hPa; the standard one is the standard one in either."""

    def __init__(self, unit):
        low, high, standard, step = _SETTINGS[unit]
        ends = {"min": low, "max": high, "step": step, "whole": unit == "hPa", "value": standard}
        super().__init__(label="altimeter set", unit=unit, tooltip=f"altimeter setting, {unit}", **ends)

    @property
    def standard(self):
        """Whether it stands at the standard setting."""
        return round(self.value, 2) == _SETTINGS[self.unit][2]

    def carry_over(self, other):
        """Take another one's setting, in this one's unit."""
        super().carry_over(other)
        if other.standard:
            self.value = _SETTINGS[self.unit][2]


@in_chosen_units
def dials(name="morrowlark_four"):
    """Return the three instruments beside the truth, for a demo aircraft's name or the path of an aircraft file.

    >>> made = dials()
    >>> made.set(inlet=True, altitude=2000)
    >>> made.verdict, made.words
    ('stop', 'Airspeed reads 74 kt low.')
    """
    craft = aircraft.with_sections(name, "speeds")
    field_ft, fastest = airfield().elevation_ft, 5 * np.ceil(craft.speeds.vne / 5)
    cabin_hpa, cabin_words = airfield().plan.cabin_below_hpa, "cabin pressure below the outside, hPa"
    controls = {
        "_truth": "What the aircraft really does",
        "altitude": slider("pressure altitude", "ft", 0, 10000, 3000, 100),
        "speed": slider("airspeed", "kt", 0, fastest, round(craft.speeds.climb), 1, "calibrated airspeed, kt"),
        "climb": slider("climb", "ft/min", -1500, 1500, 500, 50),
        "_openings": "Openings",
        "inlet": switch("pitot inlet blocked"),
        "drain": switch("pitot drain blocked"),
        "static": switch("static port blocked"),
        "alternate": switch("alternate static source open to the cabin"),
        "_blocked": "Where they were blocked",
        "blocked_ft": slider("blocked at", "ft", 0, 10000, field_ft, 100),
        "blocked_kt": slider("blocked at speed", "kt", 0, fastest, 0, 1),
        "_more": "Altimeter and cabin",
        "setting": _Setting(measures.unit("inHg")),
        "cabin": slider("cabin lower by", "hPa", 0.0, 5.0, cabin_hpa, 0.1, cabin_words),
    }

    def work(v):
        openings, alternate = Openings(not v["inlet"], not v["drain"], not v["static"]), v["alternate"]
        # 29.92 or 1013 in the altimeter's window stands for the standard setting, which has more digits.
        standard = controls["setting"].standard
        setting_hpa = STANDARD_SETTING_HPA if standard else measures.entered(v["setting"], "inHg") * INHG_HPA
        flown = dict(altitude_ft=v["altitude"], cas_kt=v["speed"], climb_fpm=v["climb"], setting_hpa=setting_hpa)
        blocked = {"blocked_at_ft": v["blocked_ft"], "blocked_at_kt": v["blocked_kt"]}
        cabin = {"alternate_open": alternate, "cabin_below_hpa": v["cabin"]}
        shown = indications(openings=openings, **flown, **blocked, **cabin)
        right = indications(openings=Openings(), **flown)
        return Worked((openings, shown, right, alternate), (openings, shown, right, alternate, flown))

    def say(said):
        openings, shown, right, alternate, flown = said
        scales = picture.instruments
        breath = f"{words.error_words(shown, right, scales)}."
        action, cause = words.action_words(openings, alternate_open=alternate), words.cause_words(openings, alternate)
        notes = words.notes(action, cause, shown, right, scales)
        rate, speed, stall = flown["climb_fpm"], flown["cas_kt"], craft.speeds.vs0 or craft.speeds.vs1
        flies = rate == 0 or speed >= stall
        if not flies:
            does = f"{'climb' if rate > 0 else 'descent'} of {abs(rate):,} ft/min at {speed} kt"
            notes = (f"No aircraft flies a steady {does}: this one stalls at {stall:.0f} kt.", *notes)
        if words.wrong_instruments(shown, right, scales):
            return STOP, breath, *notes
        return (OK if openings == Openings() and not alternate and flies else NOTE), breath, *notes

    title, picture = f"{craft.name}: block an opening and read the instruments", InstrumentsPicture(craft.speeds.arcs)
    return Stage(title, controls, picture, work, say, _situations(craft, field_ft), CAUTION)


def _situations(craft, field_ft):
    """Ready-made situations: what the aircraft does, what is blocked, and where that happened."""
    climb, cruise, approach = (round(getattr(craft.speeds, n)) for n in ("climb", "cruise", "approach"))

    def situation(altitude, speed, rate, blocked, blocked_ft=field_ft, blocked_kt=0):
        switches = {name: name in blocked for name in ("inlet", "drain", "static", "alternate")}
        return dict(
            altitude=altitude, speed=speed, climb=rate, blocked_ft=blocked_ft, blocked_kt=blocked_kt, **switches
        )

    return {
        "all clear, climbing": situation(3000, climb, 500, ()),
        "pitot cover left on, just airborne": situation(field_ft + 200, climb, 500, ("inlet",)),
        "inlet and drain iced up at 3,000 ft, now at 5,000 ft": situation(
            5000, climb, 300, ("inlet", "drain"), 3000, climb
        ),
        "static port taped over, climbing": situation(2000, climb, 500, ("static",)),
        "static port iced up at 5,000 ft, descending": situation(3500, approach, -500, ("static",), 5000, cruise),
        "alternate source open in cruise": situation(4000, cruise, 0, ("static", "alternate"), 4000, cruise),
        "all three iced up, descending": situation(2500, cruise, -500, ("inlet", "drain", "static"), 4000, cruise),
    }
