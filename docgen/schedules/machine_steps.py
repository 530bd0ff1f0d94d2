"""The steps at the machines: one for each set-up, with its cuts, how the parts come to it, and the sheets of its figures."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from docgen.piece.model import Part, Piece
from docgen.piece.records import Authority
from docgen.schedules.glueups import connected, held
from docgen.schedules.holds import listed, said
from docgen.schedules.leading import led_by
from docgen.schedules.risks import risk
from docgen.schedules.rows import BlankRow, ChainRows, CutRow, SetupRow, WorkRow
from docgen.schedules.setups import FIRST, FITTED, GLUED, MATED, PAIRED
from docgen.schedules.standing import standing
from docgen.schedules.steps import step
from docgen.schedules.sticks import on_stick
from docgen.schedules.strips import strips
from docgen.schedules.terms import finished, numbered
from docgen.schedules.turning import WRONG, slanted, turning

DRILLS = ("drill press", "hand drill", "tap")
"""Machines whose places the chart has."""

DRAWN_IN = "a strip is drawn into the gap beside the blade: clamp it down on a board of waste that is cut with it"
FEW = 3
"""Cuts that a step names; the set-up has them all."""

WORDS = (" for ", " into ", " to ")
"""Before the part that a cut is for."""

MARKED = (
    "with a transfer punch, or the point of a drill, as wide as the hole it goes through: mark only. Take them off, and drill "
    "at the marks."
)
"""A drill that is thinner than the hole wanders in it, and none gets into a case that is closed. Common practice."""

SMALL = 0.2
"""Of a part's wood: what has less lies on it, and its own place is told. Common practice."""


@dataclass(frozen=True, slots=True)
class Made:
    """The other lists that the order of work is made from."""

    cutting: Sequence[CutRow]
    blanks: Sequence[BlankRow]
    setups: Sequence[SetupRow]
    chain: ChainRows
    sticks: frozenset[str] = field(default_factory=frozenset)  # parts that a story stick marks


def machined(piece: Piece, made: Made, when: str, phase: str, among: Sequence[str] | None = None) -> Iterator[WorkRow]:
    """Yield a step for each set-up of one time; `among` leaves those that touch none of these parts out."""
    for setup in made.setups:
        paths = list(dict.fromkeys(path for path, _ in setup.parts))
        if setup.when != when or (among is not None and not set(paths) & set(among)):
            continue
        blanks = [b.name for b in made.blanks if any(p.path in paths for p in b.pieces)]
        in_turn = bool(blanks) and setup.when == FIRST and setup.machine.endswith("saw")
        turned = turning(piece, setup)
        out_of = f" The parts of blank {', '.join(blanks)} in turn, by its sheet." if in_turn else ""
        yield step(
            phase,
            f"Set-up {setup.number}: {setup.machine}, {_what(piece, setup)}.{_clamped(piece, setup, when)}{out_of}{f' {turned}' if turned else ''}{_to_length(piece, setup)}",
            _where(piece, setup, made, blanks if in_turn else ()),
            _wrong(piece, setup, paths),
            [*paths, *_drilled_through(piece, setup)],
            key=f"set-up {setup.number}",
        )


def _wrong(piece: Piece, setup: SetupRow, paths: Sequence[str]) -> str:
    """Return what may go wrong; a strip at a saw is held on something that the blade's gap does not swallow."""
    wrong = WRONG if slanted(setup) else risk(setup)
    return f"{wrong}; {DRAWN_IN}" if slanted(setup) and set(paths) <= set(strips(piece)) else wrong


def _to_length(piece: Piece, setup: SetupRow) -> str:
    """Return how long parts are cut that kept waste at their ends for the centres."""
    if setup.machine != "lathe":
        return ""
    alike: dict[str, list[str]] = {}
    for path in dict.fromkeys(path for path, _ in setup.parts):
        alike.setdefault(said(piece, finished(piece.part(path))[0]), []).append(path)
    told = "; ".join(f"{listed(piece, paths)} {long}" for long, paths in alike.items())
    return f" Then saw off the waste with the marks of the centres, to length: {told}."


def _what(piece: Piece, setup: SetupRow) -> str:
    """Return what is cut at a set-up, where the set-up's own words do not say it: its first cuts; holes by their letters."""
    titles = _gathered([t for t in dict.fromkeys(run.what for run in setup.runs) if t and t not in setup.what])
    more = f"; and {len(titles) - FEW} more, all at the set-up" if len(titles) > FEW else ""
    if titles:
        own = all(title.startswith(setup.what) for title in titles)  # "mortise for …" says that it is a mortise
        return f"{'' if own else f'{setup.what}: '}{'; '.join(titles[:FEW])}{more}"
    named = dict.fromkeys(
        h.name
        for path, title in setup.parts
        for f in piece.part(path).features
        for h in f.made.holes
        if f.title == title and h.name
    )
    return " ".join([setup.what, ", ".join(named)]).strip()


def _gathered(titles: Sequence[str]) -> list[str]:
    """Return titles with what they begin with said once: "mortise for left apron, right apron", "tapped holes A, B, C"."""
    ends: dict[str, list[str]] = {}
    for title in dict.fromkeys(t for told in titles for t in told.split("; ")):
        head, tail = title, ""
        for word in WORDS:
            if word in title:
                head, tail = title.split(word, 1)
                head += word
                break
        else:
            if " " in title and title.rpartition(" ")[2].isupper():
                head, _, tail = title.rpartition(" ")
                head += " "
        ends.setdefault(head, []).extend([tail] if tail else [])
    return [
        head + ", ".join(sorted(tails) if head.endswith("holes ") else _few(_each(tails)))
        for head, tails in ends.items()
    ]


