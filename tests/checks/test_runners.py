import pytest

from docgen.checks import runners, sag, slides
from docgen.checks.finding import Grade
from docgen.checks.subject import Subject
from docgen.geometry.make import cylinder
from docgen.piece.model import Drawer, Joint, Piece
from docgen.piece.operations.dado import Dado
from docgen.piece.operations.slot import SlottedHole
from docgen.piece.records import Cut, HoleRow, Made, Purpose, Sink
from tests.support.checking import codes, found, subject
from tests.support.pieces import feature, part, piece


def hung(
    *,
    groove: float = 6.0,
    play: float = 0.5,
    made: Made | None = None,
    high: float = 16.0,
    length: float = 300.0,
    **box: float,
) -> Piece:
    """An opening 400 wide and 320 deep; a box with sides 14 thick, 1 away from the case, on a strip 6.5 thick."""
    left = box.get("left", 1.0)
    across = ((left, left + 14), (20, 320), (20, 120))
    blank = part("d.left", across, "deep", number=2)
    cut = feature("groove", Dado(blank.face("left"), 0, 50.0, 66.5, groove).made(blank), title="groove for runner")
    strip = feature("holes", made or Made())
    return piece(
        part("d.front", ((2, 398), (0, 20), (2, 148)), "across"),
        part("d.left", across, "deep", number=2, features=(cut,)),
        part("d.right", ((385, 399), (20, 320), (20, 120)), "deep", number=3),
        part("case", ((-20, 0), (0, 400), (0, 300)), number=4),
        part("runner", ((0, 6.5), (20, 20 + length), (70.5, 70.5 + high)), "deep", number=5, features=(strip,)),
        joints=(Joint("runner in groove", "runner in the groove", ("runner", "d.left"), (("d.left", cut.name),)),),
        drawers=(
            Drawer(
                "d",
                ("d.front", "d.left", "d.right"),
                ((0, 400), (20, 340), (0, 150)),
                1.0,
                length,
                2,
                (("play", play, "length"), ("runner front", 20.0, "length"), ("room before the runner", 0, "length")),
                runners=("runner",),
            ),
        ),
    )


def test_a_drawer_as_it_should_hang() -> None:
    assert codes(runners, hung()) == [] and codes(slides, hung()) == []


@pytest.mark.parametrize(("groove", "expected"), [(8.0, []), (8.01, ["runner-wall-thin"])])
def test_wood_behind_the_groove(groove: float, expected: list[str]) -> None:
    assert codes(runners, hung(groove=groove)) == expected


@pytest.mark.parametrize(
    ("play", "expected"),
    [(0.4, []), (25.4 / 64, []), (0.38, ["runner-play"]), (1.0, []), (1.02, ["runner-play"])],
)
def test_play_in_height(play: float, expected: list[str]) -> None:
    assert codes(runners, hung(play=play)) == expected


def test_what_too_little_and_too_much_play_bring() -> None:
    (tight,), (loose,) = (found(runners, hung(play=play)) for play in (0.1, 2.0))
    assert "binds" in tight.message and "droops" in loose.message


def bored(deep: float, wide: float = 8.5, up: float = 8.0) -> Made:
    """A round hole with a flat-bottomed bore in the strip's right face, `up` from its lower edge."""
    blank = part("runner", ((0, 6.5), (20, 320), (70.5, 86.5)), "deep")
    face = blank.face("right")
    at = (50.0, up, float(blank.size[2]) if face.side else 0.0)
    into = (0.0, 0.0, -1.0 if face.side else 1.0)
    row = HoleRow("A", Purpose.CLEARANCE, face, (at,), into, 3.6, "3.6 mm", sink=Sink(wide, deep))
    return Made(cuts=(Cut(cylinder(at, into, 1.8, 10.0)),), holes=(row,))


@pytest.mark.parametrize(("deep", "expected"), [(3.5, []), (3.51, ["runner-thin"])])
def test_wood_under_a_sunk_head(deep: float, expected: list[str]) -> None:
    assert codes(runners, hung(made=bored(deep))) == expected


@pytest.mark.parametrize(("up", "expected"), [(6.25, []), (6.24, ["runner-thin"]), (9.75, []), (9.76, ["runner-thin"])])
def test_wood_beside_a_sunk_head(up: float, expected: list[str]) -> None:
    assert codes(runners, hung(made=bored(3.0, up=up))) == expected


@pytest.mark.parametrize(("deep", "expected"), [(3.5, []), (3.51, ["runner-thin"])])
def test_a_slot_counts_like_a_hole(deep: float, expected: list[str]) -> None:
    blank = part("runner", ((0, 6.5), (20, 320), (70.5, 86.5)), "deep")
    slot = SlottedHole(blank.face("right"), (100.0, 8.0), 0, 12.0, 3.6, bore=(8.5, deep))
    assert codes(runners, hung(made=slot.made(blank))) == expected


@pytest.mark.parametrize(("wide", "expected"), [(8.5, []), (10.0, ["runner-thin"])])
def test_a_countersink_goes_as_deep_as_its_cone(wide: float, expected: list[str]) -> None:
    # (10 − 3.6) / 2 / tan 41° = 3.68: 2.82 of 6.5 are left; of 8.5 across 3.68.
    blank = part("runner", ((0, 6.5), (20, 320), (70.5, 86.5)), "deep")
    row = HoleRow("A", Purpose.CLEARANCE, blank.face("right"), ((50.0, 8.0, 0.0),), (0.0, 0.0, 1.0), 3.6, "3.6 mm",
        sink=Sink(wide, None, 82))  # fmt: skip
    assert codes(runners, hung(made=Made(holes=(row,)))) == expected


@pytest.mark.parametrize(("left", "grade"), [(0.61, None), (0.59, Grade.STOP), (1.39, None), (1.41, Grade.CARE)])
def test_room_beside_a_drawer_on_runners_goes_to_the_case(left: float, grade: Grade | None) -> None:
    assert [f.grade for f in found(slides, hung(left=left))] == ([grade] if grade else [])


def test_runners_against_the_depth() -> None:
    assert codes(slides, hung(length=320)) == []
    (finding,) = found(slides, hung(length=320.1))
    assert finding.code == "slide-too-long" and finding.message.startswith("The runners of d are")


def test_a_runner_is_no_shelf() -> None:
    of = hung()
    said: Subject = subject(of)
    assert sag.load_on(said, of.part("runner"), 300.0) is None
