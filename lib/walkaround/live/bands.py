"""Which parts of a picture changed: a screen is sent those pixels and no others."""

import numpy as np

BAND = 32  # rows that are looked at together
GAP = 12  # pixels: two changes side by side and nearer than that go as one


def changed(pixels, seen=None):
    """Return what changed as ((left, top, width, height), runs of pixels) pairs.

    `pixels` has bytes of shape (height, width, 4), and so has `seen`, what a screen shows. Where that is None, or of
    another size, the frame goes whole. `runs` says what the runs look like.

    >>> pixels = np.zeros((40, 30, 4), np.uint8)
    >>> [place for place, _ in changed(pixels)]
    [(0, 0, 30, 40)]
    >>> later = pixels.copy()
    >>> later[7, 3] = 255
    >>> changed(later, pixels)[0][0], changed(later, later)
    ((3, 7, 1, 1), [])
    """
    now = pixels.view(np.uint32)[:, :, 0]
    if seen is None or seen.shape != pixels.shape:
        return [((0, 0, now.shape[1], now.shape[0]), runs(now))]
    differs = now != seen.view(np.uint32)[:, :, 0]
    found = []
    for band in range(0, len(now), BAND):
        for left, right in _stretches(differs[band : band + BAND].any(axis=0)):
            rows = np.flatnonzero(differs[band : band + BAND, left:right].any(axis=1))
            top, below = band + int(rows[0]), band + int(rows[-1]) + 1
            found.append(((left, top, right - left, below - top), runs(now[top:below, left:right])))
    return found


def runs(pixels):
    """Return the colour of each run of equal pixels, then how many pixels each has, as bytes of 32-bit integers.

    A drawing has wide areas of one colour: this is a seventh of the pixels themselves, which would keep a screen
    waiting.

    >>> np.frombuffer(runs(np.array([[7, 7, 7], [7, 9, 9]], np.uint32)), np.uint32)
    array([7, 9, 4, 2], dtype=uint32)
    """
    flat = pixels.ravel()
    first = np.flatnonzero(np.concatenate(([True], flat[1:] != flat[:-1])))
    return np.concatenate((flat[first], np.diff(first, append=flat.size).astype(np.uint32))).tobytes()


def _stretches(changed):
    """The first place of each stretch that changed, and the place after its last; gaps of up to GAP are closed."""
    places = np.flatnonzero(changed)
    if not places.size:
        return []
    stretches = np.split(places, np.flatnonzero(np.diff(places) > GAP) + 1)
    return [(int(places[0]), int(places[-1]) + 1) for places in stretches]
