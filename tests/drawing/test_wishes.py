"""Like holes of a view have one callout, and their names beside them."""

from dataclasses import replace
from fractions import Fraction

from docgen.drawing.unfold import principal
from docgen.drawing.wishes import hole_wishes
from docgen.drawing.wording import Notes, hole_head
from docgen.piece.operations.hole import Hole
from docgen.piece.records import Face, Feature, HoleRow, Made, Purpose, Stage
from docgen.units import Units
from tests.support.pieces import part

TOP = Face(2, 1)


def row(name: str, count: int) -> HoleRow:
    points = tuple((Fraction(10 * n), Fraction(5), Fraction(20)) for n in range(count))
    return HoleRow(name, Purpose.PLAIN, TOP, points, (0.0, 0.0, -1.0), Fraction(3), "")


def test_names_that_follow_one_another_are_told_from_the_first_to_the_last() -> None:
    assert hole_head([row("A", 4), row("B", 5), row("C", 4), row("D", 5)]) == "A–D: 18× "
    assert hole_head([row("B", 1), row("A", 1)]) == "A, B: 2× "
    assert hole_head([row("A", 1), row("C", 2), row("AA", 1)]) == "A, C, AA: 4× "
    assert hole_head([row("", 2), row("", 1)]) == "3× "
    assert hole_head([row("S1", 1)]) == "S1: "


def test_like_holes_have_one_callout_and_unlike_ones_another() -> None:
    def hole(name: str, x: int, wide: int) -> Hole:
        return Hole(TOP, ((Fraction(x), Fraction(30)),), Fraction(wide), name=name)

    bare = part("rail", ((0, 400), (0, 60), (0, 20)), "across")
    holes = (hole("A", 40, 5), hole("B", 200, 5), hole("C", 300, 8))
    features = tuple(Feature(f"hole {n}", "hole", "hole", Stage.PART, h.made(bare)) for n, h in enumerate(holes))
    rail = part("rail", ((0, 400), (0, 60), (0, 20)), "across", features=features)
    view = principal(TOP, False)
    told = hole_wishes(rail, TOP, (TOP,), view, Notes(Units()), lambda face: "")
    assert [w.lines for w in told] == [("A, B: 2× ⌀5 THRU",), ("A",), ("B",), ("C: ⌀8 THRU",)]


def test_a_few_like_holes_have_each_its_own_name_and_many_one_for_each_row() -> None:
    """On the template and in the chart the holes are A1, A2, B; "A" beside one of them left a maker to guess the others."""

    def named(counts: dict[str, int]) -> list[tuple[str, ...]]:
        rows = [replace(row(n, k), names=tuple(f"{n}{i}" for i in range(1, k + 1))) for n, k in counts.items()]
        features = tuple(Feature(f"hole {r.name}", "hole", "hole", Stage.PART, Made(holes=(r,))) for r in rows)
        rail = part("rail", ((0, 400), (0, 60), (0, 20)), "across", features=features)
        told = hole_wishes(rail, TOP, (TOP,), principal(TOP, False), Notes(Units()), lambda face: "")
        assert told[0].lines[0].startswith(f"A, B: {sum(counts.values())}× ")
        return [w.lines for w in told[1:]]

    assert named({"A": 2, "B": 1}) == [("A1",), ("A2",), ("B1",)]
    assert named({"A": 6, "B": 3}) == [("A",), ("B",)]
