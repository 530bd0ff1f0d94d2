"""Boxes: finger, dovetail and mitred corners, rabbeted and screwed ones, with bottoms in grooves, lids, trays and dividers."""

from __future__ import annotations

from tests.support.made_up.sketch import Sketch


def box(s: Sketch) -> None:
    """Four walls with cut corners, a bottom in grooves, a lid now and then."""
    s.title = "box"
    w = s.size("width", *s.dice.choice([(60, 120), (120, 400), (400, 1000)]))
    d, h = s.size("depth", max(45, w * 0.3), w), s.size("height", max(24, w * 0.15), min(400, w * 0.8))
    wall = s.size("wall", max(4, w / 60), max(6, min(20, w / 18)))
    s.wood("walls", "wall")
    corners = s.pick("finger", "dovetail", "mitre", "rabbet")
    s.part("left side", "walls", "deep", ("0, wall", "0, depth", "0, height"), "show: left")
    s.part("right side", "walls", "deep", ("width - wall, width", "0, depth", "0, height"), "show: right")
    ends = "0, width" if corners != "rabbet" else "wall - lap, width - wall + lap"
    if corners == "rabbet":
        s.size("lap", wall / 3, wall / 2)
    for name, deep in (("front", "0, wall"), ("back", "depth - wall, depth")):
        s.part(name, "walls", "across", (ends, deep, "0, height"), f"show: {name}")
    s.size("bottom_thick", max(3, wall / 3), max(3, wall / 2))
    s.sheet("bottom ply", "bottom_thick")
    s.size("groove", max(1.5, wall / 3), wall / 2)
    s.size("bottom_up", max(4, wall / 3), max(5, min(12, h / 5)))
    reach = "wall - groove, {0} - wall + groove"
    s.part(
        "bottom",
        "bottom ply",
        "across",
        (reach.format("width"), reach.format("depth"), "bottom_up, bottom_up + bottom_thick"),
    )
    _corner_joint(s, corners, wall, h)
    clear = s.pick("", ", clearance: 0.5 mm")
    stopped = s.pick("", ", stopped: yes") if corners in ("finger", "dovetail") else ""
    s.add("joints", f"panel in groove: {{panel: bottom, into: [left side, right side]{clear}{stopped}}}")
    s.add("joints", f"panel in groove: {{panel: bottom, into: [front, back]{clear}}}")
    if s.chance(0.5):
        _lid(s, w, wall)
    if s.chance(0.35) and w > 150:
        _dividers(s, w, h, wall)
    if s.chance(0.35) and w > 250 and h > 90:
        size = "size: {deep: 90 mm, up: 25 mm}" if d > 160 else "size: {deep: 40 mm, up: 14 mm}"
        s.add(
            "operations",
            f"cut out: {{part: [left side, right side], face: left, at: {{deep: depth / 2, up: height - 35 mm}}, shape: slot, {size}, ease: 2 mm, label: hand hole}}",
        )


def _corner_joint(s: Sketch, corners: str, wall: float, h: float) -> None:
    if corners == "finger":
        odd = 2 * s.count(1, max(1, min(9, int(h / max(6, wall) / 2)))) + 1
        said = s.pick(
            f"count: {odd}", f"width: {s.length(max(4, h / 15), max(5, h / 5))}", f"count: {odd}, cut with: dado set"
        )
        s.add("joints", f"finger: {{outer: [left side, right side], inner: [front, back], {said}}}")
    elif corners == "dovetail":
        many = s.count(1, max(1, min(9, int(h / 22))))
        pin = s.length(max(3, h / many / 8), max(3, h / many / 4))
        s.add(
            "joints",
            f"dovetail: {{tails: [left side, right side], pins: [front, back], count: {many}, slope: {s.pick('1:8', '1:6', '1:7')}, pin: {pin}}}",
        )
    elif corners == "mitre":
        keys = f", keys: {{count: {s.count(1, max(1, min(4, int(h / 30))))}, thickness: {s.length(1.5, 3)}, depth: {s.length(wall, wall * 1.25)}}}"
        spline = f", spline: {{thickness: {s.length(wall / 7, wall / 5)}, depth: {s.length(wall / 5, wall / 3)}}}"
        said = s.pick("", keys, keys, spline if wall > 12 else keys)
        for end in ("left side", "right side"):
            for board in ("front", "back"):
                s.add("joints", f"mitre: {{parts: [{end}, {board}]{said}}}")
    else:
        for end, face in (("left side", "right"), ("right side", "left")):
            s.add("operations", f"rabbet: {{part: {end}, along: [{face} front, {face} back], into: lap, on: wall}}")
        s.add("joints", f"fixed: {{parts: [front, back], with: brads, size: 1 × 16 mm, count: {s.count(8, 16)}}}")


