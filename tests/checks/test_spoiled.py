"""Each check fires on a spoiled copy of an example and is silent on the good one.

A spoiled copy is the example's own text with a few statements put in, lines replaced or sizes set. One copy may serve
several codes. Codes that no file can bring about are listed with the reason; their own tests fire them.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import pytest

from docgen.checks.run import codes
from docgen.reading.problems import Problems
from tests.checks.test_examples import found, text_of


@dataclass(frozen=True)
class Spoil:
    """A copy of an example: what is put in under its sections, texts replaced, and sizes that are set."""

    example: str
    codes: tuple[str, ...]
    puts: tuple[tuple[str, str], ...] = ()  # section, statements
    replaced: tuple[tuple[str, str], ...] = ()
    sizes: tuple[tuple[str, str], ...] = ()

    def text(self) -> str:
        """Return the spoiled text."""
        text = text_of(self.example)
        for old, new in self.replaced:
            assert old in text, old
            text = text.replace(old, new)
        for section, statements in self.puts:
            head = f"\n{section}:\n"
            lines = "".join(f"  {line.strip()}\n" for line in statements.strip().splitlines())
            text = text.replace(head, head + lines, 1) if head in text else f"{text.rstrip()}\n{section}:\n{lines}"
        return text


def desk(*named: str, **sizes: str) -> Spoil:
    """Return a desk with some of its sizes set."""
    return Spoil("sketching-desk", named, sizes=tuple(sizes.items()))


def wall(*named: str, **puts: str) -> Spoil:
    """Return a spoiled wall shelf: sides 20 thick and 260 high, 760 apart; a shelf at 180 and a rail behind it."""
    return Spoil("wall-shelf", named, tuple(puts.items()))


def chest(code: str, old: str, new: str) -> Spoil:
    """Return a spoiled chest: drawers with sides 14 thick, grooved 6 deep for their runners, housings 5 deep inside."""
    return Spoil("seed-chest", (code,), replaced=((old, new),))


SLIPS = "slips: {species: American beech, thickness: %s}"
SLIP = "slip: {of: slips, grain: across, box: {across: [100, 700], deep: [%s, 160], up: [130, 160]}}"
CLEAT = "cleat: {of: slips, grain: across, box: {across: [left side.right, 400], deep: [0, 180], up: [40, 52]}}"
BLOCK = "block: {of: slips, grain: across, box: {across: [100, 300], deep: [40, 120], up: [140, 180]}}"
BOLT = "- bolted: {through: shelf, into: block, at: {across: 200, deep: 80}, thread: M6%s}"
ABOVE = "lid: {of: slips, grain: across, box: {across: [20, 780], deep: [0, 180], up: [%s]}}"
SHUT = """
lid: {of: slips, grain: across, box: {across: [0, 800], deep: [0, 180], up: [260, 300]}}
front: {of: slips, grain: across, box: {across: [0, 800], deep: [-40, 0], up: [180, 300]}}
behind: {of: slips, grain: across, box: {across: [0, 800], deep: [180, 220], up: [180, 300]}}
"""
FLAP = "flap: {of: boards, grain: across, box: {across: [left side.right + 1, right side.left - 1], deep: [100, 145], up: [60, 80]}}"
PIVOT = """
- pivot: {sleeve in: [left side, right side], bolt in: [flap, flap], at: {deep: 120, up: 70}, thread: M6,
    sleeve: {outside: 9, inside: 6}, spacer: 1, swings: {name: flap, parts: [flap], angle: 60 deg, lifts: front}}
