"""Statics of an aircraft on three wheels and up to three ropes: what each of them carries.

The aircraft is rigid and stands on level ground; wheels push only, and don't give; ropes pull only, and stretch in
proportion. A rope's pull acts along its line, so its downward part acts where that line meets the ground. There are
more supports than equations of statics, so the ropes' stretch decides: the aircraft moves by a small heave, pitch and
roll, and of all ways to carry a load there is one that fits (the least energy of the ropes' stretch; any textbook on
the theory of structures). Which wheels stand and which ropes are taut is found by trying all cases.
"""

from dataclasses import dataclass
from functools import cached_property
from itertools import product
from typing import NamedTuple

import numpy as np

from walkaround import checks

_MISS = 1e-7  # of the largest load: far above rounding, far below what is felt


def _cases():
    """Which wheels stand and which ropes are taut, where that can carry a load; those with fewer taut ropes first."""
    every = sorted(product((True, False), repeat=6), key=lambda case: sum(case[3:]))
    # On three wheels nothing moves, so no rope gets taut; and fewer than three supports carry nothing for long.
    return np.array([case for case in every if sum(case) >= 3 and (sum(case[:3]) < 3 or not sum(case[3:]))])


_CASES = _cases()


class Carried(NamedTuple):
    """What the supports carry, in N on the last axis: three wheels, and the downward pull of three ropes.

    `moved_m` is (heave, and the rise for each metre aft, and for each metre to the right). Where `held` is false no
    way to carry the load exists: it tips or lifts; the ropes are then infinite and the wheels 0.

    >>> three = Supports(((0, 0), (2, -1), (2, 1)), ((1, -4), (1, 4), (6, 0)), (9e4, 9e4, 9e4))
    >>> carried(three, [400.0, 400.0, 0.0]).ropes_n.round().tolist()
    [200.0, 200.0, 0.0]
    """

    wheels_n: np.ndarray
    ropes_n: np.ndarray
    moved_m: np.ndarray
    held: np.ndarray


