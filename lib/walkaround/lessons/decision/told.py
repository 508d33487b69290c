"""A flight that was drawn, as it is told: the same in the units shown, rounded as a person would read it off."""

from dataclasses import replace

from walkaround import measures
from walkaround.lessons.decision.findings import pulled
from walkaround.lessons.decision.flight import most_fuel
from walkaround.lessons.decision.mends import every_mend

_WEIGHTS = ("front", "rear", "hold_a", "hold_b")


def flight(f):
    """Return a drawn `Flight` in the units shown.

    >>> from walkaround.assessment.variant import Variant
    >>> from walkaround.lessons.decision.drawn import draw
    >>> f = draw(Variant("home", "Ines Okafor", "decision")).flight
    >>> with measures.shown_in(measures.METRIC):
    ...     f.front, flight(f).front
    (155, 70.3)
    """
    if measures.chosen() != measures.METRIC:
        return f
    return replace(
        f,
        **{name: _weight(getattr(f, name)) for name in _WEIGHTS},
        fuel=min(measures.given(f.fuel, "US gal", 1), most_fuel()),  # full tanks are rounded one by one
        stick=measures.given(f.stick, "in", metric=2),
        oil_per_hour=measures.given(f.oil_per_hour, "qt/h", 2),
        runway_ft=measures.entered(measures.given(f.runway_ft, "ft"), "ft"),
        found=pulled(f.found.pull_lb) if f.found.pull_lb else f.found,
    )


def drawn(each):
    """Return a `Drawn` flight in the units shown, with the same that may be done about it and the same that works."""
    if measures.chosen() != measures.METRIC:
        return each
    bags, forward, gallons, quarts = each.amounts
    amounts = _weight(bags), _weight(forward), measures.given(gallons, "US gal"), measures.given(quarts, "qt")
    f, keys = flight(each.flight), {mend.key for mend in each.offered}
    offered = tuple(mend for mend in every_mend(f, *amounts) if mend.key in keys)
    return replace(each, flight=f, offered=offered, amounts=amounts)


def _weight(pounds):
    return measures.given(pounds, "lb", metric=1)
