"""Hold points: what has to be in hand and measured before which cut, by the authority of sizes, parts and hardware."""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set
from dataclasses import replace

from docgen.piece.model import FACE_WORDS, Item, Joint, Kind, Part, Piece
from docgen.piece.naming import in_words
from docgen.piece.records import Authority, Face
from docgen.schedules.milled import are_squares, by_material, milled, milled_over
from docgen.schedules.moves import parts_named
from docgen.schedules.neighbours import BEYOND, Beside, neighbours
from docgen.schedules.rows import HoldRow, MoveRow
from docgen.schedules.terms import finished, kind_title, numbered, short_title
from docgen.schedules.written import placed_from, written
from docgen.units import Number, plain_length, unit_length

GAPS = ("gap", "clearance")
"""Figures of a joint that tell what a part is smaller than its opening, a side."""

ORDERED_SHEETS = ("glass", "acrylic", "polycarbonate", "slate")
"""Sheet materials that are usually ordered cut to size."""

Box = tuple[tuple[Number, Number], tuple[Number, Number], tuple[Number, Number]]

NEAR = 0.01
"""mm within which two faces are one."""

WHOLE = "its length and width"
MEASURES = ("length", "width")
"""What is cut of a part that fills its place."""

FOLLOWS = "no other size is made of it: cut what fits it to the piece in hand"

SKIMMED = "the lathe brings it to its figure: no other size is made of it"

BESIDE = "hangs on it: put the thickness found into the file before that is cut"


def holds(piece: Piece, kinds: Sequence[Kind], sizes: Sequence[MoveRow]) -> tuple[HoldRow, ...]:
    """Return the hold points in the order of work: stock, hardware, fits, parts that wait, lengths of fasteners."""
    rows = (
        *_stock(piece, kinds, sizes),
        *_hardware(piece),
        *_fits(piece, kinds),
        *_waiting(piece, kinds),
        *_fasteners(piece),
    )
    return tuple(replace(row, name=f"H{n}") for n, row in enumerate(rows, 1))


def said(piece: Piece, value: Number) -> str:
    """Return a length as the lists print it, with its unit."""
    return unit_length(value, piece.units)


def _stock(piece: Piece, kinds: Sequence[Kind], sizes: Sequence[MoveRow]) -> Iterator[HoldRow]:
    """Yield the thickness of each material: solid wood once it is milled, sheets as they came."""
    for name, parts in by_material(piece).items():
        material = parts[0].material
        paths = {p.path for p in piece.parts if p.material.name == name}
        state = "milled" if material.solid_wood else "as it came"
        before = "cutting any joint of it" if any(piece.part(p).features for p in paths) else "cutting what takes it"
        if all(is_ordered(piece.part(p)) for p in paths):
            before = "laying it in: it is ordered when its place is measured"
        moves = SKIMMED if are_squares(parts) else _follows(piece, kinds, sizes, name, paths)
        if bought := _lengths(piece, name):
            before += f"; buying {'; '.join(bought)}"
            moves += f"; the length{'s' if len(bought) > 1 else ''} of what is bought"
        if more := milled_over(piece, name):
            moves += f"; enter what is found less {said(piece, more)}"
        yield HoldRow(f"thickness of {quoted(name)}, {state}", milled(piece, parts), before, moves, Authority.MEASURE)


def _follows(piece: Piece, kinds: Sequence[Kind], sizes: Sequence[MoveRow], material: str, paths: set[str]) -> str:
    """Return what follows the thickness of a material: what its own size moves, or the sizes that it is made of itself."""
    sources = dict(piece.rules.materials).get(material, ())
    row = next((r for r in sizes if r.name in sources), None)
    if row is None and sources:
        made = dict.fromkeys(n for name, expr in piece.rules.formulas if name in sources for n in expr.names())
        return f"made of {', '.join(quoted(size_words(n)) for n in made or sources)}: bring it to that thickness"
    row = row or next((r for r in sizes if _is_thickness(r, paths)), None)
    if row is not None:
        return moved(piece, row, kinds)
    row = written(piece, paths)
    if row is not None:
        return FOLLOWS if all(what == "thickness" for _, what, _ in row.moves) else moved(piece, row, kinds, word="its")
    beside = placed_from(piece, paths)
    return f"the place of {listed(piece, beside, kinds)} {BESIDE}" if beside else FOLLOWS


