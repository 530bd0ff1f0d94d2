"""Legs and rails: table bases, benches with tenons, dowels and cross dowels, trestles with half laps, splayed stools."""

from __future__ import annotations

from tests.support.made_up.sketch import Sketch


def table(s: Sketch) -> None:
    """A table base, upright, tapered or splayed, with a top on it."""
    s.title = "table"
    w, d, h = s.size("width", 220, 2400), s.size("depth", 200, 900), s.size("height", 180, 760)
    thick = s.size("top_thick", 14, 30)
    leg = s.size("leg", max(26, h / 18), max(32, min(80, h / 8)))
    s.size("over", 0.5 + leg / 4, min(60, w / 8, d / 8) + leg / 4)
    apron = s.size("apron", max(35, h / 9), min(120, h / 4))
    board = s.size("board", max(12, leg / 3), min(25, leg * 0.6))
    s.wood("boards", "board")
    s.wood("squares", "leg")
    s.wood("top boards", "top_thick")
    leans, tapered = s.chance(0.3), False
    tenon = s.say(s.some(board / 3, board / 2))
    mortised = f"tenons: {{thickness: {tenon}, length: {s.length(leg / 3, leg / 2)}, above: {s.length(9, 14)}, below: {s.length(5, 9)}}}"
    loose = (
        f"loose tenons: {{thickness: {s.length(4, board - 9)}, width: {s.length(12, min(35, apron - 12))}, "
        f"depth: {s.length(leg / 4, leg / 3)}, wall: 3 mm}}"
    )
    joined = loose if leans else s.pick(mortised, mortised, loose)
    said = [
        "box: {across: [over, width - over], deep: [over, depth - over], up: [0, height - top_thick]}",
        "legs: {material: squares, size: leg}",
        f"aprons: {{material: boards, thickness: board, width: apron{s.pick('', f', set back: {s.length(2, 6)}')}, {joined}}}",
    ]
    if leans:
        said.append(f"splay: {{across: {s.count(2, 10)} deg, deep: {s.count(2, 10)} deg}}")
    elif tapered := s.chance(0.5):
        said.append(f"taper: {{foot: {s.length(leg / 2, leg * 0.7)}, under: {s.length(10, 40)}}}")
    if s.chance(0.4) and h > 350 and not tapered:
        rail = loose if leans else mortised
        sides = s.pick("", ", sides: [front, back, left, right]", ", sides: [left, right]")
        said.append(
            f"stretchers: {{material: boards, thickness: board, width: {s.length(35, 60)}, up: {s.length(60, h / 4)}{sides}, {rail}}}"
        )
    s.rooms["assemblies"]["base"] = f"{{table base: {{{', '.join(said)}}}}}"
    s.part("top", "top boards", "across", ("0, width", "0, depth", "height - top_thick, height"), "show: top")
    if not leans and board > 16 and s.chance(0.6):
        button = "button: {length: 40 mm, width: 25 mm, thickness: 16 mm, tongue: {t} mm}, slot: {width: 8 mm, depth: {t} mm}".replace(
            "{t}", "9" if d < 400 else "14"
        )
        s.add(
            "joints",
            f"buttons: {{top: top, aprons: [base.front apron, base.left apron, base.back apron, base.right apron], {button}, "
            f"spacing: {s.length(150, 300)}, ends: {s.length(40, 55)}, screw: {s.length(20, thick + 10)}}}",
        )
    if s.chance(0.3):
        s.add("edges", "round: {part: top, face: top}")
    elif s.chance(0.5):
        s.add(
            "edges",
            f"{s.pick('round over', 'cove')}: {{part: top, along: [top front, top back, top left, top right], radius: 3 mm}}",
        )
    if s.chance(0.3):
        s.add(
            "edges",
            f"curved edge: {{part: base.front apron, face: front, edge: bottom, rise: {s.length(5, apron / 4)}}}",
        )


LEGS = {
    "front left leg": ("0, leg", "0, leg"),
    "front right leg": ("width - leg, width", "0, leg"),
    "back left leg": ("0, leg", "depth - leg, depth"),
    "back right leg": ("width - leg, width", "depth - leg, depth"),
}