"""
FRAMED = """
bottom rail: {of: boards, grain: across, box: {across: [0, 300], deep: [300, 320], up: [0, 40]}}
top rail: {of: boards, grain: across, box: {across: [0, 300], deep: [300, 320], up: [160, 200]}}
left stile: {of: boards, grain: up, box: {across: [0, 40], deep: [300, 320], up: [0, 200]}}
right stile: {of: boards, grain: up, box: {across: [260, 300], deep: [300, 320], up: [0, 200]}}
"""
GLASS = "glass: {sheet: float glass, thickness: 4}"
PANE = "pane: {of: glass, grain: across, box: {across: [33, 267], deep: [%s], up: [33, 167]}}"
IN_FRAME = "- panel in frame: {panel: pane, frame: [left stile, top rail, right stile, bottom rail], clearance: %s}"
FLOATING = "panel: {of: slips, grain: up, box: {across: [36, 264], deep: [306, 314], up: [36, 164]}}"
IN_GROOVES = "- panel in groove: {panel: panel, into: [left stile, right stile], clearance: 0.2}"
BOARDS = """
thin: {species: American beech, thickness: 22, bought: 3/4}
rough: {species: American beech, thickness: 22, bought: 4/4}
tight: {species: American beech, thickness: 20, bought: 4/4}
short: {species: American beech, thickness: 20, stock: [300, 200]}
slab: {sheet: steel, thickness: 60}
"""
CUT_OF_THEM = """
one: {of: thin, grain: across, box: {across: [0, 400], deep: [300, 322], up: [0, 100]}}
two: {of: rough, grain: across, box: {across: [0, 400], deep: [300, 322], up: [200, 300]}}
three: {of: tight, grain: across, box: {across: [0, 400], deep: [300, 320], up: [400, 500]}}
four: {of: short, grain: across, box: {across: [0, 400], deep: [300, 320], up: [600, 700]}}
five: {of: slab, grain: across, box: {across: [0, 700], deep: [300, 360], up: [800, 900]}}
"""
SHOP = """
saw depth at 45: 3/4
gauge: 59 deg
planer: 15
drill reach: 1
taps: [M6]
clamps: 2
clamp: 6
router speed: 18000
"""

SPOILED = (
    # -- holes and screws
    wall("hole-near-edge", holes="- hole: {part: left side, face: left, at: {up: 100, deep: 8}, diameter: 8, depth: 10}"),
    wall("hole-breaks-out", holes="- hole: {part: left side, face: left, at: {up: 100, deep: 8}, diameter: 8, depth: 10}",
         operations="- rabbet: {part: left side, along: [left front], into: 18, on: 6}"),
    wall("hole-near-end", holes="- hole: {part: left side, face: left, at: {up: 12, deep: 90}, diameter: 6, depth: 10, purpose: pilot}"),
    wall("holes-meet", holes="""
        - hole: {part: left side, face: left, at: {up: 100, deep: 30}, diameter: 6, depth: 15, purpose: pilot}
        - hole: {part: left side, face: back, at: {up: 100, across: 10}, diameter: 6, depth: 160, purpose: pilot}"""),
    wall("holes-close",
         holes="- hole: {part: left side, face: left, at: [{up: 100, deep: 30}, {up: 106.8, deep: 30}], diameter: 6, depth: 10}"),
    wall("screw-through-pocket",
         holes="- hole: {part: left side, face: left, at: {up: 190, deep: 90}, diameter: 4, purpose: clearance}"),
    wall("hole-into-pocket", holes="- hole: {part: left side, face: left, at: {up: 190, deep: 90}, diameter: 4}"),
    wall("screw-holds-little", materials=SLIPS % 24, parts=SLIP % 136,
         joints="- screwed: {through: slip, into: rail, at: {across: 400, up: 145}, gauge: 8, length: 32}"),
    wall("screw-breaks-through", materials=SLIPS % 10, parts=SLIP % 150,
         joints="- screwed: {through: slip, into: rail, at: {across: 400, up: 145}, gauge: 6, length: 28}"),
    # -- bolts
    wall("bolt-bottoms", materials=SLIPS % 40, parts=BLOCK, joints=BOLT % ", blind: no, length: 70"),
    wall("bolt-holds-little", materials=SLIPS % 40, parts=BLOCK, joints=BOLT % ", length: 25"),
    wall("drill-near-surface", materials=SLIPS % 40, parts=BLOCK, joints=BOLT % ", engagement: 31"),
    wall("drill-breaks-through", materials=SLIPS % 39.5, parts=BLOCK.replace("140,", "140.5,"), joints=BOLT % ", engagement: 31"),
    wall("head-hits-part", materials=SLIPS % 40, parts=f"{BLOCK}\n{ABOVE % '203, 243'}", joints=BOLT % ""),
    wall("tool-no-room", materials=SLIPS % 40, parts=f"{BLOCK}\n{ABOVE % '220, 260'}", joints=BOLT % ""),
    wall("fastener-closed-in", materials=SLIPS % 40, parts=BLOCK + SHUT, joints=BOLT % ""),
    wall("pivot-torque", parts=FLAP, joints=PIVOT),
    # -- mortises, rabbets, tongues, dados
    wall("mortise-thin",
         operations="- mortise: {part: left side, face: front, at: {up: 60, across: 6.5}, run: up, length: 30, width: 8, depth: 30}"),
    wall("mortise-breaks-out", operations="""
        - mortise: {part: left side, face: front, at: {up: 60, across: 10}, run: up, length: 30, width: 8, depth: 30}
        - rabbet: {part: left side, along: [left front], into: 8, on: 20}"""),
    wall("mortises-meet", operations="""
        - mortise: {part: left side, face: front, at: {up: 60, across: 10}, run: up, length: 30, width: 8, depth: 30}
        - mortise: {part: left side, face: right, at: {up: 60, deep: 20}, run: up, length: 20, width: 8, depth: 10}"""),
    wall("opening-thin", operations="- cut out: {part: left side, face: left, at: {deep: 90, up: 100}, shape: slot, size: {deep: 150, up: 25}}"),
    wall("opening-breaks-out", operations="""
        - cut out: {part: left side, face: left, at: {deep: 90, up: 100}, shape: slot, size: {deep: 150, up: 25}}
        - rabbet: {part: left side, along: [left front], into: 15, on: 13}"""),
    wall("lip-thin", operations="- rabbet: {part: left side, along: [right back], into: 17.5, on: 8}"),
    wall("trench-deep", operations="- dado: {part: left side, face: right, run: deep, span: [40, 60], depth: 10.5}"),
    wall("trench-over-third", operations="- dado: {part: left side, face: right, run: deep, span: [40, 60], depth: 7}"),
    wall("stop-opens", operations="""
        - dado: {part: left side, face: right, run: deep, span: [40, 60], depth: 6, stop: {front: 8}}
        - rabbet: {part: left side, along: [right front], into: 8, on: 9}"""),
    wall("stop-thin", operations="- dado: {part: left side, face: right, run: deep, span: [40, 60], depth: 6, stop: {front: 2}}"),
    wall("stop-shows", materials=SLIPS % 12, parts=CLEAT.replace("[0, 180]", "[20, 180]"), operations="""
        - dado: {part: left side, face: right, run: deep, span: [40, 52], depth: 6, stop: {front: 24}, round end: yes}"""),
    wall("tongue-loose", materials=SLIPS % 12, parts=CLEAT, operations="""
        - dado: {part: left side, face: right, run: deep, span: [40, 52.5], depth: 6}
        - tongue: {part: cleat, face: left, length: 5}"""),
    wall("tongue-fat", "tongue-bottoms", "parts-overlap", materials=SLIPS % 12, parts=CLEAT, operations="""
        - dado: {part: left side, face: right, run: deep, span: [40, 51], depth: 6}
        - tongue: {part: cleat, face: left, length: 7}"""),
    # -- what is set into joints
    Spoil("map-case", ("loose-in-wood",), (
        ("materials", SLIPS % 4),
        ("parts", "slip: {of: slips, grain: across, box: {across: [10, 30], deep: [64, 68], up: [498, 502]}}"))),
    Spoil("map-case", ("loose-meet",),
          (("joints", "- dowel: {part: rail, into: case.left, diameter: 5, count: 2, depth: 20, depth into: 10}"),)),
    Spoil("sketching-desk", ("loose-cut",), replaced=(
        ("tenons: {thickness: 3/8, width: 1, depth: 3/4}}\n",
         "tenons: {thickness: 3/8, width: 1, depth: 3/4}, keys: {count: 1, thickness: 1/8, depth: 2 1/2}}\n"),)),
    # -- boards, loads, knots
    wall("stock-too-thin", "stock-rough-only", "stock-little-to-flatten", "stock-too-short", "part-heavy", "stray-part",
         materials=BOARDS, parts=CUT_OF_THEM),
    Spoil(
        "sketching-desk",
        ("tool-struck",),
        replaced=(("flush: bottom,\n      stop: {front: 3/4}, through: back,", "flush: bottom,\n      stop: {front: 3/4, back: 1},"),),
    ),
    Spoil("bookcase", ("shelf-sags",), (("conditions", "shelf load: 200 kg"),)),
    wall("knot-in-cut", operations="- knot: {part: left side, face: left, at: {up: 190, deep: 90}, size: 20}"),
    wall("cross-grain", materials=SLIPS % 20,
         parts="batten: {of: slips, grain: deep, box: {across: [100, 600], deep: [20, 140], up: [160, 180]}}",
         joints="- screwed: {through: batten, into: shelf, gauge: 6, length: 32, at: [{across: 150, deep: 80}, {across: 550, deep: 80}]}"),
    # -- panes and panels
    wall("pane-tight", "pane-unheld", materials=GLASS, parts=FRAMED + PANE % "316, 320", joints=IN_FRAME % "0.5"),
    wall("pane-proud", materials=GLASS, parts=FRAMED + PANE % "317, 321", joints=IN_FRAME % "2, depth: 3, from: back"),
    wall("pane-bed-shallow", materials=GLASS, parts=FRAMED + PANE % "314, 318",
         joints=IN_FRAME % "2, depth: 6, from: back, backer: 3"),
    wall("rails-differ", materials=GLASS,
         parts=FRAMED.replace("[0, 300], deep: [300, 320], up: [160", "[0, 301], deep: [300, 320], up: [160") + PANE % "316, 320",
         joints=IN_FRAME % "2"),
    wall("panel-swells", "panel-falls-out", materials=SLIPS % 8, parts=FRAMED + FLOATING, joints=IN_GROOVES,
         conditions="moisture: {from: 6, to: 14}"),
    Spoil("door-cabinet", ("door-binds",), sizes=(("gap", "2"),)),
    # -- the desk: corners, drawer, easel, shop
    desk("corner-thin", "swing-hits", "head-hits-slide", "tips-easily",
         corner="1 3/8", tilt="100 deg", slide_up="24 1/2", front_lean="12 deg"),
    desk("corner-breaks-through", "cutter-too-large", "tips-over", corner="1 3/4", front_lean="0 deg"),
    Spoil("sketching-desk", ("front-gap", "front-corner-gap", "slide-too-long", "slide-side-thickness",
                             "panel-binds"), replaced=(
        ("across: [divider.left, width - lip - gap]", "across: [divider.left, width - lip - 3/32]"),
        ("corner radius: bearing / 2 + rabbet - gap", "corner radius: 1/4"),
        ("slides: {clearance: slide, length: 12,", "slides: {clearance: slide, length: 15,"),
        ("least side: 7/16", "least side: 1/2"),
        ('drawing board: {sheet: "plywood, birch", thickness: 3/4, bought: 3/4}', "drawing board: {species: northern red oak, thickness: 3/4}"),
    )),
    Spoil("sketching-desk", ("front-rubs", "front-binds", "head-hits-drawer", "knot-at-corner", "hole-in-later-cut"), (
        ("parts", "block: {of: leg stock, grain: across, box: {across: [20, 24], deep: [4, 8], "
         "up: [bottom.bottom - leg_thick, bottom.bottom]}}"),
        ("joints", "- bolted: {through: bottom, into: block, at: {across: 22, deep: 6}, thread: 1/4-20 UNC}"),
        ("operations", "- knot: {part: case.left, face: left, at: {deep: 12, up: 27 1/4}, size: 3/4}"),
        ("holes", "- hole: {part: case.left, face: left, at: {deep: 8, up: 28 1/8}, diameter: 1/4, depth: 1/4}"),
    ), replaced=(
        ("across: [divider.left, width - lip - gap]", "across: [divider.left, width - lip + 1/32]"),
        ("below: 1/2", "below: 1/16"),
    ), sizes=(("gap", "1/128"),)),
    Spoil("sketching-desk", ("beyond-saw", "beyond-gauge", "beyond-machine", "beyond-drill-press", "not-at-hand", "clamps-few",
                             "clamps-short", "cutter-too-fast", "bolt-load", "push-tips"), (("shop", SHOP),), replaced=(
        ("\nconditions: {", "\nconditions: {side push: 15 kg, "),
        ("thickness: board, bought: 5/4}", "thickness: board, bought: 5/4, stock: [10 ft, 8]}"),
    )),
    Spoil("map-case", ("wall-screw-barred",), replaced=(("part: back, face: front, name: W", "part: rail, face: front, name: V"),)),
    wall("part-unjoined", materials=SLIPS % 20, parts="slip: {of: slips, grain: across, box: {across: [100, 700], deep: [140, 160], up: [110, 130]}}"),
    Spoil("wall-shelf", ("movement-not-judged", "sag-not-judged"), (("conditions", "shelf load: 20 kg"),),
          replaced=(("species: white oak, thickness: 20", "species: pear, density: 700, thickness: 20"),)),
    Spoil("bookcase", ("strapped",), replaced=(("\npiece:", "\nstands: strapped\npiece:"),)),
    Spoil("sketching-desk", ("pivot-slips",), replaced=((",\n        stay: {kind: \"ratchet stay, no more than 1/2 in thick when it is folded\"}}}", "}}"),)),
    Spoil("map-case", ("panel-unfixed",), replaced=((
        '  - fixed: {parts: back, with: "wood screws, flat head",\n      screws: {into: [case.left, case.top, case.right, case.bottom], '
        "gauge: 4, length: 20, edge: 5, apart: 160}}\n", ""),)),
    Spoil("bookcase", ("wall-place",), (("holes", "- hole: {part: back panel, face: front, at: {across: 300, up: 1700}, diameter: 5}"),),
          replaced=(("\npiece:", "\nstands: wall\npiece:"),)),
    # -- drawers on runners
    chest("runner-wall-thin", "depth: 6, setback", "depth: 8.5, setback"),
    chest("runner-play", "setback: 30, screws", "setback: 30, play: 1.2, screws"),
    chest("screw-near-edge", "gauge: 4, length: 20, apart: 150", "gauge: 4, length: 20, edge: 8, apart: 150"),
    chest("drawer-unstopped", ", stops: {length: 40, height: 8}", ""),
    Spoil("seed-chest", ("runner-thin",), sizes=(("strip", "11"),)),
    chest("web-thin", "depth: 6, setback", "depth: 7, setback"),
    chest("web-breaks", "depth: 6, setback", "depth: 9, setback"),
    wall("driver-no-room", parts="fore: {of: boards, grain: across, box: {across: [left side.right, right side.left], deep: [0, 20], up: [100, 170]}}",
         joints="- dowel: {part: fore, into: left side, diameter: 8, count: 2, depth: 20, depth into: 10}"),
    Spoil("wall-shelf", ("no-wall-fixing",), replaced=(("diameter: 5, countersink: 10,", "diameter: 5, depth: 15,"),)),
)  # fmt: skip

MEANT = {
    "grain-breaks": "sketching-desk",
    "cutter-large": "sketching-desk",
    "stay-holds": "sketching-desk",
    "piece-heavy": "sketching-desk",
    "stability": "sketching-desk",
    "swing-behind": "dovetailed-box",
    "group-unjoined": "dovetailed-box",
    "nothing-to-open-by": "seed-chest",
}
"""Codes that are told of an example as it is, and not of the wall shelf."""

ELSEWHERE = {
    "slide-clearance": "the slides' word refuses a box that does not leave them their room",
    "frame-size-differs": "the joint tells no outside where its rails do not close round the pane",
    "joint-apart": "joints refuse parts that do not meet",
    "cut-in-air": "operations refuse cuts that do not meet their part",
    "hole-beside-part": "the hole's word refuses such places",
    "dado-set-tilted": "no operation asks for it",
    "pane-too-large": "the joint cuts its rabbets round the pane",
}
"""Codes that no file brings about as the words stand; tests/checks has records made by hand that do."""


@cache
def told(spoil: Spoil) -> frozenset[str]:
    """Return the codes of what is found in a spoiled copy."""
    return frozenset(f.code for f in found(spoil.example, spoil.text(), **dict(spoil.sizes)))


@cache
def good(example: str) -> frozenset[str]:
    """Return the codes of what is found in the example itself."""
    return frozenset(f.code for f in found(example, text_of(example)))


EACH = [(spoil, code) for spoil in SPOILED for code in spoil.codes]


@pytest.mark.parametrize(("spoil", "code"), EACH, ids=[code for _, code in EACH])
def test_a_check_fires_on_the_spoiled_copy_and_not_on_the_good_one(spoil: Spoil, code: str) -> None:
    assert code in told(spoil)
    assert code not in good(spoil.example)


@pytest.mark.parametrize("code", MEANT)
def test_what_is_told_of_a_good_example_as_it_is(code: str) -> None:
    assert code in good(MEANT[code])
    assert code not in good("wall-shelf")


def test_a_joint_whose_parts_do_not_meet_is_refused() -> None:
    apart = Spoil(
        "wall-shelf",
        (),
        replaced=(
            ("[left side.right, right side.left], deep: [160", "[left side.right + 5, right side.left], deep: [160"),
        ),
    )
    with pytest.raises(Problems) as told_:
        found("wall-shelf", apart.text())
    assert "parts-do-not-meet" in {p.code for p in told_.value.items}


def test_every_code_is_spoiled_or_said_to_be_out_of_a_files_reach() -> None:
    spoiled = {code for spoil in SPOILED for code in spoil.codes}
    assert spoiled | set(ELSEWHERE) | set(MEANT) == set(codes())
    assert spoiled & set(ELSEWHERE) == set()