def quoted(name: str) -> str:
    """Return a material's name as the file gives it, marked as a name: it may be any word, "thin", "rod"."""
    return f"“{name}”"


def size_words(name: str) -> str:
    """Return the name of a size as it is said: ``back_thick`` is "back thick"."""
    return name.replace("_", " ")


def is_ordered(part: Part) -> bool:
    """Return whether a part is ordered cut to size, once its place is measured: a pane."""
    ordered = not part.material.solid_wood and any(word in part.material.sheet for word in ORDERED_SHEETS)
    return ordered and part.authority is Authority.MEASURE


def _is_thickness(row: MoveRow, paths: set[str]) -> bool:
    return any(what == "thickness" and factor == 1 and paths & set(which) for factor, what, which in row.moves)


def moved(piece: Piece, row: MoveRow, kinds: Sequence[Kind], *, word: str = "size") -> str:
    """Return what a named size moves, in words: "length of bottom −2 ×"; thicknesses, its own, are not told."""
    out = [
        f"{what} of {listed(piece, paths, kinds)} {times(factor)}"
        for factor, what, paths in row.moves
        if what != "thickness"
    ]
    stays = [f"the {word} face of {listed(piece, paths, kinds)}" for word, paths in row.stays]
    still = f"; {', '.join(stays)} stay{' where they are' if len(stays) > 1 else 's where it is'}" if stays else ""
    name = quoted(size_words(row.name)) if word == "size" else row.name
    return f"{word} {name}: {'; '.join(out) or 'no other size of a part'}{still}"


def listed(piece: Piece, paths: Sequence[str], kinds: Sequence[Kind] = ()) -> str:
    """Return what parts are called, in one list; names with a comma stand in brackets.

    With the piece's `kinds`, equal parts that are all there are counted: "4× shelf".
    """
    names = numbered(named(piece, paths, kinds))
    return ", ".join(f"({n})" if "," in n else n for n in names)


def named(piece: Piece, paths: Sequence[str], kinds: Sequence[Kind] = ()) -> list[str]:
    """Return what parts are called, whole kinds in one; kinds of the same title keep their parts' own names."""
    wanted = dict.fromkeys(paths)
    titles = [short_title([piece.part(p).called for p in (*k.parts, *k.mirrored)]) for k in kinds]
    title_of = {
        p: f"{k.count}× {title}"
        for k, title in zip(kinds, titles, strict=True)
        if k.count > 1 and title and titles.count(title) == 1 and all(p in wanted for p in (*k.parts, *k.mirrored))
        for p in (*k.parts, *k.mirrored)
    }
    return list(dict.fromkeys(title_of.get(p) or piece.part(p).called for p in wanted))


def times(factor: Number) -> str:
    """Return a factor with its sign, as "−2 ×" or "+1 ×"."""
    size = f"{abs(float(factor)):.3f}".rstrip("0").rstrip(".")
    return f"{'−' if factor < 0 else '+'}{size} ×"


def _hardware(piece: Piece) -> Iterator[HoldRow]:
    """Yield bought things whose own sheet rules, with the holes that the same statements of the file made."""
    found: dict[tuple[str, str], tuple[dict[str, None], dict[str, None]]] = {}
    for item in piece.items:
        if item.authority is Authority.HARDWARE:
            cut, named = found.setdefault((item.what, item.size), ({}, {}))
            for feature in (f for part in piece.parts for f in part.features):
                if item.origin.span is not None and feature.origin.span == item.origin.span:
                    named |= dict.fromkeys(hole.name for hole in feature.made.holes if hole.name)
            if item.where.partition(":")[0] not in named:  # else it goes into the holes, a screw
                cut |= dict.fromkeys(_beds(piece, item))
    for (what, size), (cut, named) in found.items():
        does = [f"cutting {_the(title)}" for title in cut]
        does += [f"drilling {', '.join(named)}"] if named else []
        before = "; ".join(does) or "drilling or cutting for it"
        yield HoldRow(what, size or "–", before, "its own sheet rules", Authority.HARDWARE)


