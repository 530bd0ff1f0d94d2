"""Frames, doors, boards that are joined edge to edge, and things that are screwed, bolted and hung."""

from __future__ import annotations

from tests.support.made_up.sketch import Sketch


def frame(s: Sketch) -> None:
    """Stiles and rails with panels, panes or open fields."""
    s.title = "frame"
    w, h = s.size("width", 150, 1000), s.size("height", 180, 2000)
    thick = s.size("thick", 14, 35)
    wide = s.size("wide", max(28, w / 14), min(110, w / 4.5))
    s.wood("frame stock", "thick")
    kind = s.pick("face frame", "frame and panel", "frame and panel")
    said = ["box: {across: [0, width], deep: [0, thick], up: [0, height]}", "material: frame stock", "width: wide"]
    if s.chance(0.4):
        said.append(f"bottom: {s.length(wide, wide * 1.6)}")
    middles = s.count(0, 2) if h > 6 * wide else 0
    if middles:
        spots = [f"height * {n} / {middles + 1}" for n in range(1, middles + 1)]
        said += [f"middle: [{', '.join(spots)}]", f"middle width: {s.length(wide * 0.7, wide)}"]
    third = s.length(thick / 3.5, thick / 2.5)
    tenons = f"tenons: {{thickness: {third}, length: {s.length(wide / 3, wide * 0.7)}, outer: {s.length(8, 14)}{s.pick('', ', rounded: yes')}}}"
    through = f"tenons: {{thickness: {third}, through: yes, outer: {s.length(8, 14)}}}"
    haunched = f"tenons: {{thickness: {third}, length: {s.length(wide / 2, wide * 0.7)}, outer: {s.length(10, 14)}, haunch: {s.length(6, 10)}}}"
    loose = f"loose tenons: {{thickness: {s.length(4, thick - 8)}, width: {s.length(10, wide / 2.2)}, depth: {s.length(12, wide / 2.5)}, wall: 3 mm}}"
    dowels = f"dowels: {{diameter: {s.pick('6 mm', '8 mm')}, count: 2, depth: {s.length(14, wide / 2)}}}"
    said.append(
        s.pick(
            tenons,
            tenons,
            through,
            haunched,
            loose,
            dowels,
            "bridles: {}",
            *(["half laps: yes"] if kind == "face frame" else []),
        )
    )
    if kind == "frame and panel":
        s.size("fill", 4, max(4.5, thick / 3))
        if s.chance(0.6):
            s.sheet("filling", "fill")
            said.append(
                f"panel: {{material: filling, thickness: fill, groove: {s.length(6, 11)}, clearance: {s.say(s.some(0.5, 2))}}}"
            )
        else:
            s.sheet("filling", "fill", "float glass")
            beads = ", beads: {material: bead strips}" if s.chance(0.6) else ""
            deep = s.some(thick * 0.45, thick * 0.6)
            if beads:
                s.wood("bead strips", f"{s.say(deep)} - fill")
            said.append(
                f"glass: {{material: filling, thickness: fill, rabbet: {s.length(6, 11)}, depth: {s.say(deep)}, clearance: 1 mm{beads}}}"
            )
    s.head["stands"] = "wall"
    s.rooms["assemblies"][s.pick("frame", "window", "panelled frame for the gable")] = (
        f"{{{kind}: {{{', '.join(said)}}}}}"
    )


