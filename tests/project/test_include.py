from pathlib import Path

import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from docgen.cli import main
from docgen.project.include import MOST_FILES
from docgen.project.model import Project
from docgen.project.read import read_project
from docgen.reading.problems import Problem, Problems, tell
from tests.project.words import VOCABULARY

PIECE = """\
docgen: 1
piece: Trial
units: mm
include: {include}
sizes: {{width: 600, half: width / 2 - board}}
materials: {{top boards: {{species: white oak, thickness: board}}}}
parts: {{top: {{of: boards, grain: across, box: {{across: [0, half], deep: [0, 90], up: [0, board]}}}}}}
"""
WOOD = """\
sizes: {board: 20, groove: board / 4}
materials: {boards: {species: white oak, thickness: board}}
"""
SHOP = "shop: {saw depth: 80, planer: 300}\n"


def read(folder: Path, sources: dict[str, str] | None = None, *, include: str = "wood.yaml", **files: str) -> Project:
    for name, text in files.items():
        (folder / f"{name}.yaml").write_text(text, encoding="utf-8")
    text = files.get("piece") or PIECE.format(include=include)
    return read_project(str(folder / "piece.yaml"), text, VOCABULARY, {}, sources)


def refused(folder: Path, **given: str) -> tuple[Problem, ...]:
    with pytest.raises(Problems) as caught:
        read(folder, **given)
    return caught.value.items


def test_sizes_materials_and_shop_come_from_files_beside(tmp_path: Path) -> None:
    project = read(tmp_path, include="[wood.yaml, shop.yaml]", wood=WOOD, shop=SHOP)
    assert [(name, float(q.value)) for name, q, _ in project.sizes] == [
        ("board", 20), ("groove", 5), ("width", 600), ("half", 280)]  # fmt: skip
    assert [m.name for m in project.materials] == ["boards", "top boards"]
    assert project.shop["saw depth"] == 80 and project.shop["planer"] == 300
    assert project.beside == (("shop.yaml", SHOP), ("wood.yaml", WOOD))


def test_names_of_the_file_win_and_included_formulas_follow(tmp_path: Path) -> None:
    own = PIECE.format(include="wood.yaml").replace("width: 600", "width: 600, board: 18")
    own += "shop: {planer: 200}\n"
    project = read(tmp_path, piece=own.replace("wood.yaml", "[wood.yaml, shop.yaml]"), wood=WOOD, shop=SHOP)
    assert project.size("board").value == 18 and project.size("groove").value == 4.5
    assert project.shop["planer"] == 200 and project.shop["saw depth"] == 80


def test_measured_wins_over_an_included_size(tmp_path: Path) -> None:
    own = PIECE.format(include="wood.yaml") + "measured: {board: {value: 19.6, on: 2026-04-11}}\n"
    project = read(tmp_path, piece=own, wood=WOOD)
    assert float(project.size("groove").value) == 4.9 and project.measured_on == {"board": "2026-04-11"}


def test_faults_stand_at_their_place_in_the_included_file(tmp_path: Path) -> None:
    bad = "sizes:\n  board: 20 $\nmaterials:\n  boards: {species: white oak, thicknes: 20}\nparts: {}\n"
    sources: dict[str, str] = {}
    with pytest.raises(Problems) as caught:
        read(tmp_path, sources, wood=bad)
    name = (tmp_path / "wood.yaml").as_posix()
    assert {(p.where.file, p.where.line, p.code) for p in caught.value.items} == {
        (name, 2, "bad-character"), (name, 4, "unknown-key"), (name, 5, "unknown-key")}  # fmt: skip
    told = tell(caught.value, sources)
    assert "    2 |   board: 20 $" in told and "did you mean 'thickness'?" in told


def test_a_circle_over_two_files_names_both(tmp_path: Path) -> None:
    (problem,) = refused(tmp_path, wood=WOOD.replace("board: 20", "board: width / 30 + half"))
    assert problem.code == "circular-sizes"
    assert "wood.yaml" in problem.where.file and "piece.yaml, line 5" in problem.message


def test_two_files_with_one_name_are_told_unless_the_file_says_it(tmp_path: Path) -> None:
    (problem,) = refused(tmp_path, include="[wood.yaml, more.yaml]", wood=WOOD, more="sizes: {board: 22}\n")
    assert (problem.code, Path(problem.where.file).name) == ("include-clash", "more.yaml")
    assert "wood.yaml, line 1" in problem.message


def test_a_file_in_another_unit_writes_its_units_behind_the_figures(tmp_path: Path) -> None:
    (problem,) = refused(tmp_path, wood="units: inch\n" + WOOD)
    assert problem.code == "include-units" and problem.where.line == 1
    assert read(tmp_path, wood="units: mm\n" + WOOD).size("board").value == 20
    assert read(tmp_path, wood=WOOD.replace("board: 20", "board: 3/4 in")).size("board").value == pytest.approx(19.05)


@pytest.mark.parametrize(
    ("include", "code"),
    [
        ("none.yaml", "beside-unreadable"),
        ("../wood.yaml", "beside-outside"),
        ("[wood.yaml, wood.yaml]", "include-twice"),
        ("list.yaml", "wrong-shape"),
        ("broken.yaml", "yaml-syntax"),
        ("new.yaml", "bad-version"),
        (f"[{', '.join(f'f{i}.yaml' for i in range(MOST_FILES + 1))}]", "include-many"),
    ],
)
def test_what_cannot_be_included_is_told_at_once_with_the_rest(tmp_path: Path, include: str, code: str) -> None:
    files = {f"f{i}": "sizes: {}\n" for i in range(MOST_FILES + 1)}
    found = refused(
        tmp_path,
        include=include,
        wood=WOOD,
        list="- a\n",
        broken="a: [\n",
        new="docgen: 2\nsizes: {board: 20}\n",
        **files,
    )
    assert code in {p.code for p in found}


def test_an_included_file_changes_the_mark_on_the_paper(tmp_path: Path) -> None:
    def mark(wood: str) -> str:
        (tmp_path / "wood.yaml").write_text(wood, encoding="utf-8")
        piece = tmp_path / "piece.yaml"
        piece.write_text(PIECE.format(include="wood.yaml"), encoding="utf-8")
        made = CliRunner().invoke(main, ["build", str(piece), "-o", str(tmp_path / "x.pdf"), "--only", "cutting"])
        assert made.exit_code == 0, made.output
        return PdfReader(tmp_path / "x.pdf").pages[0].extract_text()

    first = mark(WOOD)
    assert first == mark(WOOD) and first != mark(WOOD + "# a remark\n")


def test_a_fault_in_an_included_file_is_shown_with_its_line(tmp_path: Path) -> None:
    (tmp_path / "wood.yaml").write_text(WOOD.replace("white oak", "white elk"), encoding="utf-8")
    (tmp_path / "piece.yaml").write_text(PIECE.format(include="wood.yaml"), encoding="utf-8")
    told = CliRunner().invoke(main, ["check", str(tmp_path / "piece.yaml")])
    assert told.exit_code == 2 and "wood.yaml:2:" in told.output and "species: white elk" in told.output
