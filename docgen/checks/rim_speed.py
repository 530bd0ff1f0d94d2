"""Speed of large router cutters: the set-ups' cutters against the usual speeds by diameter, and the shop's slowest speed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.piece.model import Part
from docgen.piece.records import Feature, Setting
from docgen.trade.cutters import SMALL, most_rpm, rim_speed
from docgen.trade.names import INCH
from docgen.units import Number

TITLE = "rim speed of large router cutters"
CODES = ("cutter-large", "cutter-too-large", "cutter-too-fast")
LOOKS = looks.Looks(looks.machine("router"))

BEARING = INCH / 2
"""mm: diameter of the bearing of a guided bit where a set-up states none. Common practice."""

SOURCE = "cutter makers' usual charts, common practice; rim speed by geometry; the speed marked on the cutter rules"


def check(subject: Subject) -> Iterator[Finding]:
    """Yield, once for each cutter over 1 in, the speed that it may have; care where no router turns it so slowly."""
    slowest = dict(subject.piece.shop).get("router speed")
    cutters: dict[float, list[tuple[Part, Feature]]] = {}
    for part in subject.piece.parts:
        for feature in part.features:
            for setting in feature.made.settings:
                wide = cutter(setting)
                if wide is not None and float(wide) > SMALL + 1e-6:
                    cutters.setdefault(round(float(wide), 3), []).append((part, feature))
    judged = [Cutter(wide, tuple(uses), most_rpm(wide)) for wide, uses in sorted(cutters.items())]
    told: dict[str, list[Cutter]] = {}
    for one in judged:
        told.setdefault(_code(one, slowest), []).append(one)  # type: ignore[arg-type]
    for code in CODES:
        if code in told:
            yield _finding(subject, code, told[code], slowest)  # type: ignore[arg-type]


@dataclass(frozen=True, slots=True)
class Cutter:
    """A router bit by its diameter in mm, where it is used, and the most turns a minute that it may make."""

    wide: float
    uses: tuple[tuple[Part, Feature], ...]
    most: int | None


def _code(one: Cutter, slowest: Number | None) -> str:
    if one.most is None:
        return "cutter-too-large"
    return "cutter-too-fast" if slowest is not None and slowest > one.most else "cutter-large"


def cutter(setting: Setting) -> Number | None:
    """Return the diameter in mm of the router bit that a set-up asks for, None where it names none."""
    if setting.machine not in ("router", "router table"):
        return None
    said: Mapping[str, Number] = {n: v for n, v, kind in setting.values if kind == "length" and not isinstance(v, str)}
    bearing = next((v for n, v in said.items() if n.startswith("bearing")), BEARING)
    for name, value in said.items():
        if "bit" in name.split(",")[0]:
            if "radius" in name:
                return 2 * value + bearing
            if "into" in name:
                return 2 * value + bearing
            return value
    return 2 * said["radius"] + bearing if "radius" in said else None


ADVICE = {
    "cutter-large": "set the speed before the bit is in",
    "cutter-too-large": "shape it by hand to the template, or on a spindle moulder with a guarded cutter block",
    "cutter-too-fast": "use a smaller bit, or shape it by hand to the template",
}


def _finding(subject: Subject, code: str, cutters: list[Cutter], slowest: Number | None) -> Finding:
    """Return one finding for all cutters of which the same is to be said."""
    uses = [use for one in cutters for use in one.uses]
    said = "; ".join(_said(subject, one) for one in cutters)
    if code == "cutter-too-fast":
        said += f"; the shop's router turns {float(slowest or 0):.0f} at the slowest"
    return Finding(
        Grade.NOTE if code == "cutter-large" else Grade.CARE,
        code,
        tuple(dict.fromkeys(part.path for part, _ in uses)),
        f"Large router bits: {said}.",
        "24 000 turns a minute up to 1 in, 18 000 to 2 in, 16 000 to 2 1/2 in, 12 000 to 3 1/2 in; rim speed = π · d · n",
        SOURCE,
        where(uses[0][1].origin, uses[0][0].origin),
        tuple(figure for one in cutters for figure in _figures(one)),
        ADVICE[code],
    )


def _said(subject: Subject, one: Cutter) -> str:
    what = f"{one.uses[0][1].title}, about {subject.about(one.wide)} across"
    if one.most is None:
        return f"{what}, too large for a router"
    return f"{what}, at most {one.most} turns a minute ({rim_speed(one.wide, one.most):.0f} m/s at its rim)"


def _figures(one: Cutter) -> tuple[tuple[str, float, str], ...]:
    most = float(one.most or 0)
    return (("diameter", one.wide, "mm"), ("turns a minute", most, ""), ("rim speed", rim_speed(one.wide, most), "m/s"))
