from pathlib import Path

import pytest

from docgen.drawing.records import Pen
from docgen.layout.read import names, read_layout
from docgen.reading.problems import Problem, Problems
from docgen.sheets.order import MAKERS
from docgen.tables import data_text


def problems(text: str, folder: Path, name: str = "mine.yaml") -> tuple[Problem, ...]:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    with pytest.raises(Problems) as caught:
        read_layout(path)
    return caught.value.items


def changed(old: str, new: str) -> str:
    text = data_text("layouts", "letter.yaml")
    assert old in text
    return text.replace(old, new)


@pytest.mark.parametrize("name", names())
def test_each_layout_that_comes_along_is_whole(name: str) -> None:
    layout = read_layout(name)
    assert layout.name == name
    assert set(layout.pens) == {pen.value for pen in Pen}
    assert set(layout.sheets) == set(MAKERS)
    assert min(layout.margin) >= layout.unprintable
    assert layout.area.top <= layout.size[1] - layout.margin[3]
    assert set(layout.scales) == {"mm", "inch"}
    assert all((1, 1) in ladder for ladder in layout.scales.values())


def test_a_layout_that_is_like_another_holds_only_what_differs() -> None:
    letter, lying = read_layout("letter"), read_layout("letter-landscape")
    assert lying.size == (letter.size[1], letter.size[0])
    assert lying.pens == letter.pens and lying.margin == letter.margin


def test_a_copy_of_a_layout_is_read_by_its_path(tmp_path: Path) -> None:
    path = tmp_path / "mine.yaml"
    path.write_text(changed("overlap: 15 mm", "overlap: 1/2 in"), encoding="utf-8")
    layout = read_layout(path)
    assert (layout.name, layout.overlap) == ("mine", 12.7)


def test_parts_of_a_mapping_are_given_anew(tmp_path: Path) -> None:
    path = tmp_path / "mine.yaml"
    path.write_text("layout: 1\nlike: a4\nmargins: {left: 12 mm}\npens: {thin: {width: 0.35 mm}}\n", encoding="utf-8")
    layout = read_layout(path)
    assert layout.margin == (12.0, 10.0, 10.0, 10.0)
    assert layout.pens["thin"].width == 0.35 and layout.pens["visible"].width == 0.5
    assert layout.size == (210.0, 297.0)


def test_a_layout_may_be_like_a_file_beside_it(tmp_path: Path) -> None:
    (tmp_path / "base.yaml").write_text("layout: 1\nlike: a4\npaper: Shop\n", encoding="utf-8")
    (tmp_path / "mine.yaml").write_text("layout: 1\nlike: base.yaml\n", encoding="utf-8")
    assert read_layout(tmp_path / "mine.yaml").paper == "Shop"


def test_an_unknown_name_is_told_with_the_nearest() -> None:
    with pytest.raises(Problems) as caught:
        read_layout("leter")
    assert caught.value.items[0].code == "unknown-layout"
    assert "'letter'" in caught.value.items[0].hint


def test_an_unknown_word_stands_at_its_place(tmp_path: Path) -> None:
    (problem,) = problems(changed("unprintable: 7 mm", "unprintabel: 7 mm"), tmp_path)
    assert problem.code == "unknown-key" and "'unprintable'" in problem.hint
    text = (tmp_path / "mine.yaml").read_text(encoding="utf-8")
    assert text.splitlines()[problem.where.line - 1].startswith("unprintabel")


CASES = [
    ("title block: 26 mm", "title block: 5 mm", "out-of-range"),
    ("title block: 26 mm", "title block: 26 deg", None),
    ("title block: 26 mm", "title block: [26 mm]", "wrong-shape"),
    ("title block: 26 mm                 #", "#", "missing-key"),
    ("size: [8 1/2 in, 11 in]", "size: [8 1/2 in]", "wrong-shape"),
    ("size: [8 1/2 in, 11 in]", "size: [150 mm, 260 mm]", "paper-too-small"),
    ("left: 20 mm", "left: 3 mm", "margin-unprintable"),
    ("least: 2.5 mm ", "least: 1.8 mm ", "out-of-range"),
    ("least: 2.5 mm ", "least: 5 mm ", "height-order"),
    ("{width: 0.25 mm, dash: [12, 3]}", "{width: 0.25 mm, dash: [12, 3, 1]}", "bad-dash"),
    ("dash: [24, 3, 2, 3]}", "dash: [24, 3, 0.5, 3]}", "bad-dash"),
    ("hidden: {width", "hiden: {width", "unknown-key"),
    ('"2:1", "1:1", "1:2", "1:5"', '"2:1", "1:1", "1:5", "1:2"', "scale-order"),
    ('"5:1"', '"5"', "bad-scale"),
    ("[cover, views", "[cover, vews", "unknown-word"),
    ("[cover, views", "[cover, cover, views", "duplicate-word"),
    ("layout: 1", "layout: 2", "layout-version"),
]


@pytest.mark.parametrize(("old", "new", "code"), CASES)
def test_what_is_wrong_is_told(old: str, new: str, code: str | None, tmp_path: Path) -> None:
    found = problems(changed(old, new), tmp_path)
    assert found
    if code is not None:
        assert code in {p.code for p in found}
    assert all(p.where.file.endswith("mine.yaml") for p in found)


def test_all_problems_come_in_one_go(tmp_path: Path) -> None:
    text = changed("title block: 26 mm", "title block: 5 mm").replace("overlap: 15 mm", "overlap: 1 kg")
    assert len(problems(text, tmp_path)) == 2


def test_a_circle_of_layouts_is_told(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text("layout: 1\nlike: b.yaml\n", encoding="utf-8")
    (tmp_path / "b.yaml").write_text("layout: 1\nlike: a.yaml\n", encoding="utf-8")
    with pytest.raises(Problems) as caught:
        read_layout(tmp_path / "a.yaml")
    assert caught.value.items[0].code == "circular-layout"


def test_a_list_is_no_layout(tmp_path: Path) -> None:
    assert problems("- letter\n", tmp_path)[0].code == "bad-layout"


def test_a_missing_file_is_told(tmp_path: Path) -> None:
    with pytest.raises(Problems) as caught:
        read_layout(tmp_path / "none.yaml")
    assert caught.value.items[0].code == "unreadable-file"


def test_a_paper_may_be_called_as_it_is_printed() -> None:
    assert read_layout("A4") == read_layout("a4")
    assert read_layout("ARCH D") == read_layout("arch-d")
    with pytest.raises(Problems) as found:
        read_layout("Leter")
    assert found.value.items[0].hint == "did you mean 'letter'?"
