"""Bolts into metal that sits in wood: cross dowels (barrel nuts) and threaded inserts. Lengths in mm.

Sizes of the hardware come from its own sheet; what is worked out here is geometry on them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from docgen.trade.fasteners import bolt_length
from docgen.units import Number

IN_METAL = 1
"""Diameters of full thread that a bolt should have in a steel or brass nut or insert. Common practice."""

CLEAR = 2
"""Pitches of bore left before a bolt's tip, so that it never bottoms. Common practice."""


@dataclass(frozen=True, slots=True)
class Bolting:
    """One bolt worked out: its `length`, how far it goes `into` the wood, thread in the metal, depth of its bore.

    `short` is what is missing of the wanted thread.
    """

    length: Number
    into: Number
    engagement: Number
    bore: Number
    short: Number


def cross_dowel(
    *,
    washer: Number,
    grip: Number,
    set_back: Number,
    dowel: Number,
    pitch: Number,
    stock: Sequence[Number],
) -> Bolting:
    """Return the shortest bolt that goes right through a dowel of diameter `dowel`, its axis `set_back` from the end.

    washer + grip + set back + half the dowel; the bore goes two pitches deeper than the bolt or the dowel. Geometry.
    """
    bolt = bolt_length(washer=washer, grip=grip, engagement=set_back + dowel / 2, stock=stock)
    before = set_back - dowel / 2
    held = min(dowel, max(bolt.engagement - before, 0))
    bore = max(bolt.engagement, set_back + dowel / 2) + CLEAR * pitch
    return Bolting(bolt.length, bolt.engagement, held, bore, max(dowel - held, 0))


def insert(
    *,
    washer: Number,
    grip: Number,
    length: Number,
    under: Number,
    pitch: Number,
    stock: Sequence[Number],
    most: Number,
    bore: Number | None = None,
) -> Bolting:
    """Return the bolt for an insert `length` long that sits `under` the surface: right through it where that fits.

    A `bore` that the sheet gives bounds the bolt, else the deepest one that the wood takes, `most`: then it is the longest
    bolt that does not bottom. Geometry.
    """
    whole = under + length
    room = max(most - CLEAR * pitch, 0) if bore is None else bore
    bolt = bolt_length(washer=washer, grip=grip, engagement=whole, stock=stock, threads=room)
    held = min(length, max(bolt.engagement - under, 0))
    deep = max(bolt.engagement, whole) + CLEAR * pitch if bore is None else bore
    return Bolting(bolt.length, bolt.engagement, held, deep, max(length - held, 0))
