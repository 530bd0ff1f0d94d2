"""What several lists need alike: names for equal parts, weights, stated conditions, words for ends and edges."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from docgen.piece.model import Kind, Material, Part, Piece
from docgen.piece.solids import Solids
from docgen.trade.boards import quarters
from docgen.trade.names import UnknownName
from docgen.units import Number

_HANDS = ("left", "right")


def kind_title(names: Sequence[str], *, handed: bool = False) -> str:
    """Return one name for equal parts from what each is called: the words they share, and for a pair what differs.

    "shelf 1", "shelf 2" give "shelf"; "front apron", "back apron" give "apron (front, back)", unless the pair is
    `handed`, which is told beside the name. Names without a common word are all told.
    """
    if len(names) == 1:
        return names[0]
    words = [name.replace(",", "").split() for name in names]
    shared = [w for w in words[0] if all(w in each for each in words) and not w.isdigit()]
    if not shared:
        return ", ".join(names)
    rests = [" ".join(w for w in each if w not in shared) for each in words]
    told = not handed and len(names) == 2 and not any(rest.isdigit() for rest in rests)
    return f"{' '.join(shared)} ({', '.join(rests)})" if told else " ".join(shared)


def hands(kind: Kind) -> str:
    """Return "1 left, 1 right" for a kind of which both hands are made, "" for one that has no hands."""
    if not kind.mirrored:
        return ""
    told = [_hand(p) for p in (*kind.parts, *kind.mirrored)]
    if None not in told and {_hand(p) for p in kind.parts}.isdisjoint({_hand(p) for p in kind.mirrored}):
        return ", ".join(f"{told.count(h)} {h}" for h in _HANDS if h in told)
    return f"{len(kind.parts)} one hand, {len(kind.mirrored)} the other"


def _hand(path: str) -> str | None:
    words = path.replace(".", " ").split()
    found = [h for h in _HANDS if h in words]
    return found[0] if len(found) == 1 else None


def weight(part: Part, solids: Solids) -> float | None:
    """Return the weight of a finished part in kg, from its solid; None where the density is unknown."""
    per = part.material.density
    return None if per is None else solids.solid(part.path).volume * 1e-9 * per


def bought_thickness(material: Material) -> Number:
    """Return the thickness to buy, mm: the rough quarters named in `bought`, else the material's own thickness."""
    try:
        return quarters(material.bought).rough if material.species and material.bought else material.thickness
    except UnknownName:
        return material.thickness


def stated(piece: Piece, name: str) -> Number | None:
    """Return the value of a stated condition ("shelf load", "kerf"), None when the file does not state it."""
    return next((q.value for known, q, _ in piece.conditions if known == name), None)


def finished(part: Part) -> tuple[Number, Number, Number]:
    """Return the size with all allowances, length to the long points, mm."""
    (a, b), (c, d), (e, f) = (part.span(i) for i in range(3))
    return b - a, d - c, f - e


def exact(value: Number) -> Fraction:
    """Return a number rounded to a millionth, so that equal figures compare equal."""
    return Fraction(round(value * 1_000_000), 1_000_000)