def picture(s: Sketch) -> None:
    """Four mitred rails round a pane or a panel, with a backer."""
    s.title = "notice frame"
    w, h = s.size("width", 90, 1000), s.size("height", 90, 900)
    thick, wide = s.size("thick", 12, 30), s.size("wide", max(18, min(w, h) / 14), min(80, min(w, h) / 3.5))
    s.wood("frame boards", "thick")
    s.sheet("pane", "3 mm", "float glass")
    s.sheet("backing", "4 mm")
    deep = s.length(max(8, thick * 0.5), max(9, thick * 0.7))
    joined = [f", keys: {{count: 1, thickness: {s.length(1.5, 3)}, depth: {s.length(wide / 3, wide / 2)}}}", "", ""]
    joined.append(f", spline: {{thickness: {s.length(2.5, 4)}, depth: {s.length(5, wide / 5)}}}")
    joined.append(
        f", tenons: {{thickness: {s.length(3, thick / 3)}, width: {s.length(10, wide / 3)}, depth: {s.length(8, wide / 4)}, wall: 3 mm}}"
    )
    backer = ", backer: {material: backing, thickness: 4 mm}" if s.chance(0.5) else ""
    s.rooms["assemblies"]["frame"] = (
        "{frame round a panel: {box: {across: [0, width], deep: [0, thick], up: [0, height]}, material: frame boards, width: wide, "
        f"face: back, panel: {{material: pane, thickness: 3 mm, rabbet: {s.length(5, wide / 3)}, clearance: 1 mm, depth: {deep}}}{backer}{s.pick(*joined)}}}}}"
    )
    s.head["stands"] = "wall"


def boarded(s: Sketch) -> None:
    """Boards edge to edge with tongues or splines, on ledges that are screwed to them."""
    s.title = "ledged door"
    h = s.size("height", 250, 2000)
    many = s.count(3, 7)
    s.size("wide", 50, 140)
    thick = s.size("thick", 15, 28)
    s.wood("boards", "thick")
    s.size("ledge", 50, min(110, h / 4))
    s.head["stands"] = "wall"
    for n in range(many):
        s.part(
            f"board {n + 1}", "boards", "up", (f"{n} * wide, {n + 1} * wide", "0, thick", "0, height"), "show: front"
        )
    boards = ", ".join(f"board {n + 1}" for n in range(many))
    deep = s.length(6, 11)
    if s.chance(0.6):
        s.add(
            "joints",
            f"tongue and groove: {{boards: [{boards}], thickness: {s.length(thick / 3.5, thick / 2.5)}, length: {deep}}}",
        )
    else:
        s.add(
            "joints",
            f"spline: {{boards: [{boards}], thickness: {s.length(4, thick / 3)}, depth: {deep}{s.pick('', ', stopped: 30 mm')}}}",
        )
    rows = s.count(1, 3) if h > 500 else 1
    for r in range(1, rows + 1):
        up = f"height * {2 * r - 1} / {2 * rows}"
        s.part(
            f"ledge {r}",
            "boards",
            "across",
            (f"20 mm, {many} * wide - 20 mm", "thick, 2 * thick", f"{up} - ledge / 2, {up} + ledge / 2"),
        )
        for n in range(1, many + 1):
            middle = f"{n} * wide - wide / 2"
            at = f"{{across: {middle}, up: {up} - ledge / 4}}, {{across: {middle}, up: {up} + ledge / 4}}"
            s.add(
                "joints",
                f"screwed: {{through: ledge {r}, into: board {n}, at: [{at}], gauge: 8, length: {s.say(s.some(thick * 1.5, thick * 1.85))}}}",
            )
    if s.chance(0.5):
        s.add("edges", f"chamfer: {{part: [{boards}], along: [front left, front right], width: {s.length(1.5, 3)}}}")
    if s.chance(0.4):
        s.add(
            "edges",
            "curved edge: {part: board 1, face: front, edge: top, through: [{across: 0, up: height - 30 mm}, {across: wide / 2, up: height - 8 mm}, {across: wide, up: height}]}",
        )


