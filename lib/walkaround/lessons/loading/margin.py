"""How near a flight comes to its limits, or how far it passes one: what the picture says in a few words."""

from typing import NamedTuple

from walkaround.physics.loading import closest_approach
from walkaround.physics.loading.words import say


class Margin(NamedTuple):
    """The verdict in a few words, and where the flight comes nearest to a CG limit: weight, CG, the limit's CG."""

    inside: bool
    says: str
    weight: float
    cg: float
    limit: float


def margin(sheet):
    """Return the margin of a flight's load sheet; the verdict is the sheet's own (`loadable`).

    >>> from walkaround import aircraft
    >>> from walkaround.physics.loading import load_sheet
    >>> margin(load_sheet(aircraft.demo("morrowlark_four"), {"front seats": 340}, {"left tank": 20})).says
    '3.0 in to the forward limit'
    """
    which, distance, weight, cg = closest_approach(sheet.envelope, sheet.path_weights, sheet.path_moments)
    limit = cg - distance if which == "forward" else cg + distance
    inside, unit = bool(sheet.loadable), sheet.aircraft.units
    says = f"{say(distance, unit.arm)} to the {which} limit" if inside else _passed(sheet, which, distance)
    return Margin(inside, says, weight, cg, limit)


def _passed(sheet, which, distance):
    """Say by how much a limit is passed: a CG limit first, then the weight that is most over, then a station."""
    unit = sheet.aircraft.units
    if not sheet.stays_inside and distance < 0:
        return f"{say(-distance, unit.arm)} beyond the {which} limit"
    over, name = max((float(c.over), c.name) for c in sheet.conditions)
    if not sheet.within(over):
        return f"{say(over, unit.weight)} over the {name} limit"
    over, name = max((float(over), name) for name, over in sheet.station_over.items())
    if not sheet.within(over):
        return f"{say(over, unit.weight)} too much: {name}"
    lacking = sheet.envelope.least_weight - float(sheet.path_weights[-1])
    return f"{say(lacking, unit.weight)} below the lightest weight"
