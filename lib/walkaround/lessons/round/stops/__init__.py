"""The stops of a round, each under the name of its lesson: what there is to look at, in the order of the round."""

from walkaround.lessons.round.stops import (
    controls,
    cooling,
    fuel,
    ground_power,
    loading,
    oil,
    pitot_static,
    preheat,
    securing,
    towing,
)

THINGS = {
    module.__name__.rpartition(".")[2]: module.THINGS
    for module in (loading, securing, pitot_static, cooling, controls, fuel, oil, preheat, ground_power, towing)
}
KINDS = tuple(kind for things in THINGS.values() for thing in things for kind in thing.kinds)