def _lid(s: Sketch, w: float, wall: float) -> None:
    s.size("gap", 0.5, 1)
    s.part("lid", "walls", "across", ("0, width", "0, depth", "height + gap, height + gap + wall"), "show: top")
    if w > 180 and wall > 9:
        hinge = "hinge: {length: 30 mm, leaf: 9 mm, thickness: 1 mm, barrel: 4 mm, out: 2.5 mm, gauge: 2, screw: 8 mm}"
        at = "at: [{across: width / 5}, {across: width * 4 / 5}]"
        s.add("joints", f"hinge: {{turns: lid, on: back, barrel at: back, {at}, opens: {s.count(80, 110)}, {hinge}}}")
    else:
        s.add(
            "operations", "rabbet: {part: lid, along: [bottom left, bottom right], into: wall / 3, on: wall + 0.5 mm}"
        )
        s.add(
            "operations", "rabbet: {part: lid, along: [bottom front, bottom back], into: wall / 3, on: wall + 0.5 mm}"
        )
    if s.chance(0.5):
        s.add(
            "edges",
            f"{s.pick('round over', 'chamfer')}: {{part: lid, along: [top front, top left, top right], {'radius'}: {s.length(1, wall / 3)}}}".replace(
                "chamfer: {part: lid, along: [top front, top left, top right], radius",
                "chamfer: {part: lid, along: [top front, top left, top right], width",
            ),
        )


def _dividers(s: Sketch, w: float, h: float, wall: float) -> None:
    """Thin boards across the box in housings, or two that cross each other."""
    s.size("thin", max(3, wall / 3), max(4, wall * 0.7))
    s.wood("thin boards", "thin")
    top = f"bottom_up + bottom_thick, height - {s.length(4, h / 4)}"
    many = s.count(1, min(4, int(w / 70)))
    step = "(width - 2 * wall) / " + str(many + 1)
    for n in range(1, many + 1):
        at = f"wall + {n} * {step}"
        s.part(
            f"divider {n}", "thin boards", "deep", (f"{at} - thin / 2, {at} + thin / 2", "front.back, back.front", top)
        )
        s.add(
            "joints",
            f"housing: {{shelf: divider {n}, into: [front, back], depth: {s.length(1.5, wall / 3)}, through: top}}",
        )


def crate(s: Sketch) -> None:
    """Slats screwed round two ends; the ends glued up by splines or tongue and groove."""
    s.title = "crate"
    _w, d, h = s.size("width", 200, 900), s.size("depth", 120, 450), s.size("height", 100, 450)
    _end, slat = s.size("end", 14, 24), s.size("slat", 8, 15)
    s.wood("ends", "end")
    s.wood("slats", "slat")
    many = s.count(1, min(4, int(h / 60)))
    s.size("wide", h / many * 0.6, h / many * 0.95)
    s.part("left end", "ends", "deep", ("0, end", "0, depth", "0, height"), "show: left")
    s.part("right end", "ends", "deep", ("width - end, width", "0, depth", "0, height"), "show: right")
    s.part(
        "front slat",
        "slats",
        "across",
        ("0, width", "-slat, 0", "0, wide"),
        f"repeat: {{along: up, count: {many}, spread: [0, height]}}" if many > 1 else "",
    )
    s.rooms["mirrors"]["back slat"] = "{of: front slat, about: {deep: depth / 2}}"
    floor = s.count(1, min(5, int(d / 50)))
    s.size("floor_wide", d / floor * 0.6, d / floor * 0.9)
    s.part(
        "floor",
        "slats",
        "across",
        ("0, width", "0, floor_wide", "-slat, 0"),
        f"repeat: {{along: deep, count: {floor}, spread: [0, depth]}}" if floor > 1 else "",
    )
    long = s.length(slat + 20, slat + 28)
    for n in range(1, many + 1):
        name = f"front slat.{n}" if many > 1 else "front slat"
        for across, into in (("end / 2", "left end"), ("width - end / 2", "right end")):
            at = ", ".join(f"{{across: {across}, up: {name}.bottom + wide * {part}}}" for part in (0.25, 0.75))
            s.add(
                "joints",
                f"screwed: {{through: {name}, into: {into}, at: [{at}], gauge: {s.pick('4', '6')}, length: {long}, pilot: softwood}}",
            )
    if s.chance(0.6):
        size = "size: {deep: 90 mm, up: 28 mm}"
        if d > 150 and h > 120:
            s.add(
                "operations",
                f"cut out: {{part: [left end, right end], face: left, at: {{deep: depth / 2, up: height - 40 mm}}, shape: {s.pick('slot', 'ellipse')}, {size}, label: hand hole}}",
            )
    if s.chance(0.4):
        s.add(
            "operations",
            f"taper: {{part: [left end, right end], face: [top], end: front, run: depth / 2, amount: {s.length(5, h / 6)}}}",
        )


BOXES = (box, box, box, crate)
