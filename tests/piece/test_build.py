from fractions import Fraction

import pytest

from docgen.piece.records import Face, Stage
from docgen.piece.solids import Solids
from tests.piece.desk import HEAD, PARTS, built, codes, problems

INCH = Fraction(254, 10)


def said(room: str, *lines: str) -> str:
    return HEAD + PARTS + f"{room}:\n" + "".join(f"  - {line}\n" for line in lines)


def test_parts_are_numbered_in_the_order_of_the_file_and_stand_where_they_are_said() -> None:
    piece = built(HEAD + PARTS)
    assert [p.number for p in piece.parts] == list(range(1, 8))
    shelf = piece.part("shelf")
    assert shelf.size == (Fraction(345, 10) * INCH, 14 * INCH, Fraction(3, 4) * INCH)
    assert shelf.box[0] == (Fraction(3, 4) * INCH, Fraction(141, 4) * INCH)


def test_a_size_that_is_set_moves_what_depends_on_it() -> None:
    assert built(HEAD + PARTS, {"board": "1/2"}).part("shelf").size[0] == 35 * INCH


def test_places_in_the_piece_and_from_a_face_say_the_same() -> None:
    hole = "hole: {{part: right side, face: left, at: {at}, diameter: 1/4, depth: 3/8{more}}}"
    one = built(said("holes", hole.format(at="{up: 6, deep: 12}", more="")))
    two = built(said("holes", hole.format(at="{up: 24, deep: 2}", more=", from: [top, back]")))
    rows = [p.part("right side").features[0].made.holes[0] for p in (one, two)]
    assert rows[0].points == rows[1].points
    assert rows[0].face == Face(2, 1)
    assert rows[0].points[0][:2] == (6 * INCH, 12 * INCH)


def test_a_row_of_holes_rises_with_the_piece() -> None:
    text = "hole: {part: left side, face: right, at: {up: 6, deep: 2}, diameter: 1/4, run: up, spacing: 2, count: 3}"
    (row,) = built(said("holes", text)).part("left side").features[0].made.holes
    assert [p[0] / INCH for p in row.points] == [6, 8, 10]


def test_holes_are_lettered_and_given_letters_are_kept() -> None:
    hole = "hole: {{part: leg, face: front, at: {{across: 41, up: {up}}}, diameter: 1/4{name}}}"
    text = said("holes", hole.format(up=5, name=""), hole.format(up=7, name=", name: A"), hole.format(up=9, name=""))
    names = [f.made.holes[0].name for f in built(text).part("leg").features]
    assert names == ["B", "A", "C"]


def test_features_keep_their_names_parameters_and_place() -> None:
    dado = "dado: {{part: left side, face: right, run: deep, span: [{a}, {a} + board], depth: 1/4}}"
    features = built(said("operations", dado.format(a=6), dado.format(a=9))).part("left side").features
    assert [f.name for f in features] == ["dado 1", "dado 2"]
    assert dict(features[0].parameters)["low"] == 6 * INCH
    assert features[1].origin.span is not None and features[1].origin.span.line == features[0].origin.span.line + 1  # type: ignore[union-attr]


def test_a_through_dado_runs_out_of_a_tongue_that_comes_later() -> None:
    text = HEAD + PARTS + (
        "operations:\n"
        "  - dado: {part: shelf, face: top, run: across, span: [6, 6 1/2], depth: 1/4}\n"
        "  - tongue: {part: shelf, face: left, length: 1/2}\n"
    )  # fmt: skip
    solid = Solids(built(text)).solid("shelf")
    whole = (34.5 + 0.5) * 14 * 0.75 - 35 * 0.5 * 0.25
    assert solid.volume == pytest.approx(whole * 25.4**3, rel=1e-9)


def test_stages_are_cut_one_after_the_other() -> None:
    text = said("edges", "glued corner: {part: [left side, top], corner: left top, radius: 1 1/8}")
    solids = Solids(built(text))
    assert solids.solid("top", Stage.PART).volume > solids.solid("top", Stage.GLUED).volume


def test_all_problems_come_at_once_each_at_its_place() -> None:
    text = HEAD + PARTS + (
        "operations:\n"
        "  - dado: {part: shelf, face: top, run: deep, span: [6, 7], depth: 2}\n"
        "  - rabbet: {part: shelf, along: [top bottom], into: 1/4, on: 1/4}\n"
        "holes:\n"
        "  - hole: {part: shelf, face: top, at: {across: 60, deep: 2}, diameter: 1/4}\n"
    )  # fmt: skip
    found = problems(text)
    assert [p.code for p in found] == ["depth-range", "arris-words", "hole-outside"]
    lines = text.splitlines()
    marked = [lines[p.where.line - 1][p.where.column - 1 :] for p in found]
    assert [m.split(",")[0].split("}")[0] for m in marked] == ["2", "[top bottom]", "{across: 60"]
    assert all("shelf" in p.message for p in found if p.code != "arris-words")


def test_parts_that_only_an_assembly_could_make_are_looked_up_when_it_has() -> None:
    case = (
        "assemblies:\n  case:\n    mitred case:\n"
        "      box: {across: [100, 130], deep: [0, 12], up: [0, 20]}\n      material: boards\n      thickness: board\n"
    )
    dado = "operations:\n  - dado: {part: case.lefft, face: right, run: deep, span: [6, 7], depth: 1/4}\n"
    found = problems(HEAD + PARTS + case + dado)
    assert [(p.code, p.hint) for p in found] == [("unknown-part", "did you mean 'case.left'?")]


def test_a_wrong_part_is_told_once_and_what_hangs_on_it_not_at_all() -> None:
    text = (HEAD + PARTS).replace("up: [12, 12 + board]", "up: [12, 13]") + (
        "operations:\n  - dado: {part: shelf, face: top, run: deep, span: [6, 7], depth: 1/4}\n"
    )
    (problem,) = problems(text)
    assert problem.code == "thickness-differs"
    assert "shelf" in problem.message and "3/4 in" in problem.message


def test_negative_lengths_and_unknown_materials() -> None:
    assert codes((HEAD + PARTS).replace("box: {across: [40, 41 3/4]", "box: {across: [42, 41 3/4]")) != []
    assert codes((HEAD + PARTS).replace("of: stock", "of: stok")) == ["unknown-material"]


def test_allowances_of_one_face_must_agree() -> None:
    tongue = "tongue: {{part: shelf, face: left, length: {n}}}"
    assert codes(said("operations", tongue.format(n="1/4"), tongue.format(n="3/8"))) == ["allowances-differ"]
    assert built(said("operations", tongue.format(n="1/4"), tongue.format(n="1/4"))).part("shelf")


def test_a_trench_cannot_run_through_its_own_face() -> None:
    text = said("operations", "dado: {part: shelf, face: top, run: up, span: [6, 7], depth: 1/4}")
    assert codes(text) == ["run-direction"]


def test_a_stop_belongs_to_an_end_of_the_run() -> None:
    text = said("operations", "dado: {part: shelf, face: top, run: deep, span: [6, 7], depth: 1/4, stop: {left: 1}}")
    assert codes(text) == ["stop-face"]


def test_a_species_that_no_table_holds_is_told_with_the_nearest() -> None:
    text = HEAD + PARTS
    species = next(w for w in ("black cherry", "white oak", "sugar maple", "black walnut") if w in text)
    (problem,) = problems(text.replace(species, species[:-1] + "x"))
    assert problem.code == "unknown-wood"
    assert species in problem.hint
