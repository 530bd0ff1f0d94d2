"""Does the piece stand: centre of gravity against the feet, empty and loaded, with groups tilted, with drawers out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.standing import State, feet, states, top_of
from docgen.checks.subject import Subject
from docgen.geometry.shapes import Vec
from docgen.schedules.terms import stated
from docgen.trade.beams import GRAVITY
from docgen.trade.stability import Tipping, centre_of_gravity, push_to_tip, tipping_over

TITLE = "tipping: empty, loaded, tilted, with drawers out, and by a push"
UNSTEADY = ("tips-over", "tips-easily", "push-tips", "strapped")
"""Findings after which a piece is not loaded before it is fixed."""

STRAPPED = "strapped"
"""What the file says of a piece that stands on the floor and is strapped to the wall."""

CODES = (*UNSTEADY, "stability")
LOOKS = looks.Looks(looks.on_floor)

CAREFUL = 10.0
"""Degrees that a piece should lean before it tips: the slope of the test for television stands. Common practice for furniture."""

FIRMLY = 30.0
"""Degrees from which a piece stands so firmly in all its states that nothing need be told. Common practice."""

ANCHOR = "fix it to the wall: a strap or bracket near the top at each end, screwed into a stud or masonry, not into plaster alone"

SOURCE = "statics of a rigid body; weights from solids and densities; 10° as care is common practice; a caution, not a rating"

HARDLY = 0.01
"""Of the weight: less is no load."""

ALONE = " Counted without a sitter: nobody sits, leans or climbs on it; for what is sat on, these figures tell nothing of its use."

WAYS = {(0.0, -1.0): "the front", (0.0, 1.0): "the back", (-1.0, 0.0): "the left", (1.0, 0.0): "the right"}


def check(subject: Subject) -> Iterator[Finding]:
    """Yield the least firm state: a note under 30°, care under 10°, stop when it falls by itself; care where a stated push tips it.

    Pieces that the file says hang on the wall, and those whose lowest point is not at height 0, are passed over;
    so are those of unknown weight.
    """
    if subject.piece.stands == "wall":
        return
    on = feet(subject)
    if on is None:
        return
    try:
        found = [(s, centre_of_gravity(s.masses)) for s in states(subject)]
        told = [(s, mass, centre, tipping_over(centre, on)) for s, (mass, centre) in found]
    except ValueError:
        return  # nothing to weigh, or a support that is no area
    if not told:
        return
    strapped = subject.piece.stands == STRAPPED
    if strapped or min(t[3].angle for t in told) < FIRMLY:
        said = _finding(subject, told)
        yield _held(subject, said, told) if strapped else said
    if not strapped:
        yield from _pushed(subject, told)


Told = tuple[State, float, Vec, Tipping]


def _finding(subject: Subject, told: Sequence[Told]) -> Finding:
    state, mass, centre, tip = min(told, key=lambda t: (t[3].angle, t[0].words))
    top = top_of(subject)
    falls = tip.distance <= 0
    grade = Grade.STOP if falls else Grade.CARE if tip.angle < CAREFUL else Grade.NOTE
    code = {Grade.STOP: "tips-over", Grade.CARE: "tips-easily", Grade.NOTE: "stability"}[grade]
    message = f"Standing on a level floor: {subject.weigh(mass)}{_itself(subject, told, mass)}, centre of gravity {subject.about(centre[2])} up. Least firm of all its states: {state.words}, toward {_way(tip)}; "
    message += (
        f"the centre hangs {subject.about(-tip.distance)} outside the feet, and it falls."
        if falls
        else f"{subject.about(tip.distance)} inside the feet, it tips at {_degrees(tip.angle)}, {_push_told(subject, told, state)}."
    )
    message += ALONE
    return Finding(
        grade,
        code,
        (),
        message,
        "tipping angle = atan(distance of the centre from the line of the feet / its height); without hardware, floor level",
        SOURCE,
        None,
        (
            ("weight", mass, "kg"),
            ("centre of gravity, up", centre[2], "mm"),
            ("inside the feet by", tip.distance, "mm"),
            _tips("", tip),
            *(() if falls else _pushes(told, (state, mass, centre, tip), top)),
            *(_tips(f"{s.words} ", t) for s, _, _, t in told if s is not state),
        ),
        "" if grade is Grade.NOTE else f"spread the feet, lower the weight, or {ANCHOR}",
        tuple(
            _tips("" if s is state else f"{s.words} ", t)[0] for s, _, _, t in told if s is state or t.angle >= CAREFUL
        ),
    )


def _itself(subject: Subject, told: Sequence[Told], mass: float) -> str:
    """Return what the piece weighs by itself, where the state that is told has a load in it or on it."""
    least = min(m for _, m, _, _ in told)
    return f" with its load, {subject.weigh(least)} by itself" if mass - least > HARDLY * mass else ""


def _tips(state: str, tip: Tipping) -> tuple[str, float, str]:
    """Return at which angle a state tips, or how far it leans past its balance where it falls by itself."""
    if tip.angle < 0:
        return f"{state}past its balance by".strip(), -tip.angle, "deg"
    return f"tips {state}at", tip.angle, "deg"


def _degrees(angle: float) -> str:
    """Return an angle to a tenth, finer where that would read as the limit that it does not keep."""
    rounded = f"{angle:.1f}"
    return f"{rounded if float(rounded) != CAREFUL or angle >= CAREFUL else f'{angle:.2f}'}°"


def _push(told: Told, top: float) -> float:
    return push_to_tip(told[1], told[3].distance, top)


def _easiest(told: Sequence[Told], top: float) -> Told:
    """Return the state that the least level push at the top tips: a load on the piece may hide how light it is empty."""
    return min(told, key=lambda t: (_push(t, top), t[0].words))


def _pushes(told: Sequence[Told], least_firm: Told, top: float) -> tuple[tuple[str, float, str], ...]:
    """Return the level pushes at the top that tip the least firm state, and the state that wants the least."""
    return (
        ("push at the top", _push(least_firm, top), "N"),
        ("least push of all states", _push(_easiest(told, top), top), "N"),
    )


def _push_told(subject: Subject, told: Sequence[Told], least_firm: State) -> str:
    """Return the least push that tips it in any state, with the state and the weight that stands there."""
    top = top_of(subject)
    easiest = _easiest(told, top)
    state, mass, _, tip = easiest
    push = _push(easiest, top)
    said = f"a level push of {subject.force(push)}{_kilos(subject, push)} at its top, {subject.say(top)} up"
    if state is least_firm:
        return f"or by {said}"
    return f"and {said}, is enough {state.words}, {subject.weigh(mass)} in all, toward {_way(tip)}"


def _kilos(subject: Subject, newtons: float) -> str:
    """Return how much a force weighs, where pounds do not say it."""
    return "" if subject.piece.units.system == "inch" else f" ({newtons / GRAVITY:.1f} kg)"


def _held(subject: Subject, said: Finding, told: Sequence[Told]) -> Finding:
    """Return the finding of a piece that is strapped to the wall: a care, with what the straps have to hold."""
    top = top_of(subject)
    stated_push = stated(subject.piece, "side push")
    push = float(stated_push) * GRAVITY if stated_push else 0.0
    pull = max(push - mass * GRAVITY * tip.distance / top for _, mass, _, tip in told)
    what = f" under the stated push of {subject.force(push)}" if push else ""
    if pull > 0:
        held = f"the straps hold {subject.force(pull)} between them at the top{what}, and it is not loaded or opened before they do."
    elif said.grade is Grade.CARE:
        held = "it hardly stands without the straps, and is not loaded or opened before they hold."
    else:
        held = f"it stands without the straps{what}."
    message = said.message.removesuffix(ALONE) + f" The file says that it is strapped to the wall: {held}" + ALONE
    care = pull > 0 or said.grade is Grade.CARE
    figures = (*said.figures, ("pull on the straps", max(pull, 0.0), "N"))
    return replace(
        said,
        grade=Grade.CARE if care else Grade.NOTE,
        code="strapped",
        message=message,
        rule="pull at the top = push − weight · distance of the centre from the line of the feet / height",
        figures=figures,
        advice=f"{ANCHOR}; let each strap hold all of it" if care else "",
    )


def _way(tip: Tipping) -> str:
    return WAYS[max(WAYS, key=lambda w: w[0] * tip.outward[0] + w[1] * tip.outward[1])]


def _pushed(subject: Subject, told: Sequence[Told]) -> Iterator[Finding]:
    """Yield care where the stated level push at the top tips the piece in any of its states."""
    stated_push = stated(subject.piece, "side push")
    if not stated_push:
        return
    top = top_of(subject)
    easiest = _easiest(told, top)
    push, least = float(stated_push) * GRAVITY, _push(easiest, top)
    if push <= least:
        return
    yield Finding(
        Grade.CARE,
        "push-tips",
        (),
        f"The stated level push of {subject.force(push)}{_kilos(subject, push)} at the top, {subject.say(top)} up, tips the piece toward "
        f"{_way(easiest[3])}: {subject.force(least)} are enough {easiest[0].words}, {subject.weigh(easiest[1])} in all.",
        "push that tips = weight · distance of the centre from the line of the feet / height of the push",
        SOURCE,
        None,
        (("push", push, "N"), ("tips by", least, "N")),
        f"spread the feet, or {ANCHOR}",
    )
