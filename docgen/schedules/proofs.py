"""A test piece for each set-up and what is measured on it before the good parts run. Geometry; common practice."""

from __future__ import annotations

import math
from collections.abc import Sequence

from docgen.piece.model import Part, Piece
from docgen.piece.records import Setting
from docgen.schedules.machining import ANY_BIT, BLADE, DRILLS, EDGE, GAUGE, number
from docgen.schedules.milled import before_turning
from docgen.schedules.risks import ROUND
from docgen.trade.mitres import frame_error
from docgen.units import SLASH, Number, set_length

TOOL = ("bearing", "cutter, diameter", "radius left")
"""How values begin that tell of the tool: they are not measured on the test piece."""

STEP = "step from cut to cut"
"""The value of fingers that are cut one after the other: an error in it adds up."""

FINGERS = 4
"""How many of them a trial goes over, so that an error in the step shows. Common practice."""

SQUARED = "two offcuts pressed together in a try square"


def proof(piece: Piece, parts: Sequence[Part], setting: Setting) -> tuple[str, ...]:
    """Return the test pieces for parts that run at one set-up, then what they have to show."""
    shown = tuple(_shown(piece, parts[0], setting))
    told = dict.fromkeys(_piece(piece, part, setting) for part in parts)
    return (" and ".join(told), *shown)


def _piece(piece: Piece, part: Part, setting: Setting) -> str:
    board = part.size[2] + part.over(2)  # as it is milled
    thick = f"{_said(piece, board)} thick"
    if setting.machine == "lathe":
        thick = f"{_said(piece, before_turning(part, piece.units))} square"
    elif part.size[1] < part.size[2]:  # a strip that is ripped thinner than its board
        thick = f"{_said(piece, part.size[1] + part.over(1))} thick and {_said(piece, board)} wide"
    what = "the same stock" if part.material.solid_wood else f"the same {part.material.sheet}"
    deep = number(setting, "depth")
    if deep is not None and setting.machine in DRILLS and deep >= float(part.size[2]):
        return f"an offcut of {what}, {thick}, drilled into its edge"
    if setting.machine in ("table saw", "mitre saw") and _angled(setting) and not _tapers(setting):
        return f"two offcuts of {what}, {_said(piece, board)} thick and as wide as the part"
    return f"an offcut of {what}, {thick}"


def _tapers(setting: Setting) -> bool:
    return any(name.startswith("taper") for name, _, _ in setting.values)


def _angled(setting: Setting) -> bool:
    return any(kind == "angle" for _, _, kind in setting.values)


def _shown(piece: Piece, part: Part, setting: Setting) -> list[str]:
    by_machine = {
        "table saw": _sawn,
        "mitre saw": _sawn,
        "router": _routed,
        "router table": _routed,
        "drill press": _drilled,
        "hand drill": _drilled,
        "tap": _tapped,
        "band saw": _curved,
        "jigsaw": _curved,
        "lathe": _turned,
        "hand saw": _by_hand,
    }
    tell = by_machine.get(setting.machine)
    return tell(piece, part, setting) if tell else ["measure it before the good parts run"]


def _sawn(piece: Piece, part: Part, setting: Setting) -> list[str]:
    tilt, swung = number(setting, BLADE), number(setting, GAUGE)
    out: list[str] = []
    if tilt:
        out += _leans(piece, tilt, part.size[2], "through the thickness")
    if swung:
        out += _leans(piece, swung, part.size[1], "across the width")
    if swung == 45 and not tilt:
        out.append(
            f"four mitres of a frame add up: 0.1° in each of eight cuts opens the last one by {frame_error(0.1):.1f}°"
        )
    lengths = [
        f"{name} {_said(piece, value)}"
        for name, value, kind in setting.values
        if kind == "length" and not isinstance(value, str)
    ]
    if lengths and not out:
        return ["; ".join([*lengths, *([f"the {setting.mate} goes in by hand"] if setting.mate else [])])]
    if not _angled(setting):
        out.append(
            "cut one in two, turn a half over and hold the cuts together on a flat table: light shows twice the error"
        )
    return out or ["compare with the template, or with the angle set on a bevel"]


def _leans(piece: Piece, angle: float, over: Number, where: str) -> list[str]:
    """Return how an angle is proved without a gauge: 45° in a square, another by how far the cut runs back."""
    if angle == 45:
        seen = "no light, or light at the inside only" if where.startswith("through") else "no light at all"
        return [f"{SQUARED}: {seen}"]
    back = float(over) * math.tan(math.radians(angle))
    return [f"{where}, over {_said(piece, over)}, the cut runs back {_said(piece, back)}"]


