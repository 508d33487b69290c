"""A load sheet in plain words: whether the flight may be made, and if not, why and what would help."""

from dataclasses import replace

import numpy as np

from walkaround import checks
from walkaround.physics.loading.envelope import closest_approach
from walkaround.physics.loading.loadsheet import one_load
from walkaround.physics.loading.planning import ways_to_fix

DECIMALS = {"lb": 0, "kg": 1, "in": 1, "m": 3, "US gal": 1, "L": 1, "lb-in": 0, "kg-m": 2}


def say(value, unit):
    """Write a quantity with thousands marked and as many decimals as are usual for its unit.

    >>> say(1540.04, "lb"), say(0.3051, "m")
    ('1,540 lb', '0.305 m')
    """
    text = f"{value:,.{DECIMALS[unit]}f}"
    return f"{text.lstrip('-') if float(text.replace(',', '')) == 0 else text} {unit}"


def reasons(sheet):
    """Every reason why a flight may not be made, a phrase each; an empty list if it may.

    >>> from walkaround import aircraft
    >>> from walkaround.physics.loading.loadsheet import load_sheet
    >>> reasons(load_sheet(aircraft.demo("tansy_two"), {"seats": 150, "shelf": 8}, {"wing tank": 40}))
    ['shelf is 2.0 kg over the maximum']
    """
    unit, found = one_load(sheet).aircraft.units, []
    for name, over in sheet.station_over.items():
        if not sheet.within(over):
            verb = "are" if name.endswith("together") or name.endswith("s") else "is"
            found.append(f"{name} {verb} {say(over, unit.weight)} over the maximum")
    for c in sheet.conditions:
        if not sheet.within(c.over):
            found.append(
                f"{c.name} weight is {say(c.over, unit.weight)} over its limit of {say(c.weight_limit, unit.weight)}"
            )
    if not sheet.stays_inside:
        found += _outside_words(sheet)
    return found


def sentence(sheet):
    """One sentence: may this flight be made, and if not, why and when.

    >>> from walkaround import aircraft
    >>> from walkaround.physics.loading.loadsheet import load_sheet
    >>> sentence(load_sheet(aircraft.demo("tansy_two"), {"seats": 150, "shelf": 8}, {"wing tank": 40}))
    'Not loadable within normal limits: shelf is 2.0 kg over the maximum.'
    """
    unit, envelope = sheet.aircraft.units, sheet.envelope
    off, on = sheet.condition("take-off"), sheet.condition("landing")
    why = reasons(sheet)
    if not why:
        which, distance, _, _ = closest_approach(envelope, sheet.path_weights, sheet.path_moments)
        return (
            f"Inside {envelope.name} limits all the way: take-off {say(off.weight, unit.weight)} with CG "
            f"{say(off.cg, unit.arm)}, landing {say(on.weight, unit.weight)} with CG {say(on.cg, unit.arm)}; "
            f"the nearest limit is {which}, {say(distance, unit.arm)} away."
        )
    return f"Not loadable within {envelope.name} limits: {'; '.join(why)}."


def fix_words(fix, unit):
    """Say one way to bring a load inside; `unit`, the units of the aircraft's file.

    >>> from walkaround import aircraft
    >>> from walkaround.physics.loading.planning import Fix
    >>> fix_words(Fix("move", 12.34, "shelf", "hold"), aircraft.demo("tansy_two").units)
    'Moving 12.4 kg from shelf to hold would bring it inside.'
    """
    step = 1.0 if unit.weight == "lb" else 0.1
    # Rounded up, since the amount named has to be enough.
    amount = say(np.ceil(fix.amount / step * (1 - checks.SLACK)) * step, unit.weight)
    if fix.action == "move":
        return f"Moving {amount} from {fix.source} to {fix.target} would bring it inside."
    if fix.action == "add":
        return f"Ballast of {amount} in {fix.target} would bring it inside."
    if fix.action == "less":
        return f"It would be inside with {amount} less on {fix.source}."
    return f"Leaving {amount} behind from {fix.source} would bring it inside."


def smallest_fix(aircraft, stations, fuel, taxi=0.0, trip=0.0, category=None):
    """Smallest single change that brings a load inside, or None: of baggage, else by ballast, else with lighter seats.

    The first seats, where the pilot sits, are never made lighter. Nobody can leave part of a person behind, so for
    seats the action is "less": how much lighter their load would have to be.

    >>> from walkaround import aircraft
    >>> load = {"front seats": 170, "rear seats": 410, "hold A": 85, "hold B": 60}
    >>> fix = smallest_fix(aircraft.demo("morrowlark_four"), load, {})
    >>> fix.action, fix.source, round(fix.amount, 1)
    ('leave behind', 'hold B', 31.8)
    """
    kinds = {s.name: s.kind for s in aircraft.stations}
    first_seats = next((s.name for s in aircraft.stations if s.kind == "seat"), None)
    lighter = None
    for action in ("move", "leave behind", "add"):
        for way in ways_to_fix(aircraft, stations, fuel, taxi, trip, category, (action,)):
            if way.source is None or kinds[way.source] != "seat":
                return way
            if lighter is None and way.source != first_seats:
                lighter = replace(way, action="less")
    return lighter


def _outside_words(sheet):
    unit, density = sheet.aircraft.units, sheet.aircraft.fuel.density
    start, end = float(sheet.path_weights[0]), float(sheet.path_weights[-1])
    parts = sheet.envelope.outside_parts(sheet.path_weights, sheet.path_moments) or [(start, end)]
    words = []
    for heavy, light in parts:
        limit = _limit_passed(sheet, heavy, light)
        if limit is None:
            continue  # over the weight limit, which has been said
        burnt, still = (start - heavy) / density, (start - light) / density
        from_take_off, to_landing = checks.at_least(heavy, start), checks.at_most(light, end)
        if from_take_off and to_landing:
            when = "all the way from take-off to landing"
        elif from_take_off:
            when = f"from take-off until {say(still, unit.volume)} have been burnt"
        elif to_landing:
            when = f"from {say(burnt, unit.volume)} burnt until landing"
        else:
            when = f"from {say(burnt, unit.volume)} to {say(still, unit.volume)} burnt"
        words.append(f"{limit} {when}")
    return words


def _limit_passed(sheet, heavy, light):
    """Which limit is passed between two weights of the flight, and how far at most; None if it is only the top."""
    envelope, unit = sheet.envelope, sheet.aircraft.units
    between = [float(w) for w in sheet.path_weights if light < w < heavy]
    weights = np.array([heavy, *between, light])
    # Reversed, since interpolation needs rising weights.
    moments = np.interp(weights, sheet.path_weights[::-1], sheet.path_moments[::-1])
    limit, distance, _, _ = closest_approach(envelope, weights, moments)
    if checks.at_least(distance, 0.0, size=max(map(abs, envelope.cgs))):
        lacking = envelope.least_weight - light
        return f"weight up to {say(lacking, unit.weight)} below the lightest covered" if lacking > 0 else None
    where = "ahead of" if limit == "forward" else "behind"
    return f"CG up to {say(-distance, unit.arm)} {where} the {limit} limit"
