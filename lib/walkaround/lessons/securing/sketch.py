"""Outlines of an aircraft on its wheels, from ahead and from its left side, made from its file; metres."""

from typing import NamedTuple

import numpy as np


class Sketch(NamedTuple):
    """Shapes in drawing order as rows of (x, height): x to the viewer's right, and `wing_m`, the wing's height.

    From ahead the aircraft's left is on the right; from its left side the nose is on the left.
    """

    shapes: tuple
    wing_m: float


def circle(x, y, radius, across=None):
    """Corners of a circle, or of an ellipse `across` as wide as half of it is given.

    >>> circle(0.0, 0.0, 1.0)[0].tolist()
    [1.0, 0.0]
    """
    turn = np.linspace(0, 2 * np.pi, 25)[:-1]
    return np.column_stack([x + (across or radius) * np.cos(turn), y + radius * np.sin(turn)])


def box(left, right, low, high):
    """Corners of a box."""
    return np.array([(left, low), (right, low), (right, high), (left, high)])


def from_ahead(craft):
    """The aircraft as seen by someone who stands in front of it: `Sketch`."""
    size, tied = craft.dimensions.metres(craft.units), craft.tie_down
    middle, half = size.cg_height, size.span / 2
    root = size.wing_height - half * np.tan(np.radians(tied.dihedral_deg))
    high, out = size.wing == "high", size.track / 2
    low, top = middle - 0.5, root + 0.12 if high else middle + 0.75
    wing = [(-half, size.wing_height), (0, root), (half, size.wing_height)]
    wing += [(x, y + 0.1 + 0.08 * (x == 0)) for x, y in wing[::-1]]
    legs = [
        np.array([(s * 0.35, low + 0.2), (s * out, 0.1), (s * (out + 0.07), 0.1), (s * 0.45, low + 0.3)])
        for s in (-1, 1)
    ]
    wheels = [box(s * out - 0.07, s * out + 0.07, 0, 2 * size.main_wheel_radius) for s in (-1, 1)]
    tail = middle + 0.25
    body = circle(0, (low + top) / 2, (top - low) / 2, 0.57)
    blade = size.propeller_diameter / 2
    shapes = [
        box(-0.05, 0.05, tail, tail + 1.2),
        box(-size.tailplane_span / 2, size.tailplane_span / 2, tail, tail + 0.07),
        *legs,
        *wheels,
        box(-0.06, 0.06, 0, 2 * size.nose_wheel_radius),
        np.array(wing),
        body,
        circle(0, middle, blade, 0.05),
        circle(0, middle, 0.13),
    ]
    if high:
        shapes.insert(-4, box(-0.04, 0.04, 2 * size.nose_wheel_radius, low + 0.2))
    return Sketch(tuple(shapes), float(root))


def from_the_left(craft):
    """The aircraft as seen from its left: `Sketch`.

    The shapes: nose leg, main leg, nose wheel, main wheel, and others, the last of them the elevator.
    """
    size, tied = craft.dimensions.metres(craft.units), craft.tie_down
    middle = size.cg_height
    root = size.wing_height - size.span / 2 * np.tan(np.radians(tied.dihedral_deg))
    front, back = size.wing_leading_edge, size.wing_leading_edge + size.wing_root_chord
    high = size.wing == "high"
    top = root + 0.08 if high else middle + 0.75
    tail = middle + 0.3
    body = [
        (size.nose, middle), (size.nose + 0.15, middle + 0.28), (front - 0.25, middle + 0.36), (front + 0.35, top),
        (back, top), (back + 0.9, middle + 0.42), (size.tail, tail + 0.1), (size.tail, tail - 0.12),
        (back + 0.4, middle - 0.42), (front - 0.3, middle - 0.48), (size.nose + 0.15, middle - 0.32),
    ]  # fmt: skip
    t = size.tailplane_arm
    fin = [(t - 0.55, tail + 0.1), (t + 0.15, tail + 1.25), (size.tail + 0.1, tail + 1.25), (size.tail, tail)]
    legs = [
        np.array([(x - 0.04, middle - 0.4), (x + 0.04, middle - 0.4), (x + 0.04, radius), (x - 0.04, radius)])
        for x, radius in ((size.nose_wheel, size.nose_wheel_radius), (size.main_wheels, size.main_wheel_radius))
    ]
    wheels = [
        circle(size.nose_wheel, size.nose_wheel_radius, size.nose_wheel_radius),
        circle(size.main_wheels, size.main_wheel_radius, size.main_wheel_radius),
    ]
    blade = circle(size.nose - 0.05, middle, size.propeller_diameter / 2, 0.05)
    section = circle((front + back) / 2, root + 0.05, 0.1, size.wing_root_chord / 2)
    plane, chord = size.tailplane_arm - size.tailplane_chord / 4, size.tailplane_chord
    hinge = plane + chord * (1 - craft.control_surfaces.elevator.chord / craft.dimensions.tailplane_chord)
    tailplane = box(plane, hinge, tail - 0.04, tail + 0.04)
    elevator = np.array([(hinge, tail - 0.04), (plane + chord, tail), (hinge, tail + 0.04)])
    return Sketch((*legs, *wheels, np.array(fin), np.array(body), blade, section, tailplane, elevator), float(root))
