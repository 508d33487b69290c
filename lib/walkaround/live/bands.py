"""Which parts of a picture changed: a screen is sent those pixels and no others."""

import numpy as np

BAND = 32  # rows that are looked at together
GAP = 12  # pixels: two changes side by side and nearer than that go as one


def changed(pixels, seen=None):
    """Return what changed as ((left, top, width, height), bytes of red, green, blue and alpha) pairs.

    `pixels` has bytes of shape (height, width, 4), and so has `seen`, what a screen shows. Where that is None, or of
    another size, the frame goes whole.

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
        return [((0, 0, now.shape[1], now.shape[0]), pixels.tobytes())]
    differs = now != seen.view(np.uint32)[:, :, 0]
    found = []
    for band in range(0, len(now), BAND):
        for left, right in _runs(differs[band : band + BAND].any(axis=0)):
            rows = np.flatnonzero(differs[band : band + BAND, left:right].any(axis=1))
            top, below = band + int(rows[0]), band + int(rows[-1]) + 1
            found.append(((left, top, right - left, below - top), now[top:below, left:right].tobytes()))
    return found


def _runs(changed):
    """The first place of each run that changed, and the place after its last; gaps of up to GAP are closed."""
    places = np.flatnonzero(changed)
    if not places.size:
        return []
    runs = np.split(places, np.flatnonzero(np.diff(places) > GAP) + 1)
    return [(int(run[0]), int(run[-1]) + 1) for run in runs]
