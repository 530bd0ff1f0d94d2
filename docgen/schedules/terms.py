"""What several lists need alike: names for equal parts, weights, stated conditions, words for ends and edges."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from functools import lru_cache

from docgen.piece.model import Kind, Material, Part, Piece
from docgen.piece.operations.reached import reached
from docgen.piece.solids import Solids
from docgen.trade.boards import PLANED, USUAL_WIDTH, quarters
from docgen.trade.names import UnknownName, number
from docgen.units import MM_PER, Number, Units, plain_length, unit_length

GRAINED_SHEETS = ("plywood",)
"""Sheet goods whose faces have a grain that is seen."""

_HANDS = ("left", "right")


def kind_title(names: Sequence[str], *, handed: bool = False) -> str:
    """Return one name for equal parts from what each is called: the words they share, and for a pair what differs.

    "shelf 1", "shelf 2" give "shelf"; "front apron", "back apron" give "apron (front, back)", "tray left", "tray right"
    give "tray left and right", unless the pair is `handed`, which is told beside the name. Names without a common word are all told.
    """
    if len(names) == 1:
        return names[0]
    shared, rests = _parted(names)
    if not shared:
        return ", ".join(names)
    told = not handed and len(names) == 2 and not any(rest.isdigit() for rest in rests)
    if told and all(f"{shared} {rest}" == name for rest, name in zip(rests, names, strict=True)):
        return f"{shared} {rests[0]} and {rests[1]}"  # "tray left", "tray right" are no two trays
    return f"{shared} ({', '.join(rests)})" if told else shared


def short_title(names: Sequence[str]) -> str:
    """Return the words that equal parts share, "" where they do not name a thing: "case top", "case bottom" are no case."""
    if len(names) == 1:
        return names[0]
    return _short_title(tuple(names))


@lru_cache(maxsize=512)  # every list of parts asks for the titles of all kinds
def _short_title(names: tuple[str, ...]) -> str:
    shared, _ = _parted(names)
    last = {next((w for w in reversed(name.split()) if not w.isdigit()), "") for name in names}
    return shared if len(last) == 1 and shared.split()[-1:] == [*last] else ""


def kind_titles(piece: Piece, kinds: Sequence[Kind]) -> tuple[str, ...]:
    """Return what each kind is called, no two alike: of kinds that share their words each says which it is."""
    names = [[piece.part(p).called for p in (*k.parts, *k.mirrored)] for k in kinds]
    titles = [kind_title(each, handed=bool(k.mirrored)) for each, k in zip(names, kinds, strict=True)]
    plain = [_parted(each)[0] if len(each) > 1 else each[0] for each in names]
    return tuple(
        f"{one} ({', '.join(which)})" if plain.count(one) > 1 and title == one and (which := _which(each)) else title
        for each, title, one in zip(names, titles, plain, strict=True)
    )


def kind_numbers(piece: Piece, kinds: Sequence[Kind]) -> dict[str, int]:
    """Return the number that each part goes by on every page: that of the first part of its kind."""
    return {path: piece.part(k.first).number for k in kinds for path in (*k.parts, *k.mirrored)}


def _which(names: Sequence[str]) -> list[str]:
    """Return the last of the words by which each name differs from the others, once: "left", "right" of beads."""
    rests = _parted(names)[1] if len(names) > 1 else []
    return list(dict.fromkeys(words[-1] for rest in rests if (words := rest.split()) and not words[-1].isdigit()))


def _parted(names: Sequence[str]) -> tuple[str, list[str]]:
    """Return the words that all names share, and of each name the rest; words that change places are not shared.

    A word that a name has twice is shared as often as all have it: "left door left bead", "left door right bead". Which of
    the two is shared the order of the other names tells: "bottom drawer bottom" beside "drawer 1 bottom" is a "drawer bottom".
    """
    words = [name.replace(",", "").split() for name in names]
    counts = {w: min(each.count(w) for each in words) for w in dict.fromkeys(words[0]) if not w.isdigit()}
    shared = [w for w, n in counts.items() for _ in range(n)]
    if len(words[0]) == len(shared):
        moving = {w for w in counts if len({each.index(w) for each in words}) > 1}
        counts = {w: 0 if w in moving else n for w, n in counts.items()}
    first, last = ([_taken(each, counts, last=way) for each in words] for way in (False, True))
    found = last if _one_order(last) and not _one_order(first) else first
    return " ".join(found[0][0]), [" ".join(rest) for _, rest in found]


def _one_order(found: Sequence[tuple[list[str], list[str]]]) -> bool:
    """Return whether the shared words stand in the same order in every name."""
    return len({tuple(shared) for shared, _ in found}) == 1


def _taken(words: Sequence[str], counts: Mapping[str, int], *, last: bool) -> tuple[list[str], list[str]]:
    """Return the words of a name that are shared, the first or the `last` of each as often as they count, and the rest."""
    left = dict(counts)
    taken: list[str] = []
    rest: list[str] = []
    for word in reversed(words) if last else words:
        here = taken if left.get(word, 0) else rest
        left[word] = left.get(word, 0) - (here is taken)
        here.append(word)
    return (taken[::-1], rest[::-1]) if last else (taken, rest)


def numbered(names: Sequence[str]) -> list[str]:
    """Return names in their order, three or more that are counted through as one: "slat 1 to 9"."""
    stems: dict[str, list[int]] = {}
    for name in names:
        stem, _, last = name.rpartition(" ")
        if stem and last.isdigit():
            stems.setdefault(stem, []).append(int(last))
    whole = {s for s, n in stems.items() if len(n) >= 3 and sorted(n) == list(range(min(n), max(n) + 1))}
    out: dict[str, None] = {}
    for name in names:
        stem, _, last = name.rpartition(" ")
        run = last.isdigit() and stem in whole
        out[f"{stem} {min(stems[stem])} to {max(stems[stem])}" if run else name] = None
    return list(out)


def hands(kind: Kind) -> str:
    """Return "1 left, 1 right" for a kind of which both hands are made, "" for one that has no hands.

    Where left and right do not tell the parts apart, what each belongs to may: "1 for the left door, 1 for the right door".
    """
    if not kind.mirrored:
        return ""
    told = [_hand(p) for p in (*kind.parts, *kind.mirrored)]
    if None not in told and {_hand(p) for p in kind.parts}.isdisjoint({_hand(p) for p in kind.mirrored}):
        return ", ".join(f"{told.count(h)} {h}" for h in _HANDS if h in told)
    of = [{p.rpartition(".")[0].replace(".", " ") for p in paths} for paths in (kind.parts, kind.mirrored)]
    if all(len(wholes) == 1 for wholes in of) and of[0] != of[1] and "" not in of[0] | of[1]:
        return ", ".join(f"{len(p)} for the {min(w)}" for p, w in zip((kind.parts, kind.mirrored), of, strict=True))
    return f"{len(kind.parts)} one hand, {len(kind.mirrored)} the other"


def _hand(path: str) -> str | None:
    words = path.replace(".", " ").split()
    found = [h for h in _HANDS if h in words]
    return found[0] if len(found) == 1 else None


def weight(part: Part, solids: Solids) -> float | None:
    """Return the weight of a finished part in kg, from its solid; None where the density is unknown."""
    per = part.material.density
    return None if per is None else solids.solid(part.path).volume * 1e-9 * per


def bought_thickness(material: Material, units: Units) -> Number:
    """Return the thickness to buy, mm: what `bought` says in quarters or as a length, a bare number in the file's unit.

    Solid wood of which nothing is said needs its own thickness and what milling takes off. Common practice.
    """
    if not material.species:
        return material.thickness
    try:
        return quarters(material.bought).rough
    except UnknownName:
        stated = _length(material.bought, units) if material.bought else None
        return stated or material.thickness + PLANED[units.system]


def board_width(material: Material, units: Units) -> Number:
    """Return how wide the boards of a solid wood come, mm: as its stock is stated, else a usual width."""
    return material.stock[1] if material.stock is not None else USUAL_WIDTH[units.system]


def wide(piece: Piece, part: Part, rough: Number) -> str:
    """Say of how many boards a width in the rough is glued up that no board has, where the part's own note does not; mm."""
    each = board_width(part.material, piece.units)
    if not part.material.solid_wood or rough <= each or (part.material.stock is None and "glued up" in part.note):
        return ""
    boards = -int(-rough // each)
    come = "stock is" if part.material.stock is not None else "boards usually come to"
    return f"glued up of {boards} boards or more, {come} {plain_length(each, piece.units)} {piece.units.sign} wide"


def _length(text: str, units: Units) -> Number | None:
    """Return a length as a dealer writes it, ``40``, ``1 1/2 in``, ``50 mm``; None for other words."""
    bare = text.strip()
    sign = next((s for s in ("mm", "cm", "in") if bare.endswith(s)), "")
    try:
        long = number(bare.removesuffix(sign)) * MM_PER[sign or units.sign]
    except (ValueError, ZeroDivisionError):
        return None
    return long if long > 0 else None


def grained(material: Material) -> bool:
    """Return True for solid wood and for sheets with a grain: glass and metal have none."""
    return material.solid_wood or any(word in material.sheet for word in GRAINED_SHEETS)


def stated(piece: Piece, name: str) -> Number | None:
    """Return the value of a stated condition ("shelf load", "kerf"), None when the file does not state it."""
    return next((q.value for known, q, _ in piece.conditions if known == name), None)


def finished(part: Part) -> tuple[Number, Number, Number]:
    """Return the size with all allowances, from long point to long point of what is cut at a slant, mm."""
    (a, b), (c, d), (e, f) = reached(part)
    return b - a, d - c, f - e


AXES = ("length", "width", "thickness")


def over(piece: Piece, part: Part) -> tuple[str, ...]:
    """Return what a part is cut larger than its figures, to be fitted later: "thickness 16.5 mm, 0.5 mm over"."""
    return tuple(
        f"{word} {unit_length(part.size[axis] + more, piece.units)}, {unit_length(more, piece.units)} over"
        for axis, word in enumerate(AXES)
        if (more := part.over(axis))
    )


def exact(value: Number) -> Fraction:
    """Return a number rounded to a millionth, so that equal figures compare equal."""
    return Fraction(round(value * 1_000_000), 1_000_000)
