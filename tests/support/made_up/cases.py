"""Cases: two sides with shelves in housings, dividers, backs in rabbets or grooves, drawers, mitred ones, raking stands."""

from __future__ import annotations

from tests.support.made_up.leaning import leaning
from tests.support.made_up.sketch import Sketch

BETWEEN = "left side.right, right side.left"


def case(s: Sketch) -> None:
    """Two sides and boards in housings between them, put together by hand."""
    s.title = "case"
    w, h, d = s.size("width", 160, 1200), s.size("height", 160, 2000), s.size("depth", 70, 420)
    board = s.size("board", max(8, w / 60), max(10, min(26, w / 18)))
    s.size("housing", board / 4, board / 2.5)
    s.wood("boards", "board")
    rear = _back(s, board) if s.chance(0.75) else "depth"
    sides = s.pick("mirror", "hand")
    s.part("left side", "boards", "up", ("0, board", "0, depth", "0, height"), "show: left")
    if sides == "mirror":
        s.rooms["mirrors"]["right side"] = "{of: left side, about: {across: width / 2}}"
    else:
        s.part("right side", "boards", "up", ("width - board, width", "0, depth", "0, height"), "show: right")
    low, rise = s.size("low", 0, min(120, h / 5)), float(h)
    s.part("bottom", "boards", "across", (BETWEEN, f"0, {rear}", "low, low + board"), "show: top")
    s.part(
        "top shelf", "boards", "across", (BETWEEN, f"0, {rear}", "height - board - 10 mm, height - 10 mm"), "show: top"
    )
    joint = _housing(s, board, d, rear)
    for shelf in ("bottom", "top shelf"):
        s.add("joints", f"housing: {{shelf: {shelf}, into: [left side, right side], {joint}}}")
    inside = rise - low - 2 * board - 10
    many = s.count(0, min(5, int(inside / (board + 60)) - 1)) if inside > board + 120 else 0
    if many and s.chance(0.7):
        more = f"repeat: {{along: up, count: {many}, between: [bottom.top, top shelf.bottom]}}"
        s.part("shelf", "boards", "across", (BETWEEN, f"{s.length(2, d / 8)}, {rear}", "0, board"), more)
        s.add("joints", f"housing: {{shelf: shelf, into: [left side, right side], {joint}}}")
        if s.chance(0.5):
            s.add("edges", f"round over: {{part: shelf, along: [top front], radius: {s.length(1.5, board / 3)}}}")
    elif w > 260:
        at = s.pick("width / 2", "width / 3 + board")
        s.part(
            "divider",
            "boards",
            "up",
            (f"{at}, {at} + board", f"0, {rear}", "bottom.top, top shelf.bottom"),
            "show: left",
        )
        s.add("joints", f"housing: {{shelf: divider, into: [bottom, top shelf], {joint}}}")
    _sides(s, h, d, board)


def _housing(s: Sketch, board: float, d: float, rear: str) -> str:
    said = ["depth: housing"]
    if s.chance(0.4):
        s.size("tongue", board * 0.4, board * 0.7)
        said.append("tongue: tongue")
        if s.chance(0.5):
            said.append(f"fat: {s.say(s.some(0.4, 0.6))}")
    if s.chance(0.6):
        said.append(f"stop: {{front: {s.length(6, d / 6)}}}")
    if s.chance(0.3):
        said.append("end: square")
    if rear != "depth":
        said.append("through: back")
    return ", ".join(said)


