"""Bought hardware as solids."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.geometry.shapes import Extrusion, Frame


@dataclass(frozen=True, slots=True)
class Fitting:
    """A piece of hardware that fills its place in a joint, as far as its sizes are known: a leaf, a barrel, a slide.

    `shape` stands in its own axes, which `frame` takes into the piece's at rest. It is there to be looked at: what it needs
    of the wood is checked where it is bought.
    """

    what: str
    shape: Extrusion
    frame: Frame
    parts: tuple[str, ...]  # those that it is fixed to
    called: str = ""  # what a section writes beside it, where the joint's own word does not say it
    room: bool = False  # the room that it fills is all that is known of it: an outline, no cut metal
    sold: str = ""  # what the list calls that of which it is a piece, where that is seen as a whole: a hinge
