"""Story sticks: every mark along a part, from one datum end; parts whose marks stand alike share one stick."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from docgen.piece.datums import end_word
from docgen.piece.model import Kind, Part, Piece
from docgen.piece.naming import in_words
from docgen.piece.operations.reached import reached
from docgen.piece.records import BOTH, Authority, Face, Feature, HoleRow, Mark, Stage
from docgen.piece.turnings import radius_at
from docgen.schedules.mark_matches import SAME, matching, other_faces
from docgen.schedules.mark_notes import note_of
from docgen.schedules.rows import Stick
from docgen.units import Number, Units

BRACKETS = re.compile(r" \([^)]*\)")  # "dado (housing) for seat"
COUNTED = re.compile(r"^\d+(?:st|nd|rd|th) ")
MOST_NAMES = 3  # of holes side by side that are all told at their mark


def sticks(piece: Piece, kinds: Sequence[Kind]) -> tuple[Stick, ...]:
    """Return one stick for each different row of marks, in the order of the parts' numbers.

    Parts share a stick when their lengths and all their marks stand alike; those on which the marks lie on other
    faces, such as the other hand, are its `mirrored` ones. Bought parts and parts without marks have none.
    """
    paths = sorted((p for k in kinds for p in (*k.parts, *k.mirrored)), key=lambda p: piece.part(p).number)
    groups: list[list[str]] = []
    for path in paths:
        part = piece.part(path)
        if part.hardware or not marks_of(part):
            continue
        same = next((g for g in groups if _alike(piece.part(g[0]), part)), None)
        if same is None:
            groups.append([path])
        else:
            same.append(path)
    return tuple(_stick(piece, group) for group in groups)


def _stick(piece: Piece, paths: Sequence[str]) -> Stick:
    part = piece.part(paths[0])
    marks = marks_of(part)
    faces = _faces(piece, paths, marks)
    parts = faces[0][0]
    mirrored = tuple(p for p in paths if p not in parts)
    first = part.called
    more = {1: "", 2: f" and {piece.part(paths[-1]).called}"}.get(len(paths), f" and {len(paths) - 1} more")
    name = f"{first}{more}"
    told = _noted(piece, paths, marks)
    titled = _titled(piece, paths, marks)
    return Stick(name, parts, mirrored, reached(part)[0], end_word(part, Face(0, 0)), titled, told, faces)


def _titled(piece: Piece, paths: Sequence[str], marks: Sequence[Mark]) -> tuple[Mark, ...]:
    """Return marks by what each is for on all parts, "mortise for left or right rail"; the number of one would tell less."""
    names = {part.path: part.called for part in piece.parts}
    told: list[dict[str, None]] = [{} for _ in marks]
    labels: list[dict[str, None]] = [{} for _ in marks]
    for path in paths:
        own = _marked(piece.part(path))
        for i, k in enumerate(matching(marks, [mark for _, mark in own]) or ()):
            told[i][in_words(BRACKETS.sub("", own[k][0][0].title), names)] = None
            labels[i][in_words(own[k][1].label, names)] = None
    titles = [_either(tuple(found)) for found in told]
    marks = [
        replace(mark, label=_either(tuple(found)) or mark.label) for mark, found in zip(marks, labels, strict=True)
    ]
    alike: dict[tuple[Face, str], set[str]] = {}
    for mark, title in zip(marks, titles, strict=True):
        alike.setdefault((mark.face, title), set()).add(mark.label)
    return tuple(
        replace(mark, label=title) if _is_for(mark.label, title) and len(alike[mark.face, title]) == 1 else mark
        for mark, title in zip(marks, titles, strict=True)
    )


def _either(said: Sequence[str]) -> str:
    """Return words that differ in one place as one, "dado for drawer 1 or 2 back"; "" for words that are not alike."""
    words = [text.split(" ") for text in said]
    if not words or len(words) > MOST_NAMES or any(len(w) != len(words[0]) for w in words):
        return ""
    apart = [i for i, several in enumerate(zip(*words, strict=True)) if len(set(several)) > 1]
    if len(apart) > 1:
        return ""
    each = [list(dict.fromkeys(several)) for several in zip(*words, strict=True)]
    return " ".join(f"{', '.join(several[:-1])} or {several[-1]}" if several[1:] else several[0] for several in each)


def _is_for(label: str, title: str) -> bool:
    """Return whether a title says what a label's word is for: "2nd mortise" or "mortise", "mortise for foot rail"."""
    return title.startswith(f"{COUNTED.sub('', label)} for ")


