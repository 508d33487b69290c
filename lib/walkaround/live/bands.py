"""Which parts of a picture changed: a screen is sent those pixels and no others."""

import numpy as np

BAND = 32  # rows that are looked at together
GAP = 12  # pixels: two changes side by side and nearer than that go as one


class Bands:
    """Remembers what a screen shows, and finds what of a new frame it lacks.

    >>> bands, pixels = Bands(), np.zeros((40, 30, 4), np.uint8)
    >>> [place for place, _ in bands.changed(pixels)]
    [(0, 0, 30, 40)]
    >>> pixels[7, 3] = 255
    >>> bands.changed(pixels)[0][0], bands.changed(pixels)
    ((3, 7, 1, 1), [])
    """

    def __init__(self):
        self._seen = None

    def forget(self):
        """Take it that nothing is on the screen: the next frame goes whole."""
        self._seen = None

    def copy(self):
        """Another that remembers the same."""
        other = Bands()
        other._seen = None if self._seen is None else self._seen.copy()
        return other

    def changed(self, pixels):
        """Return what changed as ((left, top, width, height), bytes of red, green, blue and alpha) pairs.

        `pixels` has bytes of shape (height, width, 4). A frame of another size goes whole.
        """
        now = pixels.view(np.uint32)[:, :, 0]
        if self._seen is None or self._seen.shape != now.shape:
            self._seen = now.copy()
            return [((0, 0, now.shape[1], now.shape[0]), pixels.tobytes())]
        differs = now != self._seen
        found = []
        for band in range(0, len(now), BAND):
            for left, right in _runs(differs[band : band + BAND].any(axis=0)):
                rows = np.flatnonzero(differs[band : band + BAND, left:right].any(axis=1))
                top, below = band + int(rows[0]), band + int(rows[-1]) + 1
                part = now[top:below, left:right]
                self._seen[top:below, left:right] = part
                found.append(((left, top, right - left, below - top), part.tobytes()))
        return found


def _runs(changed):
    """The first place of each run that changed, and the place after its last; gaps of up to GAP are closed."""
    places = np.flatnonzero(changed)
    if not places.size:
        return []
    runs = np.split(places, np.flatnonzero(np.diff(places) > GAP) + 1)
    return [(int(run[0]), int(run[-1]) + 1) for run in runs]