def _beds(piece: Piece, item: Item) -> Iterator[str]:
    """Yield the titles of what is cut to take a thing itself, a recess: by the joints of its statement whose holes it leads."""
    for joint in piece.joints:
        if item.origin.span is None or joint.origin.span != item.origin.span:
            continue
        features = [f for path, name in joint.features for f in piece.part(path).features if f.name == name]
        if any(hole.authority is Authority.HARDWARE for f in features for hole in f.made.holes):
            yield from (f.title or f.word for f in features if f.made.cuts and not f.made.holes)


def _the(title: str) -> str:
    return title if title.startswith("the ") else f"the {title}"


def _fits(piece: Piece, kinds: Sequence[Kind]) -> Iterator[HoldRow]:
    """Yield what is left fat and fitted, by how much: measured is its mate, which is cut to its figure."""
    found: dict[tuple[str, str, str, str], dict[str, None]] = {}
    for kind in kinds:
        for path in (*kind.parts, *kind.mirrored):
            for feature in piece.part(path).features:
                setting = next((s for s in feature.made.settings if s.mate), None)
                for size in feature.made.sizes:
                    if size.authority is Authority.FIT and setting is not None:
                        what = setting.what.partition(",")[0]
                        fat = f"that {what} alone, which is cut {said(piece, size.over)} fat and planed to fit"
                        found.setdefault((what, setting.mate, said(piece, size.value), fat), {})[path] = None
    for (what, mate, figure, fat), paths in found.items():
        before = f"planing the {what} of {listed(piece, tuple(paths), kinds)}"
        yield HoldRow(f"each {mate}, cut", figure, before, fat, Authority.FIT, tuple(paths))


def _waiting(piece: Piece, kinds: Sequence[Kind]) -> Iterator[HoldRow]:
    """Yield the parts that are cut to a measured place, equal ones together only where it is the same place."""
    for kind in kinds:
        if piece.part(kind.first).authority is not Authority.MEASURE:
            continue
        places: dict[frozenset[str], list[tuple[str, tuple[Beside, ...], tuple[str, ...]]]] = {}
        for path in (*kind.parts, *kind.mirrored):
            beside = _beside(piece, piece.part(path))
            around = _around(piece, piece.part(path), beside)
            places.setdefault(frozenset(around), []).append((path, beside, around))
        for found in places.values():
            paths = [path for path, _, _ in found]
            first, beside, around = found[0]
            part = piece.part(first)
            title = kind_title([piece.part(p).called for p in paths])
            where = f"the place of {title}" + (f": {listed(piece, around, kinds)}" if around else "")
            told = _drawn(piece, part, title, beside)
            do = "ordering" if is_ordered(part) else "cutting"
            yield HoldRow(where, told, f"{do} {title}", _less(piece, part, beside), Authority.MEASURE, tuple(paths))


def joints_of(piece: Piece, part: Part) -> list[Joint]:
    """Return the joints that a part belongs to."""
    return [j for j in piece.joints if part.path in j.parts]


def _around(piece: Piece, part: Part, beside: Sequence[Beside]) -> tuple[str, ...]:
    """Return the parts that make a part's place: those of its joints, else those whose faces its own places name.

    Parts that wait for a measurement themselves are no place to measure: then those round whom they themselves lie. What
    hangs on no joint, a drawer's front, has its place among the parts that stand beside its edges.
    """
    if beside:
        return tuple(dict.fromkeys(b.path for b in beside))
    joined = dict.fromkeys(p for j in joints_of(piece, part) for p in j.parts if p != part.path)
    ring = {part.path, *(p for p in joined if piece.part(p).authority is Authority.MEASURE)}
    plans = [plan for plan in piece.rules.parts if plan.path in ring]
    named = parts_named(expr for plan in plans for pair in plan.box for expr in pair)
    firm = [p for p in joined if piece.part(p).authority is not Authority.MEASURE]
    known = {p.path for p in piece.parts}
    fixed = [p for p in dict.fromkeys(named) if p in known and piece.part(p).authority is not Authority.MEASURE]
    return tuple(firm or _touching(piece, ring) or fixed or joined or dict.fromkeys(named))