def _faces(
    piece: Piece, paths: Sequence[str], marks: Sequence[Mark]
) -> tuple[tuple[tuple[str, ...], tuple[str, ...]], ...]:
    """Return the parts by the faces on which they carry the marks, the first part's own first."""
    groups: dict[tuple[str, ...], list[str]] = {}
    for path in paths:
        part = piece.part(path)
        faces = other_faces(marks, marks_of(part)) or ()
        groups.setdefault(tuple(part.word(face) for face in faces), []).append(path)
    return tuple((tuple(some), words) for words, some in groups.items())


def _noted(
    piece: Piece, paths: Sequence[str], marks: Sequence[Mark]
) -> tuple[tuple[tuple[str, tuple[str, ...]], ...], ...]:
    """Return for each mark its notes with the parts that they hold for, the first part's note first; none for ""."""
    told: list[dict[str, list[str]]] = [{} for _ in marks]
    for path in paths:
        part = piece.part(path)
        notes = notes_of(part, piece.units)
        for i, k in enumerate(matching(marks, marks_of(part)) or ()):
            told[i].setdefault(notes[k], []).append(path)
    return tuple(tuple((note, tuple(where)) for note, where in t.items() if note) for t in told)


def _alike(a: Part, b: Part) -> bool:
    ends = zip(reached(a)[0], reached(b)[0], strict=True)
    if any(abs(float(p) - float(q)) > SAME for p, q in ends) or a.word(Face(0, 0)) != b.word(Face(0, 0)):
        return False
    return other_faces(marks_of(a), marks_of(b)) is not None


def marks_of(part: Part) -> tuple[Mark, ...]:
    """Return the marks of a part sorted by position, then face: those of its features and its hole centres.

    Where two features would carry the same label on one face, each is told by its own name. Holes that are marked or
    drilled through the mate are left out, and those marked through a hinge: one authority for a hole.
    """
    return tuple(mark for _, mark in _marked(part))


def notes_of(part: Part, units: Units) -> tuple[str, ...]:
    """Return for each mark of the part what it leaves open: the edge of a slanted cut's point, a stop, or ""."""
    out = []
    for features, mark in _marked(part):
        notes = dict.fromkeys(note_of(part, feature, mark, units) for feature in features)
        out.append(" and ".join(note for note in notes if note))
    return tuple(out)


def _marked(part: Part) -> list[tuple[list[Feature], Mark]]:
    """Return the marks with the features that they belong to."""
    found: list[tuple[list[Feature], Mark]] = []
    for feature in part.features:
        if _marked_through(feature):
            continue
        for mark in (_at_holes(feature, m) for m in (*feature.made.marks, *_centres(feature)) if not _idle(part, m)):
            same = next((features for features, other in found if _same(mark, other)), None)
            if same is None:
                found.append(([feature], mark))
            elif feature not in same:
                same.append(feature)
    owners: dict[tuple[Face, str], list[str]] = {}
    for features, mark in sorted(found, key=lambda n: n[1].position):
        owners.setdefault((mark.face, mark.label), []).append(features[0].name)
    named = [(f, _named(mark, owners[mark.face, mark.label], f[0].name)) for f, mark in found]
    return sorted(named, key=lambda n: (n[1].position, n[1].face, n[1].wood, n[1].label))


