"""The [control_surfaces] section of an aircraft file: chords of the surfaces, their travel limits and the tolerance.

A chord is measured from the hinge line to the trailing edge, in the file's own unit of arm; angles are in degrees.
"""

from itertools import pairwise
from typing import Annotated, Literal

from pydantic import Field, model_validator

from walkaround.aircraft.section import Positive, Section
from walkaround.physics.controls import Rigging

Degrees = Annotated[Positive, Field(le=60)]


class UpAndDown(Section):
    """A surface whose trailing edge goes up and down."""

    chord: Positive
    up_deg: Degrees
    down_deg: Degrees


class LeftAndRight(Section):
    """A surface whose trailing edge goes left and right."""

    chord: Positive
    left_deg: Degrees
    right_deg: Degrees


class Flap(Section):
    """Flaps: the angles that can be selected, from 0 on."""

    chord: Positive
    settings_deg: Annotated[list[Annotated[float, Field(ge=0, le=60)]], Field(min_length=2)]

    @model_validator(mode="after")
    def _in_order(self):
        settings = self.settings_deg
        if settings[0] != 0 or any(b <= a for a, b in pairwise(settings)):
            raise ValueError(f"settings_deg {', '.join(f'{s:g}' for s in settings)}; allowed: from 0 on, rising")
        return self


class ControlSurfaces(Section):
    """What the pilot holds, and each surface with its limits; a travel is right within `tolerance_deg` of its limit."""

    note: str = ""
    held: Literal["wheel", "stick"]
    tolerance_deg: Degrees
    aileron: UpAndDown
    elevator: UpAndDown
    rudder: LeftAndRight
    tab: UpAndDown
    flap: Flap

    @property
    def rigging(self):
        """Greatest deflections as `physics.controls.Rigging`."""
        a, e, r, t = self.aileron, self.elevator, self.rudder, self.tab
        most = a.up_deg, a.down_deg, e.up_deg, e.down_deg, r.left_deg, r.right_deg, t.up_deg, t.down_deg
        return Rigging(*most, self.flap.settings_deg[-1])


def control_surface_problems(parts):
    """Surfaces that don't fit wing or tail, (key, value, what is allowed) for each; `parts` has the sound sections."""
    here, dimensions, problems = parts.get("control_surfaces"), parts.get("dimensions"), []
    if here is None:
        return problems
    if here.tab.chord >= here.elevator.chord:
        says = f"less than the elevator's chord, {here.elevator.chord:g}"
        problems.append(("control_surfaces.tab.chord", here.tab.chord, says))
    if dimensions is None:
        return problems
    for name, of, whole in (
        ("aileron", "the wing's at its tip", dimensions.wing_tip_chord),
        ("flap", "the wing's at its root", dimensions.wing_root_chord),
        ("elevator", "the tailplane's", dimensions.tailplane_chord),
    ):
        chord = getattr(here, name).chord
        if chord >= whole:
            problems.append((f"control_surfaces.{name}.chord", chord, f"less than {of}, {whole:g}"))
    return problems
