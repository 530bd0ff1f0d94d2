"""Wooden runners: strips on the case that fill grooves along the outsides of a drawer's sides, less a play.

The groove's upper wall rides on the strip, so that all play in height lies under it. Nothing is glued. The groove is cut to
its figure; the strip is left high by the play and fitted to it by planing its lower edge, and left long at the front where
its end stops the drawer.
"""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.joints import runner_screws
from docgen.piece.joints.drawers import DRAWER, HANDS, STANDS_BACK, Figures, beside, drawer, pairs
from docgen.piece.joints.filling import Features
from docgen.piece.joints.meeting import seen
from docgen.piece.joints.runner_grooves import goes_on, groove
from docgen.piece.joints.runner_screws import SCREWS, Bed
from docgen.piece.joints.telling import NEAT
from docgen.piece.model import Joint, Part
from docgen.piece.operations.dado import Dado
from docgen.piece.operations.left_on import LeftOn
from docgen.piece.operations.place_line import PlaceLine
from docgen.piece.records import Origin, Stage
from docgen.project.fields import Choice, Field, Length, Many, Nested, PartName, Word
from docgen.project.statements import Bound
from docgen.trade.runners import BEFORE, CLEARANCE, LEFT, PLAY
from docgen.units import Number, plain_length


def build(bench: Bench, values: Bound) -> None:
    """Plough the grooves, screw the strips to the case and note the drawer."""
    sides, cases, strips = pairs(bench, values, "sides", "cases", "strips", code="runners-two")
    clearance = CLEARANCE[bench.units.system] if values["clearance"] is None else values["clearance"]
    if not beside(bench, values, sides, cases, clearance):
        return
    play = PLAY[bench.units.system] if values["play"] is None else values["play"]
    before = BEFORE[bench.units.system] if values["stop"] == "front" else 0
    stop = (before, NEAT[bench.units.system]) if before else None
    beds = [runner_screws.lies(strip, case, hand) for hand, strip, case in zip(HANDS, strips, cases, strict=True)]
    by = runner_screws.means(bench, values, beds)
    front, found = bench.part(values["front"]), []
    for hand, side, bed in zip(HANDS, sides, beds, strict=True):
        cut = groove(bed.strip, side, hand, play, stop)
        told = _figures(values, front, (bed.strip, side, bed.case), cut, (clearance, play, before))
        ploughed = _ploughed(bench, values, cut, side, bed.strip)
        _placed(bench, bed)
        _left_on(bench, bed.strip, play, inset=bool(values["gap"]) and not before)
        _note(bench, values, bed, ploughed, runner_screws.driven(bench, bed, by), told)
        found.append(told)
    drawer(
        bench, values, found[0], length=strips[0].size[0], clearance=clearance, runners=tuple(p.path for p in strips)
    )


def _ploughed(bench: Bench, values: Bound, cut: Dado, side: Part, strip: Part) -> Features:
    """Plough a groove; where it runs on through pins or fingers of the box, through both once they are glued together."""
    aside = {*values["sides"], values["front"]}
    others = [bench.part(path) for path in values["parts"] if path not in aside]
    struck = [(other.path, go) for other in others if (go := goes_on(cut, side, other)) is not None]
    stage = Stage.GLUED if struck else Stage.PART
    title = f"groove for {strip.path}"
    made = ((path, bench.add(path, each, title=title, stage=stage)) for path, each in ((side.path, cut), *struck))
    return tuple((path, feature.name) for path, feature in made)


def _placed(bench: Bench, bed: Bed) -> None:
    """Mark on the case part where the strip lies: its upper edge on a part that stands, its back end on one that lies.

    Neither is planed or pared when the strip is fitted.
    """
    strip, case = bed.strip, bed.case
    at = seen(strip, case)
    for word, label in (("top", "upper edge"), ("back", "back end")):
        if at is not None and at.axis[strip.face(word).axis] == 0:
            line = PlaceLine(bed.against, at.level(strip.face(word)), f"runner, {label}")
            bench.add(case.path, line, title=f"place of {strip.path}")


