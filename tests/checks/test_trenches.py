import pytest

from docgen.checks import trenches
from docgen.checks.finding import Grade
from docgen.geometry.make import box
from docgen.piece.bench import Operation
from docgen.piece.model import Part, Piece
from docgen.piece.operations.askew_dado import AskewDado
from docgen.piece.operations.dado import Dado
from docgen.piece.operations.leaning_dado import LeaningDado
from docgen.piece.operations.leaning_rabbet import LeaningRabbet
from docgen.piece.operations.pins import Pins
from docgen.piece.records import Cut, Face, Made
from tests.support.checking import codes, found
from tests.support.pieces import feature, part, piece

SIDE = ((0, 20), (0, 300), (0, 720))


def dado(
    depth: float,
    *,
    stop: float | None = None,
    start: float | None = None,
    more: tuple[Cut, ...] = (),
    **options: object,
) -> Piece:
    """A dado across the inside of a side 20 mm thick, 300 wide."""
    blank = part("side", SIDE)
    op = Dado(Face(2, 0), 1, 100.0, 120.0, depth, start, stop, **options)  # type: ignore[arg-type]
    features = (feature("dado", op.made(blank)), *([feature("rabbet", Made(cuts=more))] if more else []))
    return piece(part("side", SIDE, features=features))


@pytest.mark.parametrize(
    ("depth", "expected"),
    [(6.66, []), (6.68, ["trench-over-third"]), (9.99, ["trench-over-third"]), (10, []), (10.01, ["trench-deep"])],
)
def test_depth_against_the_thickness(depth: float, expected: list[str]) -> None:
    assert codes(trenches, dado(depth)) == expected


def test_over_half_is_care_and_over_a_third_a_note() -> None:
    assert [f.grade for f in found(trenches, dado(10.5))] == [Grade.CARE]
    assert [f.grade for f in found(trenches, dado(8.0))] == [Grade.NOTE]


@pytest.mark.parametrize(("thick", "expected"), [(14.9, []), (15.0, ["trench-over-third"])])
def test_thin_stock_is_commonly_grooved_to_half(thick: float, expected: list[str]) -> None:
    box_ = ((0, thick), (0, 300), (0, 720))
    groove = feature("groove", Dado(Face(2, 0), 0, 10.0, 16.0, thick * 0.4).made(part("side", box_)))
    assert codes(trenches, piece(part("side", box_, features=(groove,)))) == expected


def test_trenches_from_both_faces_count_together() -> None:
    opposite = Cut(box((100.0, -1.0, 15.0), (120.0, 301.0, 21.0)))
    assert codes(trenches, dado(6.0, more=(opposite,)))[0] == "trench-deep"


def rabbet(width: float) -> Cut:
    """A rabbet along the front edge of the inside."""
    return Cut(box((-1.0, -1.0, -1.0), (721.0, width, 8.0)))


def test_a_stop_that_opens_into_a_rabbet() -> None:
    assert codes(trenches, dado(5.0, start=20.0, more=(rabbet(20.5),))) == ["stop-opens"]
    assert codes(trenches, dado(5.0, start=20.0)) == []


@pytest.mark.parametrize(("width", "expected"), [(16.98, []), (17.02, ["stop-thin"])])
def test_wood_between_a_stop_and_a_rabbet(width: float, expected: list[str]) -> None:
    assert codes(trenches, dado(5.0, start=20.0, more=(rabbet(width),))) == expected


def test_a_round_end_counts_with_its_arc() -> None:
    # the arc reaches 10 mm beyond the full width: to 20 from the front edge
    assert codes(trenches, dado(5.0, start=30.0, round_end=True, more=(rabbet(16.98),))) == []
    assert codes(trenches, dado(5.0, start=30.0, round_end=True, more=(rabbet(17.02),))) == ["stop-thin"]


def test_both_stops_are_looked_at() -> None:
    (f,) = found(trenches, dado(5.0, stop=298.0))
    assert (f.code, round(f.figures[0][1], 3)) == ("stop-thin", 2.0)


def test_rabbets_and_mortises_are_no_trenches() -> None:
    for cut in (
        box((-1.0, -1.0, 8.0), (721.0, 12.0, 21.0)),  # a rabbet
        box((100.0, 100.0, 5.0), (160.0, 110.0, 21.0)),  # a mortise 60 long in a part of 720
    ):
        assert codes(trenches, piece(part("side", SIDE, features=(feature("x", Made(cuts=(Cut(cut),))),)))) == []


def test_the_advice_names_the_end_and_what_lacks() -> None:
    (opens,) = found(trenches, dado(5.0, start=20.0, more=(rabbet(20.5),)))
    (thin,) = found(trenches, dado(5.0, start=20.0, more=(rabbet(18.0),)))
    word = opens.message.split()[2]
    assert word in ("left", "right", "front", "back", "top", "bottom")
    assert f"through: {word}" in opens.advice
    assert "2 mm of wood" in thin.message
    assert "stop it 1 mm earlier" in thin.advice and "shallower groove" in thin.advice


@pytest.mark.parametrize(("long", "expected"), [(258.2, []), (258.4, ["stop-thin"])])
def test_an_askew_stop_is_judged_along_its_run(long: float, expected: list[str]) -> None:
    """From (50, 100), 15° off the width: wall left before the back, along the run = (300 − 50) / cos 15° + 18 / 2 · tan 15° − long."""
    op = AskewDado(Face(2, 0), 1, 100.0, 18.0, 6.0, 15.0, start=50.0, long=long)
    blank = part("side", SIDE)
    assert codes(trenches, piece(part("side", SIDE, features=(feature("dado", op.made(blank)),)))) == expected


@pytest.mark.parametrize(("depth", "expected"), [(6.66, []), (6.68, ["trench-over-third"]), (10.01, ["trench-deep"])])
@pytest.mark.parametrize("tilt", [10.0, -15.0])
def test_a_dado_with_leaning_walls_is_judged_like_any(tilt: float, depth: float, expected: list[str]) -> None:
    assert codes(trenches, leaning(LeaningDado(Face(2, 0), 1, 100.0, 120.0, depth, tilt))) == expected
    stopped = LeaningDado(Face(2, 1), 1, 100.0, 120.0, depth, tilt, 20.0)
    assert codes(trenches, leaning(stopped)) == expected


@pytest.mark.parametrize(("start", "expected"), [(2.9, ["stop-thin"]), (3.0, [])])
def test_a_stop_between_leaning_walls_ends_in_wood(start: float, expected: list[str]) -> None:
    assert codes(trenches, leaning(LeaningDado(Face(2, 0), 1, 100.0, 120.0, 6.0, 10.0, start))) == expected


def test_what_is_no_trench_that_leans() -> None:
    """A rabbet has one wall; a socket between pins has walls that lean against each other."""
    blank = part("side", SIDE)
    assert list(trenches.trenches(worked(blank, LeaningRabbet(Face(2, 0), Face(0, 1), 6.0, 20.0, 10.0)))) == []
    pins = Pins(Face(0, 0), Face(2, 1), 15, 6, 22.5, 9.46, 28.5, None, 4)
    assert [t for t in trenches.trenches(worked(blank, pins)) if t.leans] == []


def worked(blank: Part, operation: Operation) -> Part:
    return part("side", SIDE, features=(feature("it", operation.made(blank)),))


def leaning(op: LeaningDado) -> Piece:
    return piece(worked(part("side", SIDE), op))