def _back(s: Sketch, board: float) -> str:
    s.size("back_thick", 3, min(12, board / 1.5))
    s.sheet("back ply", "back_thick")
    s.size("into", board / 3, board / 2)
    if s.chance(0.6):
        across = "board - into + 0.5 mm, width - board + into - 0.5 mm"
        s.part(
            "back",
            "back ply",
            s.pick("up", "across"),
            (across, "depth - back_thick, depth", "0, height"),
            "show: front",
        )
        s.add("joints", "panel in rabbet: {panel: back, into: [left side, right side], gap: 0.5 mm}")
        if s.chance(0.5):
            s.add("joints", f"fixed: {{parts: back, with: brads, size: 1 × 16 mm, count: {s.count(8, 30)}}}")
        return "depth - back_thick"
    s.formula("inset", f"{s.length(8, 20)}")
    box = ("board - into, width - board + into", "depth - inset - back_thick, depth - inset", "0, height")
    s.part("back", "back ply", "up", box, "show: front")
    s.add("joints", "panel in groove: {panel: back, into: [left side, right side], clearance: 0.5 mm}")
    return "depth - inset - back_thick"


def _sides(s: Sketch, h: float, d: float, board: float) -> None:
    """Do something to the sides: pin holes, round corners, a foot cut out, round-overs."""
    pair = "[left side, right side]" if "right side" in s.rooms["parts"] else "left side"
    if s.chance(0.4) and h > 500 and d > 120:
        for deep in ("deep: 35 mm", f"deep: {s.length(d / 2, d - 40)}"):
            many = s.count(4, max(5, int(h / 120)))
            s.add(
                "holes",
                f"hole: {{part: left side, face: right, at: {{{deep}, up: {s.length(h / 4, h / 3)}}}, diameter: 5 mm, "
                f"depth: {s.say(s.some(5, board * 0.7))}, run: up, spacing: 32 mm, count: {min(many, int(h / 2 / 32))}}}",
            )
    if s.chance(0.4):
        s.add("edges", f"corner radius: {{part: {pair}, face: left, along: [top front], radius: {s.length(8, d / 4)}}}")
    if s.chance(0.3) and d > 120:
        span = f"deep: [{s.length(25, d / 4)}, {s.length(d * 0.7, d * 0.8)}]"
        s.add("edges", f"curved edge: {{part: {pair}, face: left, edge: bottom, rise: {s.length(8, d / 8)}, {span}}}")
    if s.chance(0.5):
        s.add(
            "edges",
            f"round over: {{part: {pair}, along: [left front, right front], radius: {s.length(1.5, board / 4)}}}",
        )


def housed(s: Sketch) -> None:
    """A housed case as an assembly, with drawers in one of its bays now and then."""
    s.title = "cabinet"
    w, h, d = s.size("width", 260, 1100), s.size("height", 300, 1300), s.size("depth", 180, 450)
    board = s.size("board", max(12, w / 60), 24)
    s.wood("boards", "board")
    bays = s.count(1, min(4, int(h / 150)))
    bay = (h - 40 - board) / bays
    shelves = [s.say(s.some(20, 40))]
    s.formula("bay", s.say(s.some(bay * 0.85, bay * 0.98)))
    shelves += [f"{shelves[0]} + {n} * bay" for n in range(1, bays + 1)]
    said = [
        "box: {across: [0, width], deep: [0, depth], up: [0, height]}, material: boards, thickness: board",
        f"shelves: [{', '.join(shelves)}], housing: {s.length(board / 4, board / 3)}",
    ]
    if s.chance(0.5):
        said.append(f"tongue: {s.length(board / 2, board * 0.7)}, fat: 0.5 mm")
    if s.chance(0.5):
        said.append(f"stop: {s.length(8, 25)}")
    if s.chance(0.7):
        s.size("back_thick", 4, 9)
        s.sheet("back ply", "back_thick")
        said.append(
            f"back: {{material: back ply, thickness: back_thick, rabbet: {s.length(board / 3, board / 2)}, gap: 0.5 mm}}"
        )
    front = "setback: 22 mm, " if (inset := s.chance(0.5)) else ""
    s.rooms["assemblies"]["case"] = f"{{housed case: {{{front}{', '.join(said)}}}}}"
    if inset and bay - board > 90 and d > 230 and s.chance(0.8):
        _drawer(s, w, d, bay - board)
    elif inset and h > 400:
        _door(s, w, bays)