def _left_on(bench: Bench, strip: Part, play: Number, *, inset: bool) -> None:
    """Leave the strip high by the play that it gets when it is fitted, and long at the front where its end is a stop."""
    low, front = strip.face("bottom"), strip.face("front")
    bench.add(strip.path, LeftOn(low, play, "by planing its lower edge alone"), title="wood left on its lower edge")
    if inset:
        long = LEFT[bench.units.system]
        far = f"{plain_length(long, bench.units)} {bench.units.sign}"
        note = f"by paring the front end; places run from the front line, struck {far} from the end as cut"
        bench.add(strip.path, LeftOn(front, long, note), title="wood left on its front end")


def _figures(
    values: Bound, front: Part, pair: tuple[Part, Part, Part], cut: Dado, room: tuple[Number, Number, Number]
) -> Figures:
    """Return where the runners stand and what room is left round them; piece axes, mm."""
    (strip, side, case), (x0, x1), (clearance, play, before) = pair, values["opening"][0], room
    return (
        ("runner low", strip.box[2][0], "length"),
        ("runner high", strip.box[2][1], "length"),
        ("runner front", strip.box[1][0], "length"),
        ("runner back", strip.box[1][1], "length"),
        ("setback", strip.box[1][0] - front.box[1][1], "length"),
        ("clearance a side", clearance, "length"),
        ("play", play, "length"),
        ("room before the runner", before, "length"),
        ("groove", cut.depth, "length"),
        ("box width", x1 - x0 - 2 * clearance, "length"),
        ("side thickness", side.size[2], "length"),
        (STANDS_BACK, side.box[1][0] - case.box[1][0], "length"),
    )


def _note(bench: Bench, values: Bound, bed: Bed, ploughed: Features, screwed: Features, told: Figures) -> None:
    """Note how one strip is held on the case, and how the drawer's side hangs on it."""
    strip, side, origin = bed.strip.path, ploughed[0][0], Origin(values.span, values.because)
    on = Joint("runners", f"{strip} on {bed.case.path}", (strip, bed.case.path), screwed, _of(told, "setback"), origin)
    room, title = _of(told, "clearance a side", "play"), f"{strip} in the groove of {side}"
    bench.joint(on)
    bench.joint(Joint("runner in groove", title, (strip, side), ploughed, room, origin))


def _of(told: Figures, *names: str) -> Figures:
    return tuple(figure for figure in told if figure[0] in names)


RUNNER = (
    Field("clearance", Length(above=0), "between drawer side and case, a side; absent: 1 mm or 1/32 in"),
    Field("play", Length(above=0), "left under each strip and at its groove's floor; absent: 0.5 mm or 1/64 in"),
    Field("screws", Nested(SCREWS), "what holds the strips on the case; they are not glued", required=True),
)
"""The fields of runners, wherever they are said."""

WORD = Word(
    name="runners",
    room="joint",
    help="wooden strips on the case, on which a drawer hangs by grooves along the outsides of its sides",
    fields=(
        *DRAWER,
        Field("strips", Many(PartName(), least=2), "the left and the right strip, where they stand", required=True),
        *RUNNER,
        Field(
            "stop",
            Choice(("runner", "front")),
            "what stops the drawer: the strip's end in a groove that stops there, or its front",
            default="runner",
        ),
    ),
    example="""\
runners:
  drawer: drawer
  parts: [drawer.front, drawer.left, drawer.right]
  front: drawer.front
  sides: [drawer.left, drawer.right]
  cases: [left side, right side]
  strips: [left runner, right runner]
  opening: {across: [20, 420], deep: [20, 390], up: [100, 200]}
  gap: 2
  clearance: 1
  play: 0.5
  screws: {gauge: 6, length: 20}
""",
    build=build,
)