def rack(s: Sketch) -> None:
    """A board with turned pegs in slanting sockets, or with a row of hooks' holes."""
    s.title = "peg rack"
    w, h = s.size("width", 150, 1600), s.size("height", 55, 160)
    thick = s.size("thick", 18, 32)
    peg = s.size("peg", 10, 18)
    s.size("peg_blank", peg + 6, peg + 14)
    s.wood("board", "thick")
    s.wood("squares", "peg_blank")
    s.head["stands"] = "wall"
    many = s.count(2, max(2, min(9, int(w / 90))))
    s.part("rail", "board", "across", ("0, width", "0, thick", "0, height"), "show: front")
    s.size("long", 70, 140)
    lean = s.count(5, 20)
    through = s.chance(0.5)
    s.formula("into", f"thick / cos({lean} deg)" if through else s.length(thick * 0.5, thick * 0.7))
    names = []
    for n in range(1, many + 1):
        x = f"width * {2 * n - 1} / {2 * many}"
        box = (
            f"{x} - peg_blank / 2, {x} + peg_blank / 2",
            "into - long, into",
            "height / 2 - peg_blank / 2, height / 2 + peg_blank / 2",
        )
        turn = f"turn: {{about: across, at: {{deep: 0, up: height / 2}}, by: -{lean} deg}}"
        s.part(f"peg {n}", "squares", "deep", box, turn)
        names.append(f"peg {n}")
    every = ", ".join(names)
    stations = f"{{at: 0, diameter: peg_blank}}, {{at: {s.length(8, 15)}, diameter: peg_blank}}, {{at: long - thick - 12 mm, diameter: peg}}, {{at: long, diameter: peg}}"
    s.add("operations", f"turned: {{part: [{every}], from: front, stations: [{stations}]}}")
    depth = "" if through else ", depth: into + 3 mm"
    s.add("joints", f"socket: {{part: [{every}], into: rail, diameter: peg{depth}{s.pick('', ', template: yes')}}}")
    s.add(
        "holes",
        "hole: {part: rail, face: front, diameter: 5 mm, countersink: 10 mm, at: [{across: 20 mm, up: height / 2}, {across: width - 20 mm, up: height / 2}], name: W}",
    )
    way = s.count(0, 3)
    if way == 0:
        s.add("edges", f"curved edge: {{part: rail, face: front, edge: top, rise: {s.length(6, h / 5)}, crown: yes}}")
    elif way == 1:
        s.add(
            "edges",
            f"corner radius: {{part: rail, face: front, along: [left top, right top], radius: {s.length(6, h / 2.5)}}}",
        )
    elif way == 2:
        s.add(
            "edges",
            f"round over: {{part: rail, along: [front top, front bottom, front left, front right], radius: {s.length(2, 8)}}}",
        )


def pocketed(s: Sketch) -> None:
    """Posts and rails with pocket screws, and a top on threaded inserts."""
    s.title = "work stand"
    w, _d, h = s.size("width", 280, 1200), s.size("depth", 220, 600), s.size("height", 200, 900)
    board = s.size("board", 18, 28)
    post, _rail = s.size("post", 50, 80), s.size("rail", 60, min(110, h / 2.5))
    s.wood("boards", "board")
    for side, deep in (("front", "0, board"), ("back", "depth - board, depth")):
        for end, across in (("left", "0, post"), ("right", "width - post, width")):
            s.part(f"{side} {end} post", "boards", "up", (across, deep, "0, height"), f"show: {side}")
        s.part(
            f"{side} rail",
            "boards",
            "across",
            (f"{side} left post.right, {side} right post.left", deep, "height - rail, height"),
        )
        inner = "back" if side == "front" else "front"
        jig = "jig: {bore: 9.5 mm, pilot: 3.6 mm, shoulder: 12 mm}"
        for end in ("left", "right"):
            at = f"{{up: height - rail * {s.pick('0.75', '0.7')}}}, {{up: height - rail * 0.25}}"
            s.add(
                "joints",
                f"pocket screws: {{through: {side} rail, into: {side} {end} post, face: {inner}, at: [{at}], length: {s.length(30, 36)}, {jig}}}",
            )
    for end, across in (("left", "0, board"), ("right", "width - board, width")):
        s.part(f"{end} cleat", "boards", "deep", (across, "front rail.back, back rail.front", "height - rail, height"))
        s.add(
            "joints",
            f"dowel: {{part: {end} cleat, into: front {end} post, diameter: 8 mm, count: 2, depth: {s.length(10, board * 0.6)}}}",
        )
        s.add(
            "joints",
            f"dowel: {{part: {end} cleat, into: back {end} post, diameter: 8 mm, count: 2, depth: {s.length(10, board * 0.6)}}}",
        )
    thick = s.size("top_thick", 20, 32)
    s.wood("top boards", "top_thick")
    s.part(
        "top",
        "top boards",
        "across",
        (
            f"-{s.length(5, 30)}, width + {s.length(5, 30)}",
            f"-{s.length(5, 30)}, depth + {s.length(5, 30)}",
            "height, height + top_thick",
        ),
        "show: top",
    )
    for side in ("front", "back"):
        slot = ", slot: {run: deep, length: 12 mm}" if s.chance(0.3) else ""
        at = ", ".join(
            f"{{across: {s.length(post + 20 + a * w, post + 30 + a * w)}, deep: {side} rail.front + board / 2}}"
            for a in (0.1, 0.5)
        )
        s.add(
            "joints",
            f"screwed: {{through: top, into: {side} rail, at: [{at}], gauge: 8, length: {s.length(thick + 20, thick + 28)}{slot}}}",
        )


