"""Speed of large router cutters: the set-ups' cutters against the usual speeds by diameter, and the shop's slowest speed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.piece.model import Part
from docgen.piece.records import Feature, Setting
from docgen.trade.cutters import SMALL, most_rpm, rim_speed
from docgen.trade.names import INCH
from docgen.units import Number

TITLE = "rim speed of large router cutters"
CODES = ("cutter-large", "cutter-too-large", "cutter-too-fast")

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
                if wide is not None and wide > SMALL:
                    cutters.setdefault(round(float(wide), 3), []).append((part, feature))
    for wide, uses in sorted(cutters.items()):
        yield _finding(subject, wide, uses, None if slowest is None else float(slowest))  # type: ignore[arg-type]


def cutter(setting: Setting) -> Number | None:
    """Return the diameter in mm of the router bit that a set-up asks for, None where it names none."""
    if setting.machine != "router":
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


def _finding(subject: Subject, wide: float, uses: list[tuple[Part, Feature]], slowest: float | None) -> Finding:
    part, feature = uses[0]
    parts = tuple(dict.fromkeys(p.path for p, _ in uses))
    most = most_rpm(wide)
    what = f"{feature.title} asks for a router bit about {subject.say(wide)} across"
    if most is None:
        grade, code, rpm = Grade.CARE, "cutter-too-large", 0.0
        message = f"{what}: too large for a router."
        advice = "shape it by hand to the template, or on a spindle moulder with a guarded cutter block"
    else:
        rpm = float(most)
        too_fast = slowest is not None and slowest > most
        grade, code = (Grade.CARE, "cutter-too-fast") if too_fast else (Grade.NOTE, "cutter-large")
        message = f"{what}: at most {most} turns a minute, {rim_speed(wide, most):.0f} m/s at its rim"
        message += f"; the shop's router turns {slowest:.0f} at the slowest." if too_fast else "."
        advice = (
            "use a smaller bit, or shape it by hand to the template"
            if too_fast
            else "set the speed before the bit is in"
        )
    return Finding(
        grade,
        code,
        parts,
        message,
        "24 000 turns a minute up to 1 in, 18 000 to 2 in, 16 000 to 2 1/2 in, 12 000 to 3 1/2 in; rim speed = π · d · n",
        SOURCE,
        where(feature.origin, part.origin),
        (("diameter", wide, "mm"), ("turns a minute", rpm, ""), ("rim speed", rim_speed(wide, rpm), "m/s")),
        advice,
    )