def bench(s: Sketch) -> None:
    """Four legs and four rails said one by one, with joints of one kind, and slats or a seat on them."""
    s.title = "bench"
    w, d, h = s.size("width", 260, 2400), s.size("depth", 200, 520), s.size("height", 150, 900)
    leg = s.size("leg", max(30, h / 20), 70)
    rail, board = s.size("rail", max(40, h / 10), min(140, h / 3)), s.size("board", max(16, leg / 3), leg * 0.55)
    s.size("back_off", 1, leg - board - 1)
    s.wood("squares", "leg")
    s.wood("boards", "board")
    for name, (across, deep) in LEGS.items():
        s.part(name, "squares", "up", (across, deep, "0, height"), "show: " + s.pick("front", "left"))
    up = s.pick(
        "height - rail, height",
        "height - rail - 10 mm, height - 10 mm",
        f"{s.length(h / 6, h / 4)}, {s.length(h / 6, h / 4)} + rail",
    )
    if "+" in up:
        low = s.length(h / 6, h / 4)
        up = f"{low}, {low} + rail"
    rails = {
        "front rail": ("front left leg", "front right leg", "across", "back_off, back_off + board"),
        "back rail": ("back left leg", "back right leg", "across", "depth - back_off - board, depth - back_off"),
        "left rail": ("front left leg", "back left leg", "deep", "back_off, back_off + board"),
        "right rail": ("front right leg", "back right leg", "deep", "width - back_off - board, width - back_off"),
    }
    said = _rail_joint(s, leg, rail, board)
    for name, (one, two, grain, deep) in rails.items():
        between = f"{one}.right, {two}.left" if grain == "across" else f"{one}.back, {two}.front"
        box = (between, deep, up) if grain == "across" else (deep, between, up)
        s.part(name, "boards", grain, box)
        for text in said(name, one, two):
            s.add("joints", text)
    if up == "height - rail, height":
        _slats(s, w, d)
    if s.chance(0.4):
        s.add(
            "edges",
            f"chamfer: {{part: [{', '.join(LEGS)}], along: [bottom front, bottom back, bottom left, bottom right], width: 3 mm}}",
        )


def _rail_joint(s: Sketch, leg: float, rail: float, board: float):  # type: ignore[no-untyped-def]
    """Return what says the joints of a rail."""
    way = s.count(0, 3)
    thick, long = s.length(board / 3, board / 2), s.length(leg / 4, leg / 2.2)
    wide, deep, screw = s.length(14, min(40, rail - 14)), s.length(12, leg / 2.4), s.length(0.4 * leg, 0.7 * leg)
    extra = s.pick(
        ", rounded: yes, shoulder: {top: 8 mm}", ", shoulder: {top: 10 mm}", ", shoulder: {top: 12 mm, bottom: 6 mm}"
    )
    through = s.chance(0.25)
    wedged = ", wedges: {by: 2 mm}" if s.chance(0.5) else ""
    fixed = f"through: yes{wedged}" if through else f"length: {long}"
    count = s.count(1, max(1, int(rail / 40)))

    def said(name: str, one: str, two: str) -> list[str]:
        if way == 0:
            return [f"mortise and tenon: {{end: {name}, into: [{one}, {two}], thickness: {thick}, {fixed}{extra}}}"]
        if way == 1:
            return [
                f"loose tenon: {{end: {name}, into: {post}, thickness: {s.length(5, board - 9)}, width: {wide}, depth: {deep}, wall: 4 mm}}"
                for post in (one, two)
            ]
        if way == 2:
            return [
                f"dowel: {{part: {name}, into: {post}, diameter: {s.pick('8 mm', '10 mm')}, count: {count}, depth: {deep}}}"
                for post in (one, two)
            ]
        return [
            f"mortise and tenon: {{end: {name}, into: [{one}, {two}], thickness: {thick}, length: {screw}, haunch: {{top: 8 mm}}, shoulder: {{top: 14 mm}}}}"
        ]

    return said


