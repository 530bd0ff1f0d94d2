"""Pocket screws: where the drill enters and what of the screw is in the other part. Lengths in mm, angles in degrees.

The sheet of the pocket jig rules over all of it: angle, bits, collar and screw lengths are its own. Geometry throughout.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from docgen.units import Number


@dataclass(frozen=True, slots=True)
class Pocket:
    """A pocket worked out: `mouth` from the end along the face to the axis, `run` along the axis from there to the end.

    `bore` is how deep the pocket's wide part goes along the axis, `engagement` what of the screw is in the other part,
    `straight` how far that reaches, square to the joint.
    """

    mouth: float
    run: float
    bore: float
    engagement: float
    straight: float


def pocket(*, leaves: Number, angle: Number, shoulder: Number, length: Number) -> Pocket:
    """Return the pocket whose axis leaves the end `leaves` under the face, at `angle` from the face.

    `shoulder` is the wood along the axis between the pocket's bottom, on which the head bears, and the end.
    """
    lean = math.radians(float(angle))
    run = float(leaves) / math.sin(lean)
    engagement = float(length) - float(shoulder)
    return Pocket(float(leaves) / math.tan(lean), run, run - float(shoulder), engagement, engagement * math.cos(lean))