def lapped(s: Sketch) -> None:
    """Two crossed pairs of legs with half laps, a bridled rail, and bolted cleats."""
    s.title = "sawhorse"
    _w, _h = s.size("width", 300, 1200), s.size("height", 250, 800)
    board, wide = s.size("board", 18, 38), s.size("wide", 45, 90)
    s.wood("boards", "board")
    for side, across in (("left", "0, board"), ("right", "width - board, width")):
        s.part(f"{side} post", "boards", "up", (across, "120 mm, 120 mm + wide", "0, height"), f"show: {side}")
        s.part(
            f"{side} foot",
            "boards",
            "deep",
            (across, "0, 240 mm + wide", f"{s.length(0.5, 30)}, {s.length(30, 31)} + wide"),
            f"show: {side}",
        )
        s.add("joints", f"half lap: {{over: {side} post, under: {side} foot, face: {side}}}")
        if s.chance(0.6):
            s.add(
                "edges", f"chamfer: {{part: {side} foot, along: [top front, top back], width: {s.length(5, wide / 3)}}}"
            )
    box = (
        "left post.right, right post.left",
        "120 mm, 120 mm + board",
        f"height - {s.length(60, 80)} - wide, height - {s.length(20, 50)}",
    )
    s.part("rail", "boards", "across", box, "show: front")
    way = s.count(0, 2)
    thick = s.length(board / 3, board / 2)
    if way == 0:
        s.add(
            "joints",
            f"mortise and tenon: {{end: rail, into: [left post, right post], thickness: {thick}, through: yes, shoulder: {{top: 8 mm, bottom: 8 mm}}}}",
        )
    elif way == 1:
        for post in ("left post", "right post"):
            s.add(
                "joints",
                f"dowel: {{part: rail, into: {post}, diameter: {s.pick('8 mm', '3/8 in')}, count: {s.count(2, 3)}, depth: {s.length(10, board * 0.7)}, depth into: {s.length(9, board * 0.6)}}}",
            )
    else:
        s.add("joints", f"housing: {{shelf: rail, into: [left post, right post], depth: {s.length(3, board / 3)}}}")
    s.part(
        "left cleat",
        "boards",
        "deep",
        ("left post.right, left post.right + board", "120 mm + board, 120 mm + wide + 60 mm", "height - 50 mm, height"),
    )
    s.add(
        "joints",
        f"bolted: {{through: left post, into: left cleat, at: [{{deep: 120 mm + board + {s.length(8, 14)}, up: height - 25 mm}}], thread: {s.pick('M6', '1/4-20 UNC', 'M5')}, head: {s.pick('button head', 'socket head')}}}",
    )


FRAMES = (frame, frame, picture, boarded, rack, pocketed, lapped)