@dataclass(frozen=True)
class Supports:
    """Three wheels and three ropes.

    `wheels_m` and `anchors_m`, three (aft, right) places each; `stiffness_n_m`, downward pull for each metre that a
    rope's anchor point of the aircraft rises, 0 for no rope; `slack_m`, how far it rises before the rope is taut.

    >>> Supports(((0, 0), (2, -1), (2, 1)), ((1, -4), (1, 4), (6, 0)), (9e4, 9e4, 0)).points[1].tolist()
    [1.0, 2.0, -1.0]
    """

    wheels_m: tuple
    anchors_m: tuple
    stiffness_n_m: tuple
    slack_m: tuple = (0.0, 0.0, 0.0)

    def __post_init__(self):
        for name in ("wheels_m", "anchors_m"):
            places = checks.numbers(name, getattr(self, name), unit="m")
            if places.shape != (3, 2):
                raise ValueError(f"{name} has shape {places.shape}; allowed: three places, (aft, right) each")
        if np.linalg.matrix_rank(self.points[:3]) < 3:
            raise ValueError("wheels_m are in one line; allowed: three places that are not")
        for name in ("stiffness_n_m", "slack_m"):
            if checks.numbers(name, getattr(self, name), low=0).shape != (3,):
                raise ValueError(f"{name} has {len(getattr(self, name))} values; allowed: three")

    @cached_property
    def stiffest(self):
        """The greatest stiffness, or 1 without ropes: the scale of all movement."""
        return max(self.stiffness_n_m) or 1.0

    @cached_property
    def points(self):
        """1, aft and right for each of the six supports, wheels first: what each rises is this times the movement."""
        return np.column_stack([np.ones(6), np.array([*self.wheels_m, *self.anchors_m], float)])

    @cached_property
    def answers(self):
        """What loads give in each case, as matrices to be multiplied by (load, 1), all in N.

        The first has movement times the greatest stiffness, wheels and ropes; the second all that must not be above 0
        if the case is the right one: wheels that pull or sink, ropes that push, and taut ropes taken for slack.
        """
        wheels, ropes = self.points[:3], self.points[3:]
        k, slack = np.array(self.stiffness_n_m) / self.stiffest, np.array(self.slack_m) * self.stiffest
        cases = _CASES[~(_CASES[:, 3:] & (k == 0)).any(axis=1)]
        stands, taut = cases[:, :3], np.where(cases[:, 3:], k, 0.0)
        matrix = np.zeros((len(cases), 6, 6))
        matrix[:, :3, :3] = np.einsum("ci,ij,ik->cjk", taut, ropes, ropes)
        matrix[:, :3, 3:] = -np.swapaxes(wheels * stands[:, :, None], 1, 2)
        matrix[:, 3:, :3] = wheels * stands[:, :, None]
        matrix[:, 3:, 3:] = np.einsum("ci,ij->cij", ~stands, np.eye(3))
        right = np.zeros((len(cases), 6, 4))
        right[:, :3, :3] = np.eye(3)
        right[:, :3, 3] = (taut * slack) @ ropes
        inverse = np.linalg.pinv(matrix, rcond=1e-11)
        # Supports in one line carry no more than two of them do.
        sound = np.abs(matrix @ inverse - np.eye(6)).max(axis=(1, 2)) < 1e-6
        stands, taut, found = stands[sound], taut[sound], (inverse @ right)[sound]
        rises = self.points @ found[:, :3]
        beyond = rises[:, 3:].copy()  # how far each rope's point has risen beyond its slack
        beyond[:, :, 3] -= slack
        pulls, push = taut[:, :, None] * beyond, found[:, 3:] * stands[:, :, None]
        wrong = [
            np.where(stands[:, :, None], -push, -rises[:, :3]),
            np.where(taut[:, :, None] > 0, -pulls, k[:, None] * beyond),
        ]
        return np.concatenate([found[:, :3], push, pulls], axis=1), np.concatenate(wrong, axis=1)


def carried(supports, load):
    """What each support carries under a load: `Carried`.

    `load` has on its last axis, over any others, the upward force in N, the same times its arm aft and times its arm to
    the right, in N·m: all of wind and weight together. Raises ValueError unless that axis has three numbers.

    >>> three = Supports(((0, 0), (2, -1), (2, 1)), ((1, -4), (1, 4), (6, 0)), (9e4, 9e4, 9e4))
    >>> carried(three, [-900.0, -1200.0, 0.0]).wheels_n.round().tolist()
    [300.0, 300.0, 300.0]
    """
    load = checks.numbers("load", load)
    if load.shape[-1:] != (3,):
        raise ValueError(f"load has shape {load.shape}; allowed: force and two moments on the last axis")
    answers, wrong = supports.answers
    flat = np.concatenate([load.reshape(-1, 3), np.ones((load.size // 3, 1))], axis=1)
    off = (flat @ wrong.reshape(-1, 4).T).reshape(len(flat), len(wrong), 6).max(axis=-1)
    missed = _MISS * np.maximum(np.abs(flat[:, :3]).max(axis=-1, keepdims=True), 1.0)
    off = np.maximum(off, missed)
    best = off.argmin(axis=-1)
    held = off.min(axis=-1, keepdims=True) <= missed
    moved, wheels, ropes = np.split(np.einsum("nij,nj->ni", answers[best], flat), 3, axis=-1)
    missing = np.where(np.array(supports.stiffness_n_m) > 0, np.inf, 0.0)
    found = (
        np.where(held, np.maximum(wheels, 0.0), 0.0),
        np.where(held, np.maximum(ropes, 0.0), missing),
        np.where(held, moved / supports.stiffest, np.inf),
    )
    return Carried(*(part.reshape(load.shape) for part in found), held.reshape(load.shape[:-1]))
