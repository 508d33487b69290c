"""The network of heat capacities: what is refused, in words, and rates that are kept apart."""

import pytest
from walkaround.physics.preheat.network import kept_apart, modes

LINKS, LOSSES = [[0.0, 5.0], [5.0, 0.0]], [2.0, 0.0]


@pytest.mark.parametrize(
    ("given", "words"),
    [
        (([1e3, 0.0], LINKS, LOSSES), r"capacities_j_per_k\[1\] is 0 J/K; allowed: more than 0 J/K"),
        (([1e3, 2e3], [[0.0, -5.0], [-5.0, 0.0]], LOSSES), r"links_w_per_k\[0, 1\] is -5 W/K; allowed: 0 W/K or more"),
        (([1e3, 2e3], LINKS, [2.0, -1.0]), r"losses_w_per_k\[1\] is -1 W/K; allowed: 0 W/K or more"),
        (([1e3, 2e3], [[0.0, 5.0], [4.0, 0.0]], LOSSES), "links_w_per_k is not the same both ways"),
        (([1e3, 2e3], [LINKS, [[0.0, 5.0], [4.0, 0.0]]], LOSSES), "links_w_per_k is not the same both ways"),
        (([1e3, 2e3], LINKS, [0.0, 0.0]), "no heat can leave a part of the network"),
        (([1e3, 2e3], [[0.0, 0.0], [0.0, 0.0]], LOSSES), "no heat can leave a part of the network"),
    ],
)
def test_what_is_no_network_is_refused_in_words(given, words):
    with pytest.raises(ValueError, match=words):
        modes(*given)


@pytest.mark.parametrize("rate", [1e-6, 1e-3, 1.0, 1e3])
def test_a_rate_that_all_but_equals_another_is_moved_and_no_other(rate):
    for apart in (0.0, 5e-6, -5e-6):
        moved = float(kept_apart(rate * (1 + apart), [rate, 3 * rate]))
        assert 1e-5 < moved / rate - 1 < 3e-5
    for apart in (2e-5, -2e-5, 1e-3):
        assert kept_apart(rate * (1 + apart), [rate, 3 * rate]) == rate * (1 + apart)