def _touching(piece: Piece, ring: Set[str]) -> list[str]:
    """Return the parts that wait for no measurement and hold one of these in a rabbet or lie on a face of it, by their boxes."""
    lying = [piece.part(p).box for p in ring]
    firm = (p for p in piece.parts if p.authority is not Authority.MEASURE and not p.hardware and p.path not in ring)
    return [p.path for p in firm if any(lies_on(box, p.box, within=True) for box in lying)]


def lies_on(one: Box, two: Box, *, within: bool = False) -> bool:
    """Return whether two boxes lie on a face of each other: they touch, and overlap along it; or one `within` the other."""
    near = [min(a[1], b[1]) - max(a[0], b[0]) for a, b in zip(one, two, strict=True)]
    return min(near) > -NEAR and 2 <= sum(n > NEAR for n in near) <= 2 + within


def _drawn(piece: Piece, part: Part, title: str, beside: Sequence[Beside]) -> str:
    """Return the place of a part as it is drawn, which is what gets measured, and then the part: smaller by its gaps."""
    gap, size = _gap(piece, part), finished(part)[:2]
    if not gap:
        return f"{title}: {_flat(piece, size)}"
    place = [v + n * gap for v, n in zip(size, _sides(piece, part, beside), strict=True)]
    clear = [n for n in (0, 1) if not _open(beside, n)]
    if len(clear) == 1:  # the other way nothing stands there to measure to
        return f"place, {MEASURES[clear[0]]}: {said(piece, place[clear[0]])}; {title}: {_flat(piece, size)}"
    return f"place: {_flat(piece, place)}; {title}: {_flat(piece, size)}" if clear else f"{title}: {_flat(piece, size)}"


def _flat(piece: Piece, size: Sequence[Number]) -> str:
    return f"{' × '.join(plain_length(v, piece.units, rest=False) for v in size)} {piece.units.sign}"


def _sides(piece: Piece, part: Part, beside: Sequence[Beside]) -> list[int]:
    """Return at how many sides, lengthwise and across, a part with a gap is smaller than its place."""
    if beside:
        return [sum(b.face.axis == axis and not b.flush for b in beside) for axis in (0, 1)]
    hosts = [j for j in joints_of(piece, part) if any(name in GAPS and value for name, value, _ in j.figures)]
    if not hosts:
        return [2, 2]
    return [_closed(piece, part, axis, {p for j in hosts for p in j.parts if p != part.path}) for axis in (0, 1)]


def _less(piece: Piece, part: Part, beside: Sequence[Beside]) -> str:
    """Return what a part is smaller than its place, told for length and width by how many sides are closed there."""
    gap = _gap(piece, part)
    if not gap:
        return WHOLE
    if beside:
        return _at_edges(piece, part, beside, said(piece, gap))
    counts = _sides(piece, part, beside)
    if counts == [2, 2]:
        return f"its length and width, less {said(piece, gap)} a side"
    amounts = ("in full", f"less {said(piece, gap)} on one side", f"less {said(piece, gap)} a side")
    return ", ".join(f"its {word} {amounts[n]}" for word, n in zip(MEASURES, counts, strict=True))


def _beside(piece: Piece, part: Part) -> tuple[Beside, ...]:
    """Return what stands beside the edges of a part that no joint holds; nothing where no edge has a gap."""
    gap = _gap(piece, part)
    if joints_of(piece, part) or not gap:
        return ()
    own = {p for d in piece.drawers if part.path in d.parts for p in d.parts}
    fronts = {p for d in piece.drawers for p in d.parts if not joints_of(piece, piece.part(p))}
    firm = [
        p
        for p in piece.parts
        if p.path not in own
        # A front that comes before this one in the list is cut when this one is measured, and stands in its place.
        and (p.authority is not Authority.MEASURE or (p.path in fronts and p.number < part.number))
        and not p.hardware
        and (p.turned or _near(part, p, gap))
    ]
    found = neighbours(part, gap, firm)
    return found if any(not b.flush for b in found) else ()