def ordinal(n: int) -> str:
    """Return "1st", "2nd", "3rd", "4th", "11th"."""
    ending = "th" if n % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(n % 10, "th")
    return f"{n}{ending}"


def _idle(part: Part, mark: Mark) -> bool:
    """Return whether a mark tells nothing: at an end of the whole blank a line with wood on both its sides, but for a turner."""
    ends = reached(part)[0]
    at_end = any(abs(float(end) - float(mark.position)) <= SAME for end in ends)
    return at_end and mark.wood == BOTH and radius_at(part, float(mark.position)) is None


def on_stick(part: Part, feature: Feature) -> bool:
    """Return whether the part's story stick carries a mark of a feature."""
    return any(feature in features for features, _ in _marked(part))


def _marked_through(feature: Feature) -> bool:
    """Return whether the holes of a feature are marked through the mate, or at the fitting through bought hardware's own."""
    holes = feature.made.holes
    ruling = (Authority.MATE, Authority.HARDWARE) if feature.stage is Stage.FITTED else (Authority.MATE,)
    return bool(holes) and all(hole.authority in ruling for hole in holes)


def _named(mark: Mark, owners: Sequence[str], name: str) -> Mark:
    """Return the mark with which one its feature is, counted from the datum end, where others of the same label have two lines.

    Where each has one line alone, its place tells which it is. "2nd mortise": a figure behind the word would read as its size.
    """
    each = tuple(dict.fromkeys(owners))
    if len(each) in (1, len(owners)):
        return mark
    return replace(mark, label=f"{ordinal(each.index(name) + 1)} {mark.label}")


def _at_holes(feature: Feature, mark: Mark) -> Mark:
    """Return a centre mark that calls its holes as all pages do: "hole A2", not "hole A" for each of a row."""
    head, comma, tail = mark.label.partition(",")  # "hole A, 8 mm"
    words = head.split(" ")
    for name, face, called in _bored(feature) if mark.wood == 0 else ():
        if face != mark.face or name not in words:
            continue
        here = [one for along, one in called if abs(float(along) - float(mark.position)) <= SAME]
        if not here:
            continue
        told = ", ".join(here) if len(here) <= MOST_NAMES else f"{here[0]} to {here[-1]}"
        many = {"hole": "holes", "slot": "slots", name: told} if len(here) > 1 else {name: told}
        said = " ".join(many.get(word, word) for word in words)
        return replace(mark, label=f"{said}{comma}{tail}")
    return mark


def _bored(feature: Feature) -> Iterator[tuple[str, Face, list[tuple[Number, str]]]]:
    """Yield the holes and slots of a feature that have names of their own: the common name, the face, each place and name."""
    for hole in feature.made.holes:
        if hole.names:
            yield hole.name, hole.face, [(p[0], one) for p, one in zip(hole.points, hole.names, strict=True)]
    for slot in feature.made.slots:
        if slot.called:
            yield slot.name, slot.face, [(slot.centre[0], slot.called)]


def _centres(feature: Feature) -> Iterator[Mark]:
    """Yield a centre mark for each place along the length where the feature bores holes."""
    for hole in feature.made.holes:
        if hole.face.axis == 0 or hole.ruled:
            continue
        counts = Counter(p[0] for p in hole.points)
        own = [m for m in feature.made.marks if m.wood == 0 and m.face == hole.face]
        for position in sorted(counts):
            if not any(abs(float(m.position) - float(position)) <= SAME for m in own):
                yield Mark(position, 0, _hole_label(hole, counts[position]), hole.face)


def _hole_label(hole: HoleRow, count: int) -> str:
    name = f"hole {hole.name}".strip() if count == 1 else f"{count} holes {hole.name}".strip()
    return f"{name}, {hole.drill}" if hole.drill else name


def _same(a: Mark, b: Mark) -> bool:
    return abs(float(a.position) - float(b.position)) <= SAME and (a.wood, a.label, a.face) == (b.wood, b.label, b.face)