def _few(names: list[str]) -> list[str]:
    """Return names, of many the first and how many more: the set-up has them all."""
    return names if len(names) <= FEW + 1 else [*names[:FEW], f"and {len(names) - FEW} more"]


def _each(tails: Sequence[str]) -> list[str]:
    """Return each name once; "right leg" behind "front left leg" is told by the full name that ends like it."""
    names = list(dict.fromkeys(name for tail in tails for name in tail.split(", ")))
    return numbered([n for n in names if not any(o != n and o.endswith(f" {n}") for o in names)])


def _clamped(piece: Piece, setup: SetupRow, when: str) -> str:
    """Say where holes are marked through the mate that the parts are brought together first; hardware is laid in its place."""
    paths = dict.fromkeys(path for path, _ in setup.parts)
    titles = set(setup.parts)
    if when == FITTED:
        holes = [h for p in paths for f in piece.part(p).features if (p, f.title) in titles for h in f.made.holes]
        by_thing = holes and all(hole.authority is Authority.HARDWARE for hole in holes)
        guides = {
            led_by(piece, piece.part(p), f) for p in paths for f in piece.part(p).features if (p, f.title) in titles
        }
        if holes and len(guides) == 1 and "" not in guides:
            return f" Lay {listed(piece, tuple(paths))} in place, drill through the holes of {guides.pop()}."
        return " Lay the hardware in its place, mark through its own holes, drill." if by_thing else ""
    if when not in (MATED, PAIRED):
        return ""
    hosts = {path: _hosts(piece, path, titles) for path in paths}
    mates = dict.fromkeys(mate for several in hosts.values() for mate in several)
    if setup.machine == "tap":
        return ""
    if not mates:
        notes = dict.fromkeys(
            h.note for p in paths for f in piece.part(p).features if (p, f.title) in titles for h in f.made.holes
        )
        return "".join(f" {n[:1].upper()}{n[1:]}." for n in notes if n)
    if when == PAIRED:
        return f" Mark from the holes of {listed(piece, tuple(mates))} with dowel centres or a jig, dry; drill."
    lying = _lying(piece, hosts)
    where = standing(piece, _first_of_each(piece, lying), lying)
    mark = f"through {listed(piece, tuple(mates))} {MARKED}"
    if not where:
        return f" Clamp them in place, mark {mark}"
    return "\n".join([" Clamp them in place:", *(f"{_first_up(text)}." for text in where), f"Mark {mark}"])


def _hosts(piece: Piece, path: str, titles: Collection[tuple[str, str]]) -> tuple[str, ...]:
    """Return the parts whose own holes lead the drill into a part, for the cuts of these titles."""
    known = {p.path for p in piece.parts}
    return tuple(
        dict.fromkeys(
            hole.mate
            for feature in piece.part(path).features
            for hole in feature.made.holes
            if (path, feature.title) in titles and hole.authority is Authority.MATE and hole.mate in known
        )
    )


def _drilled_through(piece: Piece, setup: SetupRow) -> list[str]:
    """Return the parts that have to be at hand to mark holes: their mates; those of the same screws, where small things lead."""
    if setup.when not in (MATED, PAIRED) or setup.machine == "tap":
        return []
    titles, paths = set(setup.parts), dict.fromkeys(path for path, _ in setup.parts)
    mates = [mate for path in paths for mate in _hosts(piece, path, titles)]
    if not mates:
        names = {h.name for p in paths for f in piece.part(p).features if (p, f.title) in titles for h in f.made.holes}
        mates = [p for f in piece.fasteners if f.key in names and set(f.parts) & set(paths) for p in f.parts if p]
    return [mate for mate in dict.fromkeys(mates) if mate not in paths]


def _first_up(text: str) -> str:
    return text[:1].upper() + text[1:]


def _lying(piece: Piece, hosts: Mapping[str, Sequence[str]]) -> dict[str, Sequence[str]]:
    """Return what lies on what: the drilled parts on those that lead the drill; strips and cleats that lead it on the larger part instead."""
    out: dict[str, Sequence[str]] = {}
    for path, mates in hosts.items():
        if mates and all(_box(piece.part(m)) < SMALL * _box(piece.part(path)) for m in mates):
            out |= dict.fromkeys(mates, (path,))
        else:
            out[path] = mates
    return out


def _box(part: Part) -> float:
    """Return the room of a part's nominal box, mm³."""
    return float(part.size[0]) * float(part.size[1]) * float(part.size[2])


def _first_of_each(piece: Piece, hosts: Mapping[str, Sequence[str]]) -> list[str]:
    """Return the parts that have to be placed: of those that are glued to each other the first on each host places all."""
    wholes = connected([j.parts for j in piece.joints if held(piece, j) == "glued"])
    whole = {path: n for n, group in enumerate(wholes) for path in group}
    out: dict[object, str] = {}
    for path, on in hosts.items():
        out.setdefault((whole[path], tuple(on)) if path in whole else path, path)
    return list(out.values())


def _where(piece: Piece, setup: SetupRow, made: Made, blanks: Sequence[str]) -> str:
    """Return where the figures of a set-up stand: cuts in turn out of a blank have no use for the stick of a finished part."""
    out = [f"set-up {setup.number}", *(f"blank: {name}" for name in blanks)]
    if setup.machine in DRILLS:
        out.append("chart")
    elif not blanks and any(_on_stick(piece, made, path, title) for path, title in setup.parts):
        out.append("story stick")
    late = setup.when == GLUED and setup.machine not in DRILLS
    return ", ".join([*out, "sheet “after the glue-up”" if late else "part sheets"])


def _on_stick(piece: Piece, made: Made, path: str, title: str) -> bool:
    """Return whether the story stick of a part carries a mark of a cut."""
    part = piece.part(path)
    return path in made.sticks and any(on_stick(part, f) for f in part.features if f.title == title)