def _drawer(s: Sketch, w: float, d: float, clear: float) -> None:
    s.size("front_thick", 16, 20)
    s.wood("front boards", "front_thick")
    thick = s.size("side", 10, 14)
    s.wood("box boards", "side")
    s.sheet("thin ply", "6 mm")
    groove = s.length(thick / 3, thick / 2)
    high = s.some(clear * 0.5, max(clear * 0.5, clear - 45))
    ways = ["dovetails: {count: 3}", "fingers: {count: 5}", f"rabbets: {{depth: {groove}}}"]
    ways.append(f"housing: {{depth: {groove}, tongue: {groove}}}")
    joined = s.pick(*ways)
    long, below = s.length(d / 2, d - 140), "12 mm"
    slides = (
        f"slides: {{clearance: 12.5 mm, length: {long}, height: 44 mm, up: case.shelf 1.top + 40 mm, setback: 2 mm}}"
    )
    strips = (
        f"runners: {{material: strips, height: 14 mm, depth: {s.length(thick / 3, thick / 2)}, length: {long}, "
        f"setback: {s.pick('0', '25 mm')}, stop: {s.pick('runner', 'front')}, screws: {{gauge: 4, length: 12 mm}}}}"
    )
    runs = s.pick(slides, strips, "on: {part: case.shelf 1}")
    if runs == strips:
        s.wood("strips", "14 mm")
    elif runs != slides:
        below = "0"
    opening = "across: [case.left.right, case.right.left], deep: [20 mm, depth - 20 mm], up: [case.shelf 1.top, case.shelf 2.bottom]"
    s.rooms["assemblies"]["drawer"] = (
        f"{{drawer: {{opening: {{{opening}}}, cases: [case.left, case.right], "
        "front: {material: front boards, thickness: front_thick, gap: 2 mm}, "
        f"box: {{material: box boards, thickness: side, length: {s.length(d / 2, d - 110)}, height: {s.say(high)}, below: {below}, "
        f"{joined}, bottom: {{material: thin ply, thickness: 6 mm, up: 12 mm, groove: {groove}, clearance: 0.5 mm}}}}, {runs}}}}}"
    )


def _door(s: Sketch, w: float, bays: int) -> None:
    s.size("frame", 16, 20)
    s.wood("frame stock", "frame")
    s.sheet("panes", "4 mm", "float glass")
    s.sheet("panel ply", "6 mm")
    filled = s.pick(
        "panel: {material: panel ply, thickness: 6 mm, groove: 9 mm, clearance: 1 mm}",
        "glass: {material: panes, thickness: 4 mm, rabbet: 9 mm, depth: 9 mm, clearance: 1 mm}",
    )
    joined = s.pick(
        "tenons: {thickness: 6 mm, length: 25 mm, outer: 12 mm}",
        "bridles: {}",
        "dowels: {diameter: 8 mm, count: 2, depth: 20 mm}",
    )
    opening = f"across: [case.left.right, case.right.left], deep: [0, depth], up: [case.shelf 1.top, case.shelf {bays + 1}.bottom]"
    hung = s.pick("", f", hinges: {{on: case.left, side: left, kind: 'butt hinge', count: {s.count(2, 3)}}}")
    s.rooms["assemblies"]["door"] = (
        f"{{door: {{opening: {{{opening}}}, thickness: frame, gap: 2 mm, material: frame stock, "
        f"width: {s.length(40, min(65, w / 6))}, {joined}, {filled}{hung}}}}}"
    )


