"""Doors and lids are tried on their hinges before the finish; hinges whose places no page tells say so."""

from tests.support.steps import example, listed

HUNG = """
docgen: 1
piece: Hatch
units: mm
sizes: {wide: 300, high: 400}
materials: {boards: {species: white oak, thickness: 20}}
parts:
  post: {of: boards, grain: up, box: {across: [-23, -3], deep: [0, 60], up: [0, high]}}
  hatch: {of: boards, grain: up, box: {across: [0, wide], deep: [0, 20], up: [0, high]}}
joints:
  - hung: {name: hatch, parts: [hatch], stile: hatch, on: post, side: left, kind: butt hinge}
"""


def test_doors_are_hung_dry_between_the_holes_of_their_hinges_and_the_finish() -> None:
    _, lists = example("door-cabinet")
    at = {row.key or row.phase: row.number for row in lists.work}
    row = next(row for row in lists.work if row.key == "hang dry")
    holes = next(s for s in lists.setups if any(title.endswith("for hinges") for _, title in s.parts))
    finish = next(row.number for row in lists.work if row.what.startswith("Finish"))
    assert at[f"set-up {holes.number}"] < row.number < finish < at["lay left door.pane"]
    assert (
        row.what.startswith("Hang left door, right door dry") and "without glass" in row.what and ": 3 mm." in row.what
    )
    assert {"left door.left stile", "right door.top rail"} <= set(row.parts)
    assert not any(row.key == "hang dry" for row in example("bookcase")[1].work)


def test_a_lid_is_tried_without_a_word_of_glass() -> None:
    row = next(row for row in example("dovetailed-box")[1].work if row.key == "hang dry")
    assert row.what.startswith("Hang lid dry") and "glass" not in row.what + row.wrong


def test_hinges_without_places_are_not_looked_for_in_the_chart() -> None:
    def fit(of: str) -> tuple[str, str]:
        row = next(row for row in lists[of].work if row.what.startswith("Fit, each by its own sheet"))
        return row.what, row.see

    lists = {"hung": listed(HUNG)[1], "let in": example("map-case")[1]}
    what, see = fit("hung")
    assert what.endswith("No page here tells the place of butt hinge: mark it by the thing itself.")
    assert see == "hardware list"
    what, see = fit("let in")
    assert "No page" not in what and see == "hardware list, chart"


def test_the_map_case_tells_the_places_of_its_hinges() -> None:
    piece, lists = example("map-case")
    recesses = [s for s in lists.setups if s.what == "recess for a hinge's leaf"]
    assert {path for s in recesses for path, _ in s.parts} == {"case.left", "front.left"}
    assert (
        sum(
            len(row.points)
            for f in piece.part("case.left").features
            for row in f.made.holes
            if row.note.startswith("marked")
        )
        == 6
    )
