"""What drawers run on: room at the sides, length against the depth, thickness of the drawer's sides, what stops them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.nesting import front_of
from docgen.checks.subject import Box, Subject, around, where
from docgen.piece.model import Drawer

TITLE = "slides and runners: room at the sides and in the depth, what stops a drawer"
CODES = ("slide-clearance", "slide-too-long", "slide-side-thickness", "drawer-unstopped")
LOOKS = looks.Looks(looks.slides)

NEAR = 0.4
"""mm by which a slide's room may be off, about 1/64 in; the slide's own sheet rules. Common practice."""

FLUSH = 1.0
"""mm that an inset front may go in too far before it shows. Common practice."""

SAME = 1e-6

SHEET = "the slide's own sheet, as the file states it"


def figures(drawer: Drawer) -> Mapping[str, float]:
    """Return the drawer's figures by name, mm."""
    return {name: float(value) for name, value, _ in drawer.figures}


def box_of(subject: Subject, drawer: Drawer) -> Box | None:
    """Return the box around the drawer's parts behind its front, where they stand; None when there are none."""
    front = front_of(subject.piece, drawer)
    boxes = [subject.placed(p).bounds for p in drawer.parts if front is None or p != front.path]
    return around(boxes) if boxes else None


def slide_boxes(subject: Subject, drawer: Drawer) -> tuple[Box, ...]:
    """Return the room of the two slides, left and right of the box, in the piece's axes."""
    told = figures(drawer)
    box = box_of(subject, drawer)
    names = ("slide front", "slide back", "slide low", "slide high")
    if box is None or any(n not in told for n in names):
        return ()
    (x0, x1) = (float(v) for v in drawer.opening[0])
    y0, y1, z0, z1 = (told[n] for n in names)
    return ((x0, y0, z0), (box[0][0], y1, z1)), ((box[1][0], y0, z0), (x1, y1, z1))


def check(subject: Subject) -> Iterator[Finding]:
    """Yield drawers with more or less room beside them than they ask for, or on slides longer than the opening is deep."""
    for drawer in subject.piece.drawers:
        box = box_of(subject, drawer)
        if box is None:
            continue
        yield from _room(subject, drawer, box)
        yield from _length(subject, drawer)
        yield from _thickness(subject, drawer)
        yield from _unstopped(subject, drawer, box)


def rooms(subject: Subject, drawer: Drawer, box: Box) -> tuple[float, float]:
    """Return the room left and right of the drawer's box, mm: to the wood that stands there at the height of the slides.

    Where nothing stands beside the box the stated opening counts.
    """
    told = figures(drawer)
    level = told.get("slide line", (box[0][2] + box[1][2]) / 2)
    middle = (box[0][1] + box[1][1]) / 2
    out = []
    for side in (0, 1):
        meets = subject.ahead((box[side][0], middle, level), 0, side, (*drawer.parts, *drawer.runners))
        out.append(abs(float(drawer.opening[0][side]) - box[side][0]) if meets is None else meets[0])
    return out[0], out[1]


def runs_on(drawer: Drawer) -> str:
    """Return what a drawer runs on, as the findings name it."""
    return "runners" if drawer.runners else "wood" if drawer.bed else "slides"


def _room(subject: Subject, drawer: Drawer, box: Box) -> Iterator[Finding]:
    for side, room in zip(("left", "right"), rooms(subject, drawer, box), strict=True):
        off = room - float(drawer.clearance)
        if abs(off) <= NEAR + SAME:
            continue
        asked = f"for the slide, which asks for {subject.say(drawer.clearance)}"
        if drawer.on_wood:
            asked = f"to the case; its clearance is {subject.say(drawer.clearance)}"
        yield Finding(
            Grade.STOP if off < 0 else Grade.CARE,
            "slide-clearance",
            drawer.parts,
            f"{side.capitalize()} of {drawer.called} there are {subject.say(room)} {asked}.",
            "box width = opening − 2 × clearance a side, to within 0.4 mm (1/64 in)",
            f"{'what the file states' if drawer.on_wood else SHEET}; the tolerance is common practice",
            where(drawer.origin),
            (("room", room, "mm"), ("asked for", float(drawer.clearance), "mm")),
            "make the box wider or narrower, after the opening is measured",
        )


def _length(subject: Subject, drawer: Drawer) -> Iterator[Finding]:
    low, high = (float(v) for v in drawer.opening[1])
    told = figures(drawer)
    start = told.get("slide front", told.get("runner front", low))
    over = start + float(drawer.slide_length) - high
    if over <= SAME:
        return
    what = runs_on(drawer)
    box = what == "wood"  # it slides on the case itself
    subjects = f"The box of {drawer.called} is" if box else f"The {what} of {drawer.called} are"
    yield Finding(
        Grade.STOP,
        "slide-too-long",
        (*drawer.parts, *drawer.runners),
        f"{subjects} {subject.say(drawer.slide_length)} long and begin{'s' if box else ''} {subject.say(start - low)} into an opening "
        f"{subject.say(high - low)} deep: {'it is' if box else 'they are'} {subject.say(over)} too long.",
        "where the slide, runner or box begins + its length ≤ back of the opening",
        "geometry",
        where(drawer.origin),
        (("too long by", over, "mm"), ("depth", high - low, "mm")),
        f"{'a shorter box' if box else f'shorter {what}'}, or a deeper case",
    )


def _thickness(subject: Subject, drawer: Drawer) -> Iterator[Finding]:
    told = figures(drawer)
    side = told.get("side thickness")
    least, most = told.get("least side", 0.0), told.get("most side", float("inf"))
    if side is not None and not least - SAME <= side <= most + SAME:
        asked = f"at least {subject.say(least)}" if side < least else f"at most {subject.say(most)}"
        yield Finding(
            Grade.CARE,
            "slide-side-thickness",
            drawer.parts,
            f"The sides of {drawer.called} are {subject.say(side)} thick; its slides ask for {asked}.",
            "side thickness within what the slide's sheet allows",
            "the slide's own sheet, as the file states it",
            where(drawer.origin),
            (("side thickness", side, "mm"),),
            "other slides, or sides of another thickness",
        )


def _unstopped(subject: Subject, drawer: Drawer, box: Box) -> Iterator[Finding]:
    """Yield an inset drawer on wood that neither strips nor blocks stop, nor what stands close behind its box."""
    told = figures(drawer)
    if not drawer.on_wood or not drawer.gap or told.get("room before the runner") == 0 or "stop blocks" in told:
        return
    own, middle = (*drawer.parts, *drawer.runners), (box[0][2] + box[1][2]) / 2
    inside = told.get("side thickness", 0.0) / 2
    places = (box[0][0] + inside, (box[0][0] + box[1][0]) / 2, box[1][0] - inside)
    met = [subject.ahead((x, box[1][1], middle), 1, 1, own) for x in places]
    free = min((m[0] for m in met if m is not None), default=None)
    if free is not None and free <= FLUSH + SAME:
        return
    far = "as far as it is pushed" if free is None else f"{subject.say(free)} too far"
    yield Finding(
        Grade.CARE,
        "drawer-unstopped",
        drawer.parts,
        f"Nothing stops {drawer.called} where its inset front stands flush: it goes in {far}.",
        "an inset drawer is stopped by its strips, by blocks, or by what stands within 1 mm (1/32 in) behind its box",
        "geometry; common practice",
        where(drawer.origin),
        () if free is None else (("free behind the box", free, "mm"),),
        "stops behind its sides, strips that stop it, or a longer box",
    )