def _routed(piece: Piece, part: Part, setting: Setting) -> list[str]:
    told = {name: value for name, value, kind in setting.values if kind == "length" and not isinstance(value, str)}
    if "straight bit" in told:
        deep = told.get("depth")
        through = "" if deep is None else f", depth {_said(piece, deep)} with a depth gauge at both ends"
        return [f"width {_said(piece, told['straight bit'])}{through}; {_belonging(piece, part, setting)}"]
    thick = next((name for name in told if name.endswith(("thickness", "thickness, fat"))), "")
    if setting.mate and thick:
        fits = f"it must not yet go into the {setting.mate}, and goes in when planed"
        goes = fits if thick.endswith("fat") else f"it goes into the {setting.mate} by hand"
        return [f"thickness {_said(piece, told[thick])} with a calliper: {goes}"]
    if EDGE in told:
        if ANY_BIT in told:
            return [
                "a short arc: the figure from the pin to the rim with a rule at both its ends; rim square to the face"
            ]
        return ["bearing on a straight edge clamped over it: the cut is flush with that edge from face to face"]
    if ROUND & set(told):
        return ["no step where the round meets either face; the bearing leaves no line"]
    if STEP in told:
        return [
            f"a second offcut cut to match goes into it by hand pressure, over {FINGERS} fingers, level at the first"
        ]
    cut = {name: value for name, value in told.items() if not name.startswith(TOOL)} or told
    return ["; ".join(f"{name} {_said(piece, value)}" for name, value in cut.items())]


def _belonging(piece: Piece, part: Part, setting: Setting) -> str:
    """Return how what belongs in a trench is tried in it: not at all, where it is left fat until it is fitted."""
    if setting.mate:
        return f"{setting.mate} goes in by hand"
    if setting.fitted:
        return f"nothing is tried in it yet: the {setting.fitted} is left fat, and fitted to it later"
    if fat := _left_fat(piece, part, setting):
        return f"keep it as trial mate for the test piece of the {fat}; the good {fat}, left fat, is fitted to its own later"
    if any(f.made.slots and setting in f.made.settings for f in part.features):
        return "the screw slides in it from end to end"
    return "the piece that belongs in it goes in by hand"


def _left_fat(piece: Piece, part: Part, setting: Setting) -> str:
    """Return what the joint that a trench belongs to leaves fat for it: "tenon"; "" for nothing."""
    own = {(part.path, f.name) for f in part.features if setting in f.made.settings}
    for joint in piece.joints:
        if own & set(joint.features):
            for path, name in joint.features:
                for other in (s for f in piece.part(path).features if f.name == name for s in f.made.settings):
                    if other.mate and any(value.endswith("fat") for value, _, _ in other.values):
                        return other.what.split(",")[0]
    return ""


def _drilled(piece: Piece, part: Part, setting: Setting) -> list[str]:
    deep = number(setting, "depth")
    out = [
        "" if deep is None else f"full diameter {_said(piece, deep)} deep, without the point",
        "what goes into the hole fits",
    ]
    return ["; ".join(s for s in out if s)]


def _tapped(piece: Piece, part: Part, setting: Setting) -> list[str]:
    full = number(setting, "full threads")
    deep = "" if full is None else f" over {_said(piece, full)}"
    return [f"the real screw runs in by hand{deep} and pulls tight without stripping"]


def _curved(piece: Piece, part: Part, setting: Setting) -> list[str]:
    return ["saw in the waste beside the line, then work down to it; compare with the template or the mating part"]


def _by_hand(piece: Piece, part: Part, setting: Setting) -> list[str]:
    return [f"{setting.mate} go together by hand and a light tap" if setting.mate else "saw to one side of the line"]


def _turned(piece: Piece, part: Part, setting: Setting) -> list[str]:
    wide = number(setting, "largest diameter")
    told = "" if wide is None else f"largest diameter {_said(piece, wide)}; "
    if not any(f.made.marks for f in part.features if setting in f.made.settings):
        return [f"{told.removeprefix('largest ')}the same at both ends and in the middle, with a calliper"]
    return [
        f"{told}each diameter of the turning stick with a calliper, each place with the stick held to the turned piece"
    ]


def _said(piece: Piece, value: Number) -> str:
    return set_length(value, piece.units).replace(SLASH, "/")