def _slats(s: Sketch, w: float, d: float) -> None:
    """Lay slats or one seat on the rails and screw them down."""
    thick = s.size("slat_thick", 14, 24)
    s.wood("slat boards", "slat_thick")
    many = s.count(2, min(9, int(d / 45)))
    wide = d / many * 0.8
    s.size("slat", wide * 0.8, wide)
    top = "height, height + slat_thick"
    more = f"repeat: {{along: deep, count: {many}, spread: [0, depth]}}"
    s.part("slat", "slat boards", "across", ("0, width", "0, slat", top), more)
    middle = "slat.{n}.front + slat / 2"
    for n in range(1, many + 1):
        if not 40 < (n - 0.5) * d / many < d - 40:
            continue
        for rail in ("left rail", "right rail"):
            where = f"{{across: {rail}.left + board / 2, deep: {middle.format(n=n)}}}"
            s.add(
                "joints",
                f"screwed: {{through: slat.{n}, into: {rail}, at: [{where}], gauge: 8, length: {s.say(s.some(thick + 18, thick + 26))}}}",
            )


def trestle(s: Sketch) -> None:
    """Solid ends, a seat in housings and a wedged or cross-dowelled stretcher."""
    s.title = "plank bench"
    w, d, h = s.size("width", 300, 2400), s.size("depth", 160, 450), s.size("height", 200, 500)
    board = s.size("board", 18, 40)
    s.wood("planks", "board")
    s.size("over", 20, w / 8)
    s.part(
        "left end", "planks", "up", ("over, over + board", "10 mm, depth - 10 mm", "0, height - board"), "show: left"
    )
    s.part(
        "right end",
        "planks",
        "up",
        ("width - over - board, width - over", "10 mm, depth - 10 mm", "0, height - board"),
        "show: right",
    )
    s.part("seat", "planks", "across", ("0, width", "0, depth", "height - board, height"), "show: top")
    s.size("rail", 50, min(110, h / 3))
    up = s.length(h / 4, h / 3)
    between = "left end.right, right end.left"
    s.part(
        "stretcher", "planks", "across", (between, "depth / 2 - board / 2, depth / 2 + board / 2", f"{up}, {up} + rail")
    )
    thick = s.length(board / 3, board / 2)
    way = s.count(0, 2)
    if way == 0:
        s.add(
            "joints",
            f"mortise and tenon: {{end: stretcher, into: [left end, right end], thickness: {thick}, through: yes, "
            f"shoulder: {{top: {s.length(6, 12)}, bottom: {s.length(6, 12)}}}{s.pick('', ', wedges: {by: 2 mm}')}}}",
        )
    elif way == 1:
        dowel = "dowel: {diameter: 10 mm, length: 14 mm}, thread: M6"
        for end in ("left end", "right end"):
            s.add(
                "joints",
                f"cross dowel: {{through: {end}, into: stretcher, at: [{{deep: depth / 2, up: {up} + rail / 2}}], face: back, "
                f"set back: {s.length(28, 40)}, {dowel}}}",
            )
    else:
        for end in ("left end", "right end"):
            s.add(
                "joints",
                f"dowel: {{part: stretcher, into: {end}, diameter: 10 mm, count: 2, depth: {s.length(12, board * 0.6)}}}",
            )
    for end in ("left end", "right end"):
        if s.chance(0.5):
            s.add(
                "joints",
                f"housing: {{shelf: {end}, into: seat, depth: {s.length(4, board / 3)}, stop: {{front: {s.length(10, d / 5)}, back: {s.length(10, d / 5)}}}}}",
            )
        else:
            at = ", ".join(
                f"{{across: {end}.left + board / 2, deep: {s.length(a * d, a * d + 10)}}}" for a in (0.2, 0.75)
            )
            plug = s.pick("", ", plug: {diameter: 10 mm, depth: 5 mm}")
            s.add(
                "joints",
                f"screwed: {{through: seat, into: {end}, at: [{at}], gauge: 10, length: {s.length(board + 25, board + 35)}{plug}}}",
            )
    if s.chance(0.6):
        rise = s.length(8, min(h / 4, d / 6))
        s.add(
            "edges",
            f"curved edge: {{part: [left end, right end], face: left, edge: bottom, rise: {rise}, deep: [{s.length(30, d / 4)}, {s.length(d * 0.7, d * 0.8)}]}}",
        )
    if s.chance(0.5):
        s.add(
            "edges",
            f"corner radius: {{part: seat, face: top, along: [left front, right front, left back, right back], radius: {s.length(8, d / 6)}}}",
        )
    if s.chance(0.4):
        size = "size: {across: 100 mm, deep: 30 mm}"
        s.add(
            "operations",
            f"cut out: {{part: seat, face: top, at: {{across: width / 2, deep: depth / 2}}, shape: slot, {size}, label: hand hole}}",
        )
    if s.chance(0.4):
        s.add(
            "operations",
            f"bevel: {{part: [left end, right end], end: [front, back], long point: left, angle: {s.count(3, 12)} deg}}",
        )