def _near(part: Part, other: Part, gap: Number) -> bool:
    """Return whether the boxes of two parts come so near that one may close the other's place, or be flush with it."""
    return all(
        min(a[1], b[1]) - max(a[0], b[0]) > -float(gap) - 2 * BEYOND for a, b in zip(part.box, other.box, strict=True)
    )


def _at_edges(piece: Piece, part: Part, beside: Sequence[Beside], gap: str) -> str:
    """Return what a part is smaller than its place, edge by edge: "its length less 1/32 in at the right; flush with …"."""
    told = []
    for axis, word in enumerate(MEASURES):
        if _open(beside, axis):
            told.append(f"its {word} as drawn, {said(piece, finished(part)[axis])}")
            continue
        closed = [part.word(b.face) for b in beside if b.face.axis == axis and not b.flush]
        amount = {0: "in full", 1: f"less {gap} at the {''.join(closed)}", 2: f"less {gap} a side"}[len(closed)]
        told.append(f"its {word} {amount}")
    flush = [f"with {listed(piece, [b.path])} at the {part.word(b.face)}" for b in beside if b.flush]
    return ", ".join(told) + (f"; flush {', '.join(flush)}" if flush else "")


def _open(beside: Sequence[Beside], axis: int) -> bool:
    """Return whether a side of a part, lengthwise or across, has nothing beside it that its place could be measured to."""
    return bool(beside) and len({b.face for b in beside if b.face.axis == axis}) < 2


def _closed(piece: Piece, part: Part, axis: int, hosts: set[str]) -> int:
    """Return at how many of its two sides on an axis a part ends in one of the hosts, which does not go on beside it."""
    along = FACE_WORDS[part.word(Face(axis, 0))][0]
    low, high = part.box[along]
    spans = [piece.part(p).box[along] for p in hosts]
    beside = [s for s in spans if not s[0] <= (low + high) / 2 <= s[1]]
    return sum(any(s[0] - NEAR <= end <= s[1] + NEAR for s in beside) for end in (low, high))


def _gap(piece: Piece, part: Part) -> Number | None:
    for joint in joints_of(piece, part):
        for name, value, _ in joint.figures:
            if name in GAPS and value:
                return value
    for pane in piece.panes:
        if pane.pane == part.path:
            return pane.clearance
    return next((d.gap for d in piece.drawers if part.path in d.parts and not joints_of(piece, part)), None)


def _bought(piece: Piece) -> dict[str, dict[str, None]]:
    """Return what each fastener is called whose length hangs on something, with the texts of that."""
    found: dict[str, dict[str, None]] = {}
    for f in piece.fasteners:
        for text in f.depends:
            found.setdefault(f"{f.thread} {f.what}".strip(), {})[text] = None
    return found


def _lengths(piece: Piece, material: str) -> tuple[str, ...]:
    """Return the fasteners whose length hangs on the thickness of a material: measured once, it tells both."""
    return tuple(what for what, after in _bought(piece).items() if any(_of(text) == material for text in after))


def _of(text: str) -> str:
    """Return the material that a fastener hangs on, of "milling of boards", "thickness of boards"."""
    return text.partition(" of ")[2]


def _fasteners(piece: Piece) -> Iterator[HoldRow]:
    """Yield what lengths of fasteners hang on that no thickness of a material tells: those stand with the stock."""
    names = {p.path: p.called for p in piece.parts}
    stock = by_material(piece)
    for what, after in _bought(piece).items():
        if told := [in_words(text, names) for text in after if _of(text) not in stock]:
            yield HoldRow("; ".join(told), "–", f"buying {what}", "the length of the fastener", Authority.MEASURE)
