"""Drills, taps and straight bits that the drawing asks for and the shop's own lists do not hold."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.piece.model import Part
from docgen.piece.records import Feature
from docgen.trade.drills import Drill, nearest
from docgen.trade.drills import find as find_drill
from docgen.trade.names import UnknownName
from docgen.trade.threads import find as find_thread
from docgen.units import Number

TITLE = "drills, taps and bits that the shop has not got"
CODES = ("not-at-hand",)
LOOKS = looks.Looks(
    looks.either(looks.holes, looks.machine("router")),
    looks.shop("drills", "taps", "bits"),
    "no drills, taps or bits of the shop",
)

CLOSE = Fraction(15, 100)
"""mm by which another drill may differ and still be told as one to try. Common practice."""

SAME = 1e-3

BIT = "straight bit"


@dataclass(frozen=True, slots=True)
class Use:
    """One place where a tool is needed."""

    part: Part
    feature: Feature


def check(subject: Subject) -> Iterator[Finding]:
    """Yield one finding for each tool that is missing, with the parts that need it; a list that is not stated is not judged."""
    shop = {name: value for name, value in subject.piece.shop if isinstance(value, tuple)}
    uses = [Use(p, f) for p in subject.piece.parts if not p.hardware for f in p.features]
    yield from _bits(subject, shop, uses)
    yield from _drills(shop, uses)
    yield from _taps(shop, uses)


def _bits(subject: Subject, shop: Mapping[str, tuple[object, ...]], uses: Iterable[Use]) -> Iterator[Finding]:
    if "bits" not in shop:
        return
    have = sorted(float(b) for b in shop["bits"])  # type: ignore[arg-type]
    wanted: dict[float, list[Use]] = {}
    for use in uses:
        for width in _widths(use.feature):
            if not any(abs(b - float(width)) <= SAME for b in have):
                wanted.setdefault(round(float(width), 3), []).append(use)
    for wide, needing in wanted.items():
        smaller = [b for b in have if b < wide]
        way = (
            f"the bit of {subject.say(smaller[-1])} in two passes"
            if smaller
            else "cut it wider, to a bit that is there"
        )
        yield _finding(f"A straight bit of {subject.say(wide)}", needing, f"buy it, or {way}", wide)


def _widths(feature: Feature) -> Iterator[Number]:
    for setting in feature.made.settings:
        for name, value, _ in setting.values:
            if setting.machine == "router" and name == BIT and not isinstance(value, str):
                yield value


def _drills(shop: Mapping[str, tuple[object, ...]], uses: Iterable[Use]) -> Iterator[Finding]:
    if "drills" not in shop:
        return
    names = [str(name) for name in shop["drills"]]
    have = [d for d in map(_drill, names) if d is not None]
    wanted: dict[str, list[Use]] = {}
    for use in uses:
        for hole in use.feature.made.holes:
            drill = _drill(hole.drill)
            there = drill is not None and any(abs(d.diameter - drill.diameter) <= SAME for d in have)
            if hole.drill and not there and hole.drill not in names:
                wanted.setdefault(hole.drill, []).append(use)
    for name, needing in wanted.items():
        drill = _drill(name)
        advice = "buy it before the work starts"
        if drill is not None and have:
            other = nearest(drill.diameter, on_hand=[d.name for d in have])
            if abs(other.diameter - drill.diameter) <= CLOSE:
                advice += f", or try {other.name} in an offcut with what goes into the hole"
        yield _finding(f"The drill {name}", needing, advice, None if drill is None else float(drill.diameter))


def _drill(name: str) -> Drill | None:
    try:
        return find_drill(name)
    except UnknownName:
        return None


def _taps(shop: Mapping[str, tuple[object, ...]], uses: Iterable[Use]) -> Iterator[Finding]:
    if "taps" not in shop:
        return
    have = {_thread(str(name)) for name in shop["taps"]}
    wanted: dict[str, list[Use]] = {}
    for use in uses:
        for hole in use.feature.made.holes:
            if hole.thread and _thread(hole.thread) not in have:
                wanted.setdefault(_thread(hole.thread), []).append(use)
    for name, needing in wanted.items():
        yield _finding(f"The tap {name}", needing, "buy it, or draw for a thread whose tap is there", None)


def _thread(text: str) -> str:
    try:
        return find_thread(text).designation
    except UnknownName:
        return text.strip()


def _finding(what: str, needing: list[Use], advice: str, diameter: float | None) -> Finding:
    parts = tuple(dict.fromkeys(use.part.path for use in needing))
    return Finding(
        Grade.CARE,
        "not-at-hand",
        parts,
        f"{what} is not on the shop's list; it is needed for {needing[0].feature.title} in {', '.join(parts)}."
        if len({use.feature.title for use in needing}) == 1
        else f"{what} is not on the shop's list; it is needed in {', '.join(parts)}.",
        "each drill, tap and straight bit that a set-up names is on the shop's list",
        "the shop as the file states it; ways round are common practice",
        where(needing[0].feature.origin, needing[0].part.origin),
        () if diameter is None else (("diameter", diameter, "mm"),),
        advice,
    )
