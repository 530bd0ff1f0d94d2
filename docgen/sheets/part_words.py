"""What stands beside a part's views: how many and which hands, stock, datum, operations, remarks."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from docgen.drawing.choose import home
from docgen.drawing.dimensions.wanted import Callout, Wanted
from docgen.drawing.once import Figure
from docgen.drawing.symbols import AUTHORITY
from docgen.drawing.wishes import is_position
from docgen.drawing.wording import authority_key
from docgen.piece.datums import datum, end_word
from docgen.piece.model import Kind, Part, Piece
from docgen.piece.naming import in_words
from docgen.piece.records import Authority, Face, Feature, SizeKind, Stage
from docgen.schedules.rows import Schedules, SetupRow
from docgen.schedules.terms import finished, grained
from docgen.sheets import part_curves, part_shoulders
from docgen.sheets.part_broken import REMARK, along
from docgen.sheets.part_holes import lean_rows, rows
from docgen.sheets.part_view import HERE, LATER, Subject, every_in
from docgen.units import Units, format_length, set_length

MANY = 3  # operations for so many numbered mates are told in one line
CENTRED = "Positions run from the centre lines, those of sticks from the lines of the finished box"
BRACKETS = "In brackets: for reference, it follows from other figures"
_NUMBERED = re.compile(r"(.*\D)(\d+)")
STAGES = {Stage.GLUED: "after the glue-up", Stage.FITTED: "after fitting"}


def title(kind: Kind, lists: Schedules) -> str:
    """Return what the cutting list calls the part, or its path where no row has it."""
    for row in lists.cutting:
        if kind.first in row.parts:
            return row.title
    return kind.first


def count_line(kind: Kind, lists: Schedules, names: Mapping[str, str]) -> str:
    """Return how many are made and for where: ``Make 2: left side as drawn; right side in mirror image``."""
    alike, other = (", ".join(names.get(p, p) for p in paths) for paths in (kind.parts, kind.mirrored))
    hands = next((row.hands for row in lists.cutting if kind.first in row.parts), "")
    text = f"Make {kind.count}"
    if not kind.mirrored:
        return text if kind.count == 1 else f"{text}: {alike}"
    said = f" ({hands})" if hands else ""
    return f"{text}{said}: {alike} as drawn; {other} in mirror image"


def other_letters(kind: Kind, lists: Schedules) -> list[str]:
    """Return under which letters the holes of the other equal parts stand in the chart: ``C, D for A, B in: drawer 2 …``."""

    def letters(path: str) -> tuple[str, ...]:
        rows = (row.name for row in lists.chart if row.name and path in (*row.parts, *row.mirrored))
        return tuple(sorted(dict.fromkeys(rows), key=lambda name: (len(name), name)))

    own = letters(kind.first)
    alike: dict[tuple[str, ...], list[str]] = {}
    for path in (*kind.parts, *kind.mirrored):
        alike.setdefault(letters(path), []).append(path)
    return [
        f"In the chart {', '.join(other)} instead of {', '.join(own)}: {', '.join(paths)}"
        for other, paths in alike.items()
        if other != own and len(other) == len(own)
    ]


def stock_line(part: Part, units: Units) -> str:
    """Return the material and the finished size."""
    size = " × ".join(format_length(size, units, rest=False) for size in finished(part))
    bought = f", bought as {part.material.bought}" if part.material.bought else ""
    long = "length with the grain" if grained(part.material) else "length"
    return f"{part.material.name}{bought}. Finished {size} ({long} × width × thickness)"


def datum_line(subject: Subject) -> str:
    """Return from where positions are measured, as the piece names it; the axes on which there are none are left out."""
    part = subject.part
    if any(f.centred for f in _shown(subject)):
        return CENTRED
    into = {feature.name: _into(feature) for feature in part.features}
    axes = {
        i
        for f in subject.plan.figures
        if f.size.kind is SizeKind.LENGTH and not f.overall and is_position(f.size, part)
        for i in range(3)
        if abs(f.size.along[i]) > 1 - 1e-6 and i not in into.get(f.feature, ())
    }
    own = {f.made.off.axis: f.made.off for f in part.features if f.made.off is not None}
    ends = [f"the {_datum(part, own.get(i, datum(part, i)))}" for i in range(3) if i in {*axes, *own}]
    if not ends:
        return ""
    last = ends.pop()
    return f"Positions run from {', '.join(ends)} and {last}" if ends else f"Positions run from {last}"


def _shouldered(subject: Subject) -> bool:
    """Return True when a shoulder line is drawn in one of the views of a block."""
    whole = subject.whole or subject
    return any(
        part_shoulders.shoulder_lines(
            subject.part, s, whole.drawn(s, False, Stage.PART), every_in(whole, s), whole.bounds(s, False)
        )
        for s in subject.stations(False)
    )


def _shown(subject: Subject) -> list[Figure]:
    """Return the figures that stand in the views of a block."""
    drawn = [s.face for s in subject.stations(False)]
    return [f for f in subject.plan.figures if home(f.size, subject.first, subject.plan.others) in drawn]


def _into(feature: Feature) -> set[int]:
    """Return the axes along which a feature goes into the wood: what is told along them is a depth and no place."""
    runs = [setting.travel for setting in feature.made.settings if setting.travel is not None]
    return {*(run.face.axis for run in runs), *(hole.face.axis for hole in feature.made.holes)}


def _datum(part: Part, face: Face) -> str:
    """Return what the side is called from which positions run: the shoulder or line where wood stands out beyond it."""
    side = part.side(face)
    return side if side.endswith(("shoulder", "line")) else end_word(part, face, plain=True)


def operation_lines(part: Part, names: Mapping[str, str], setups: Sequence[SetupRow] = ()) -> list[str]:
    """Return what is cut on the part in the order of work, equal operations once and those for numbered mates together.

    The set-ups give the order; what has none stands where the file has it, among what is done at its stage.
    """
    numbers: dict[str, int] = {}
    for row in setups:
        for path, title in row.parts:
            if path == part.path:
                numbers.setdefault(title, row.number)
    worked = [f for f in part.features if f.made.cuts or f.made.holes]
    out = [(f.stage, in_words(f.title or f.word, names)) for f in _in_order(worked, numbers)]
    charted = {in_words(f.title or f.word, names) for f in worked if f.made.holes}
    lines = []
    for stage, text, number in _together(out):
        times = f"{number}× " if number > 1 else ""
        how = "drilling chart" if text in charted else "phantom line"
        when = f"{STAGES[stage]}, {how}" if stage in STAGES else ""
        when = f" ({when.split(', ')[-1] if 'glue-up' in text else when})" if when else ""
        lines.append(f"{times}{text}{when}")
    return [f"{n}. {line}" for n, line in enumerate(lines, 1)]


def _in_order(features: Sequence[Feature], numbers: Mapping[str, int]) -> list[Feature]:
    """Return features by stage, then by the number of their set-up; one without a set-up follows the one before it."""
    stages = list(Stage)
    keyed, last = [], 0
    for n, feature in enumerate(features):
        last = numbers.get(feature.title, last)
        keyed.append((stages.index(feature.stage), last, n, feature))
    return [feature for *_, feature in sorted(keyed, key=lambda k: k[:3])]


def _together(done: list[tuple[Stage, str]]) -> Iterator[tuple[Stage, str, int]]:
    """Yield stage, text and number: ``dado for shelf 1``, ``… 2``, ``… 3`` become ``dado for shelf 1 to 3``."""
    rows: dict[tuple[Stage, str], list[int]] = {}
    for stage, text in dict.fromkeys(done):
        found = _NUMBERED.fullmatch(text)
        rows.setdefault((stage, found[1] if found else text), []).append(int(found[2]) if found else 0)
    for (stage, text), numbers in rows.items():
        row = sorted(numbers)
        if len(row) >= MANY and row == list(range(row[0], row[0] + len(row))):
            yield stage, f"{text}{row[0]} to {row[-1]}", sum(done.count((stage, f"{text}{n}")) for n in row)
        else:
            for n in numbers:
                whole = f"{text}{n}" if n else text
                yield stage, whole, done.count((stage, whole))


def assumed_line(part: Part, placing: str = "") -> str:
    """Return what holds where nothing else is drawn; `placing` is how far a line may come out, as it is printed."""
    told = dict.fromkeys(a.text for f in part.features if f.stage is Stage.PART for a in f.made.assumed)
    within = [f"lines and holes within {placing} of their figures, fits apart"] if placing and part.features else []
    return "Unless shown: " + "; ".join(["edges and ends square to the faces", *told, *within])


def placing(piece: Piece) -> str:
    """Return how far from its figure the shop places a line or a hole, as it is printed; "" when the file is silent."""
    stated = next((value for name, value in piece.shop if name == "placing"), None)
    return set_length(stated, piece.units) if isinstance(stated, (int, float, Fraction)) else ""


def left_lines(left: Iterable[Wanted]) -> list[str]:
    """Return dimensions that found no place, in words."""
    out = [" ".join(texts(w)) for w in left]
    return ["Also: " + "; ".join(out)] if out else []


def remarks(subject: Subject, left: Iterable[Wanted]) -> list[str]:
    """Return the remarks whose letters stand in the views, and the key of the authority signs in use there."""
    stations = subject.stations(False)
    told = " ".join(text for s in stations for w in every_in(subject, s) for text in texts(w))
    told += " ".join(text for w in left for text in texts(w))
    told += " ".join(text for _, grid in table_rows(subject) for row in grid for text in row)
    notes = subject.notes
    lines = [line for line in notes.lines() if line.split(" ")[0] in told]
    used = [a for a in Authority if a is Authority.CUT or AUTHORITY[a] in told]
    lines += [part_shoulders.REMARK] if _shouldered(subject) else []
    brackets = [BRACKETS] if any(f.reference for f in _shown(subject)) else []
    return [*lines, *brackets, *authority_key(used)]


def table_rows(subject: Subject) -> list[tuple[str, tuple[tuple[str, ...], ...]]]:
    """Return caption and rows of each table of a block: of holes and of points of curves on the faces that it draws."""
    part = subject.part
    names = {Face(i, side): part.plain_side(Face(i, side)) for i in range(3) for side in range(2)}
    drawn = [s.face for s in subject.stations(False)]
    faces = subject.plan.faces
    every = rows(part, faces, subject.notes, subject.units, names) if subject.table else ()
    out = [(f"Holes in the {names[face]}:", told) for face, told in every if face in drawn]
    leaning = lean_rows(part, faces, subject.units)
    curved = part_curves.rows(part, subject.pins, subject.units, names)
    return [
        *out,
        *((f"Points of the {name}, as on its template:", told) for face, name, told in curved if face in drawn),
        *((f"Drills that lean in the {names[face]}, as they go in:", told) for face, told in leaning if face in drawn),
    ]


def texts(wanted: Wanted) -> tuple[str, ...]:
    """Return the lines that a dimension prints."""
    return wanted.lines if isinstance(wanted, Callout) else (wanted.text,)


def words(subject: Subject, kind: Kind, lists: Schedules, left: Sequence[Wanted]) -> list[str]:
    """Return the paragraphs beside the views, in order; `left` are figures that found no place in them."""
    part = subject.part
    count = count_line(kind, lists, subject.names)
    if subject.told == LATER:
        every = [f"{count}. Stock and work: beside its next drawing", datum_line(subject)]
    elif subject.only and subject.first not in subject.only and subject.told != HERE:
        every = [f"{count} (see its first drawing)", datum_line(subject)]
    else:
        every = [
            count,
            subject.shown,
            stock_line(part, subject.units),
            datum_line(subject),
            *operation_lines(part, subject.names, lists.setups),
            *other_letters(kind, lists),
        ]
        every += [assumed_line(part, subject.placing), part.note]
    if subject.gone and along(subject.stations(False)):
        every.append(REMARK)
    return [in_words(line, subject.names) for line in (*every, *remarks(subject, left), *left_lines(left)) if line]