def stool(s: Sketch) -> None:
    """A seat on three or four turned legs that lean both ways."""
    s.title = "splayed stool"
    h, seat = s.size("height", 180, 700), s.size("seat", 200, 420)
    s.size("thick", 26, 45)
    deep = s.size("seat_deep", seat * 0.7, seat)
    if round_seat := s.chance(0.6):
        s.rooms["sizes"]["seat_deep"] = "seat"
        deep = seat
    tenon = s.size("tenon", 18, 28)
    s.size("blank", tenon + 7, tenon + 16)
    rake, splay = s.count(4, 16), s.count(4, 14)
    sizes = {
        "lean": f"atan(sqrt(tan({rake} deg) * tan({rake} deg) + tan({splay} deg) * tan({splay} deg)))",
        "sight": f"atan(tan({splay} deg) / tan({rake} deg))",
        "under": "height - thick",
        "reach": "under / cos(lean)",
        "half": "blank / 2",
    }
    for name, text in sizes.items():
        s.formula(name, text)
    long = s.size("long", (h + 40) * 1.11, (h + 60) * 1.13)
    s.formula("low", "under - reach - (long - reach - thick / cos(lean) - 10 mm)")
    s.wood("boards", "thick")
    s.wood("squares", "blank")
    s.part("seat", "boards", "across", ("0, seat", "0, seat_deep", "under, height"), "show: top")
    legs = {
        "front left leg": ("seat * 0.27", "seat_deep * 0.26", "180 deg - sight"),
        "front right leg": ("seat * 0.73", "seat_deep * 0.26", "180 deg + sight"),
    }
    if s.chance(0.3):
        legs["back leg"] = ("seat / 2", "seat_deep * 0.76", "0 deg")
    else:
        legs |= {
            "back left leg": ("seat * 0.27", "seat_deep * 0.74", "sight"),
            "back right leg": ("seat * 0.73", "seat_deep * 0.74", "-sight"),
        }
    for name, (x, y, by) in legs.items():
        box = (f"{x} - half, {x} + half", f"{y} - half, {y} + half", "low, low + long")
        turns = [
            f"{{about: across, at: {{deep: {y}, up: under}}, by: lean}}",
            f"{{about: up, at: {{across: {x}, deep: {y}}}, by: {by}}}",
        ]
        s.part(name, "squares", "up", box, f"turn: [{', '.join(turns)}]")
    every = ", ".join(legs)
    neck = [
        f"{{at: {s.length(long * 0.3, long * 0.5)}, diameter: blank}}",
        f"{{at: long - thick / cos(lean) - 30 mm, diameter: tenon + {s.length(1, 4)}}}",
    ]
    if s.chance(0.4):
        neck[1] = neck[1][:-1] + ", to next: bead, swell: 3 mm}"
        neck.append("{at: long - thick / cos(lean) - 18 mm, diameter: tenon + 2 mm}")
    ends = "{at: long - thick / cos(lean) - 12 mm, diameter: tenon}, {at: long, diameter: tenon}"
    s.add(
        "operations",
        f"turned: {{part: [{every}], from: bottom, stations: [{{at: 0, diameter: {s.length(tenon * 0.8, tenon)}}}, {', '.join(neck)}, {ends}]}}",
    )
    s.add("joints", f"socket: {{part: [{every}], into: seat, diameter: tenon{s.pick('', ', template: yes')}}}")
    for name in legs:
        s.add("joints", f"level ends: {{part: {name}, top: height, bottom: 0, stage: fitted, flush with: seat}}")
    if round_seat:
        s.add("edges", f"round: {{part: seat, face: bottom, rim: [top, bottom], rim radius: {s.length(3, 6)}}}")
    elif s.chance(0.5):
        s.add(
            "edges",
            f"corner radius: {{part: seat, face: top, along: [left front, right front, left back, right back], radius: {s.length(10, deep / 8)}}}",
        )


TABLES = (table, table, bench, bench, trestle, stool)
