"""Stools, benches and racks whose sides lean to what stands between them, housed in leaning or in plain dados."""

from __future__ import annotations

from tests.support.made_up.sketch import Sketch

TURN = "turn: {{about: {about}, at: {{{at}}}, by: {by}}}"


def leaning(s: Sketch) -> None:
    """Two sides that lean toward each other about the depth, or that stand askew in plan."""
    s.title = s.pick("step stool", "bench", "rack")
    w, h, d = s.size("width", 260, 900), s.size("height", 180, 650), s.size("depth", 110, 400)
    board = s.size("board", 14, 26)
    s.wood("boards", "board")
    s.formula("lean", f"{s.count(6, 30) / 2:g} deg")
    s.formula("inward", "tan(lean)")
    s.size("housing", board / 4, board / 3)
    if s.chance(0.25):
        _in_plan(s, w, h)
        return
    s.formula("past", "board * inward")
    s.formula("long", "height / cos(lean)")
    span = ("-board, 0", "0, depth", "-past, long")
    s.part("left side", "boards", "up", span, _turned("deep", "across: 0, up: 0", "lean") + ", show: left")
    if mirrored := s.chance(0.6):
        s.rooms["mirrors"]["right side"] = "{of: left side, about: {across: width / 2}}"
    else:
        span = ("width, width + board", "0, depth", "-past, long")
        s.part("right side", "boards", "up", span, _turned("deep", "across: width, up: 0", "-lean") + ", show: right")
    for side in ("left side",) if mirrored else ("left side", "right side"):
        s.add("joints", f"level ends: {{part: {side}, bottom: 0, top: height}}")
    seat = s.chance(0.4)
    joint = _housing(s, board, d, stopped=not seat)
    many, low = s.count(1, 3), s.some(h / 6, h / 4)
    step = (h - float(low) - 2 * board) / many
    for n in range(many):
        up = s.say(s.some(float(low) + n * step, float(low) + (n + 0.5) * step))
        _tread(s, f"tread {n + 1}", up, joint)
    if seat:
        _tread(s, "seat", "height - board", joint)
    if s.chance(0.4) and step > 120:
        _rail(s, float(low), board, d)


def _turned(about: str, at: str, by: str) -> str:
    return TURN.format(about=about, at=at, by=by)


def _tread(s: Sketch, name: str, up: str, joint: str) -> None:
    across = f"({up}) * inward, width - ({up}) * inward"
    s.part(name, "boards", "across", (across, "0, depth", f"{up}, {up} + board"), "show: top")
    s.add("joints", f"housing: {{shelf: {name}, into: [left side, right side], {joint}}}")
    if s.chance(0.3):
        s.add("edges", f"round over: {{part: {name}, along: top front, radius: 3 mm}}")


def _rail(s: Sketch, low: float, board: float, d: float) -> None:
    """A rail on edge under the lowest tread: its ends slant, its dados are plain ones."""
    deep = s.length(d / 3, d / 2)
    top = s.say(s.some(low * 0.8, low * 0.85))
    under = s.say(s.some(low * 0.2, low * 0.3))
    across = f"({under}) * inward, width - ({under}) * inward"
    s.part("rail", "boards", "across", (across, f"{deep}, {deep} + board", f"{under}, {top}"))
    s.add("joints", "housing: {shelf: rail, into: [left side, right side], depth: housing}")


def _housing(s: Sketch, board: float, d: float, *, stopped: bool) -> str:
    said = ["depth: housing"]
    if s.chance(0.4):
        said.append(f"tongue: {s.length(board * 0.5, board * 0.7)}")
        said.append(s.pick("flush: bottom", "flush: top", "fat: 0.5 mm"))
    if stopped and s.chance(0.6):
        said.append(f"stop: {{front: {s.length(8, d / 6)}}}")
    return ", ".join(said)


def _in_plan(s: Sketch, w: float, h: float) -> None:
    """Sides that stand upright, further apart in front: shelves have slanting ends, the dados are plain."""
    span = ("-board, 0", "0, depth", "0, height")
    s.part("left side", "boards", "up", span, _turned("up", "across: 0, deep: 0", "-lean"))
    span = ("width, width + board", "0, depth", "0, height")
    s.part("right side", "boards", "up", span, _turned("up", "across: width, deep: 0", "lean"))
    back = "depth * cos(lean) - board"
    for n in range(s.count(1, 3)):
        up = s.say(s.some(h * (0.1 + 0.28 * n), h * (0.2 + 0.28 * n)))
        s.part(f"shelf {n + 1}", "boards", "across", ("0, width", f"0, {back}", f"{up}, {up} + board"), "show: top")
        s.add(
            "joints", f"housing: {{shelf: shelf {n + 1}, into: [left side, right side], depth: housing, through: back}}"
        )
