"""Labels that stand one above the other in a picture, without running into each other."""


def apart(heights, least, low):
    """Return the heights moved so that no two are closer than `least` and none is below `low`, in their old order.

    >>> apart([5.0, 4.9, 0.0], 1.0, 0.0)
    [5.0, 4.0, 0.0]
    >>> apart([0.2, 0.1], 1.0, 0.0)
    [1.0, 0.0]
    """
    from_above = sorted(range(len(heights)), key=lambda i: -heights[i])
    moved, last = list(heights), float("inf")
    for i in from_above:
        moved[i] = last = min(heights[i], last - least)
    for i in reversed(from_above):
        moved[i] = float(max(moved[i], low))
        low = moved[i] + least
    return moved
