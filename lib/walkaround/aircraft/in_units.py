"""An aircraft in the other system of units: the same aircraft, its numbers rounded as its papers would have them."""

from functools import cache

from walkaround import measures
from walkaround.aircraft.schema import Aircraft

_SECTION_OF = {measures.US: ("lb", "in", "US gal"), measures.METRIC: ("kg", "m", "L")}
# US unit of the table of measures, and the decimals in US units and in metric ones.
_WEIGHT, _ARM, _VOLUME = ("lb", 0, 1), ("arm", 1, 3), ("US gal", 1, 1)
_MOMENT, _DENSITY, _GROUND_ROLL = ("lb-in", 0, 2), ("lb/US gal", 2, 3), ("ft", 0, 0)
_OIL, _SMALL = ("qt", 1, 1), ("in", 1, 1)
_IN_OIL = ("full", "minimum", "dipstick_quantities")
_IN_SUMP = ("length", "width", "stick_forward", "stick_right")


def shown(aircraft):
    """Return an aircraft in the units that things are shown in now (`measures.chosen`); in its own if none were chosen.

    >>> from walkaround import aircraft
    >>> with measures.shown_in(measures.METRIC):
    ...     shown(aircraft.demo("morrowlark_four")).limits.take_off
    1183.9
    """
    system = measures.chosen()
    if system is None or aircraft.units.weight == _SECTION_OF[system][0]:
        return aircraft
    return _converted(aircraft.model_dump_json(), system)


@cache
def _converted(written, system):
    """The aircraft of a JSON text in another system; each is made once."""
    craft = Aircraft.model_validate_json(written).model_dump()
    to_metric = system == measures.METRIC

    def put(section, names, kind):
        unit, us, metric = kind
        factor = measures.factor(unit)

        def other(value):
            if isinstance(value, list):
                return [other(v) for v in value]
            return round(value * factor, metric) if to_metric else round(value / factor, us)

        for name in names:
            if section.get(name) is not None:
                section[name] = other(section[name])

    weight, arm, volume = _SECTION_OF[system]
    craft["units"] = {"weight": weight, "arm": arm, "volume": volume}
    put(craft["empty"], ["weight"], _WEIGHT)
    put(craft["empty"], ["arm"], _ARM)
    put(craft["empty"], ["moment"], _MOMENT)
    for station in craft["stations"]:
        put(station, ["arm"], _ARM)
    for limited in (*craft["stations"], *craft["combined_limits"]):
        put(limited, ["maximum"], _WEIGHT)
    for holder in (craft["fuel"], craft["oil"]):
        put(holder, ["density"], _DENSITY)
    for tank in craft["fuel"]["tanks"]:
        put(tank, ["arm"], _ARM)
        put(tank, ["capacity", "usable", "unusable"], _VOLUME)
    put(craft["oil"], ["volume"], _VOLUME)
    put(craft["oil"], ["arm"], _ARM)
    put(craft["limits"], ["take_off", "ramp", "landing", "zero_fuel"], _WEIGHT)
    for envelope in craft["envelopes"]:
        corners = {"arms": [c for c, _ in envelope["corners"]], "weights": [w for _, w in envelope["corners"]]}
        put(corners, ["arms"], _ARM)
        put(corners, ["weights"], _WEIGHT)
        envelope["corners"] = list(zip(corners["arms"], corners["weights"], strict=True))
    if size := craft["dimensions"]:
        put(size, [name for name, value in size.items() if isinstance(value, float)], _ARM)
    if surfaces := craft["control_surfaces"]:
        for surface in surfaces.values():
            if isinstance(surface, dict):
                put(surface, ["chord"], _ARM)
    if tied := craft["tie_down"]:
        for lengths in (tied, tied["wing_ring"], tied["tail_ring"]):
            put(lengths, ["arm", "out", "height", "drag_height", "side_height"], _ARM)
    if craft["take_off"]:
        put(craft["take_off"], ["ground_roll"], _GROUND_ROLL)
    if craft["towing"]:
        put(craft["towing"], ["nose_leg_limit"], _WEIGHT)
    if system_of_fuel := craft["fuel_system"]:
        put(system_of_fuel, ["per_hour", "taxi"], _VOLUME)
        for tank in system_of_fuel["tanks"]:
            if tank["dipstick"]:
                put(tank["dipstick"], ["quantities"], _VOLUME)
    if craft["engine"] and (oil := craft["engine"]["oil"]):
        _convert_oil(oil, to_metric, put)
    return Aircraft.model_validate(craft)


def _convert_oil(oil, to_metric, put):
    unit, length = ("L", "cm") if to_metric else ("qt", "in")
    sump = oil.get("sump")
    if oil["unit"] != unit:
        oil["unit"] = unit
        put(oil, _IN_OIL, _OIL)
        put(oil, ["usual"], ("qt", 2, 2))  # finer than a stick: a preheat takes as many minutes in either system
        if sump:
            put(sump, ["refill_at"], _OIL)
            put(sump, ["held_up", "bottle"], ("qt", 2, 2))
            factor = measures.factor("qt")
            sump["read_to"] = measures.nice(sump["read_to"] * factor if to_metric else sump["read_to"] / factor)
    if sump and sump["length_unit"] != length:
        sump["length_unit"] = length
        put(sump, _IN_SUMP, _SMALL)
        put(oil, ["dipstick_marks"], _SMALL)