def mitred(s: Sketch) -> None:
    """A mitred case, hung or on a raking stand."""
    s.title = "mitred case"
    w, h, d = s.size("width", 120, 1000), s.size("height", 80, 420), s.size("depth", 70, 420)
    board = s.size("board", max(9, w / 50), 22)
    s.wood("case boards", "board")
    joined = [""]
    joined.append(f", keys: {{count: {s.count(1, 4)}, thickness: 3 mm, depth: {s.length(board, board * 1.2)}}}")
    joined.append(f", spline: {{thickness: {s.length(2.5, max(3, board / 6))}, depth: {s.length(3, board / 3)}}}")
    boards = s.pick("[left, top, right]", "[left, top, right, bottom]")
    corner = f", corner: {s.length(board, board * 1.5)}" if s.chance(0.25) else ""
    up = "up: [0, height]"
    s.rooms["assemblies"]["case"] = (
        f"{{mitred case: {{box: {{across: [0, width], deep: [0, depth], {up}}}, material: case boards, thickness: board, "
        f"boards: {boards}{s.pick(*joined) if not corner else ''}{corner}}}}}"
    )
    if "bottom" in boards:
        s.size("back_thick", 3, 6)
        s.sheet("back ply", "back_thick")
        s.size("into", board / 3, board / 2.2)
        box = ("board - into, width - board + into", "depth - back_thick, depth", "board - into, height - board + into")
        s.part("back", "back ply", "across", box)
        s.add(
            "joints",
            "panel in rabbet: {panel: back, into: [case.left, case.top, case.right, case.bottom], stopped: yes}",
        )
        s.head["stands"] = "wall"
    if h > 150:
        s.part(
            "shelf",
            "case boards",
            "across",
            ("case.left.right, case.right.left", "0, depth - 6 mm", "height / 2, height / 2 + board"),
        )
        stop = s.pick("", f", stop: {{front: {s.length(6, d / 6)}}}")
        s.add(
            "joints",
            f"housing: {{shelf: shelf, into: [case.left, case.right], depth: {s.length(3, board / 3)}{stop}, through: back}}",
        )


def raking(s: Sketch) -> None:
    """A mitred case on a raking stand that is bolted to it."""
    s.title = "standing desk"
    _w, _d = s.size("width", 500, 1000), s.size("depth", 320, 480)
    s.size("case_up", 520, 640)
    h = s.size("case_high", 130, 200)
    s.size("board", 18, 24)
    _leg, _wide = s.size("leg_thick", 28, 36), s.size("leg_wide", 55, 75)
    s.wood("case boards", "board")
    s.wood("leg stock", "leg_thick")
    s.rooms["assemblies"]["case"] = (
        "{mitred case: {box: {across: [0, width], deep: [0, depth], up: [case_up, case_up + case_high]}, "
        f"material: case boards, thickness: board, boards: [left, top, right{s.pick('', ', bottom')}]}}}}"
    )
    lean, rear = s.count(8, 16), s.count(10, 20)
    at = "case_up + case_high"
    bolts = f", bolts: {{front: [{at} - 40 mm, {at} - {s.length(75, h - 25)}], rear: [{at} - {s.length(80, h - 20)}], thread: M6}}"
    tenons = f"tenons: {{thickness: 8 mm, width: 22 mm, depth: {s.length(14, 20)}, count: 2}}"
    bar = f"thickness: leg_thick, height: {s.length(45, 60)}, tenons: {{thickness: 8 mm, width: 24 mm, depth: 18 mm}}"
    stretcher = f", stretcher: {{material: leg stock, up: {s.length(150, 260)}, {bar}}}" if s.chance(0.6) else ""
    foot = f", foot radius: {s.length(4, 12)}" if s.chance(0.5) else ""
    s.rooms["assemblies"]["stand"] = (
        f"{{raking stand: {{left: case.left, right: case.right, material: leg stock, thickness: leg_thick, width: leg_wide, "
        f"top: {at} - {s.length(15, 25)}, front: {{lean: {lean} deg, through: {{deep: depth / 2, up: {at} - 40 mm}}}}, "
        f"rear: {{lean: {rear} deg, apex: {at} - {s.length(45, 70)}}}, {tenons}{foot}{bolts}{stretcher}}}}}"
    )


CASES = (case, leaning, housed, housed, mitred, raking)
