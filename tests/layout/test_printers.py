"""Records of measured printers: what they say, what is refused, and how they are kept."""

from dataclasses import replace
from pathlib import Path

import pytest

from docgen.layout.printer_book import book_path, find_printer, read_book, record
from docgen.layout.printers import (
    ROLL,
    Measured,
    Printer,
    doubtful,
    printer,
    scale,
    sheet_size,
    sheet_words,
    unsuited,
)
from docgen.layout.read import read_layout
from docgen.places import Span
from docgen.reading.problems import Problems, tell

HERE = Span("printer", 1, 1)


def made(across: str = "200=197.4", down: str = "250=251.5", name: str = "shop laser") -> Printer:
    return printer(name, [(t, HERE) for t in across.split(";")], [(t, HERE) for t in down.split(";")], HERE)


def code(**said: str) -> str:
    with pytest.raises(Problems) as caught:
        made(**said)
    return " ".join(p.code for p in caught.value.items)


def test_factors_undo_what_the_printer_does() -> None:
    # 98.7 % across and 100.6 % down: 1 / 0.987 and 1 / 1.006.
    x, y = made().factors((210.0, 297.0))
    assert x == pytest.approx(1.0131712, abs=1e-7)
    assert y == pytest.approx(0.9940358, abs=1e-7)


def test_a_page_on_its_side_swaps_them() -> None:
    # The printer turns such a page: its width then runs along the paper's long side.
    upright = made().factors((210.0, 297.0))
    assert made().factors((297.0, 210.0)) == (upright[1], upright[0])


def test_two_lengths_make_one_scale() -> None:
    # (150·148.2 + 250·246.5) / (150² + 250²) = (22230 + 61625) / 85000 = 0.986529…
    both = made(across="250=246.5;150=148.2").across
    assert both == (Measured(150.0, 148.2), Measured(250.0, 246.5))
    assert scale(both) == pytest.approx(83855 / 85000, rel=1e-12)


def test_inches_are_lengths_too() -> None:
    assert scale(made(across="8 in = 7 15/16 in").across) == pytest.approx(127 / 128, rel=1e-12)


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ({"across": "200=194.0"}, "printer-range"),  # 200 / 194 = 1.0309
        ({"down": "250=258"}, "printer-range"),  # 250 / 258 = 0.9690
        ({"across": "200=0"}, "printer-range"),
        ({"across": "200=-198"}, "printer-range"),
        ({"across": "149=148"}, "printer-short"),
        ({"across": "200"}, "printer-figures"),
        ({"across": "200=wide"}, "printer-figures"),
        ({"across": "200=12 deg"}, "printer-figures"),
        ({"across": "200=1e400"}, "printer-figures"),
        ({"across": "150=150;160=160;200=200"}, "printer-figures"),
        ({"across": "150=150;250=248"}, "printer-lengths-differ"),  # 100 % and 99.2 %
        ({"name": "a/b"}, "printer-name"),
        ({"name": ""}, "printer-name"),
        ({"name": " a"}, "printer-name"),
        ({"across": "200=190", "down": "20=20"}, "printer-range printer-short"),
    ],
)
def test_refused(said: dict[str, str], expected: str) -> None:
    assert code(**said) == expected


def test_beyond_three_per_cent_comes_advice() -> None:
    made(across="206=200")  # drawn at 103 %: just the most
    with pytest.raises(Problems) as caught:
        made(across="206.1=200")
    text = tell(caught.value, {})
    assert "fit" in text and "actual size" in text


def test_kept_and_read_back(tmp_path: Path) -> None:
    path = tmp_path / "settings" / "printers.yaml"
    record(made(), path)
    record(made(name="attic"), path)
    record(made(across="200=199;150=149.1"), path)
    assert read_book(path) == {"attic": made(name="attic"), "shop laser": made(across="150=149.1;200=199")}
    assert [p.name for p in path.parent.iterdir()] == ["printers.yaml"]
    first = path.read_bytes()
    record(find_printer("attic", path), path)
    assert path.read_bytes() == first


@pytest.mark.parametrize(
    ("text", "expected", "line"),
    [
        ("- a\n", "wrong-shape", 1),
        ("a: 3\n", "wrong-shape", 1),
        ("a:\n  across: [200=199]\n", "missing-key", 2),
        ("a:\n  across: [200=199]\n  down: [[200=199]]\n", "wrong-shape", 3),
        ("a:\n  across: [200=199]\n  dwon: [200=199]\n", "unknown-key", 3),
        ("a:\n  across: 200=180\n  down: 200=199\n", "printer-range", 2),
        ("a:\n  across: 200=199\n  down: 200=199\n  paper: a4\n", "printer-paper", 4),
        ("a:\n  across: 200=199\n  down: 200=199\n  paper: [roll]\n", "printer-paper", 4),
        ("a:\n  across: 250=249\n  down: 200=199\n  paper: 210 × 297 mm\n", "printer-paper", 2),
    ],
)
def test_a_spoilt_file_is_told_with_its_place(text: str, expected: str, line: int, tmp_path: Path) -> None:
    path = tmp_path / "printers.yaml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(Problems) as caught:
        read_book(path)
    (problem,) = caught.value.items
    assert (problem.code, problem.where.file, problem.where.line) == (expected, str(path), line)
    with pytest.raises(Problems):
        record(made(), path)  # what a user wrote is not lost by a new record
    assert path.read_text(encoding="utf-8") == text


def test_an_unknown_name_is_told_with_the_nearest(tmp_path: Path) -> None:
    path = tmp_path / "printers.yaml"
    with pytest.raises(Problems) as caught:
        find_printer("shop laser", path)
    assert "docgen printer" in caught.value.items[0].hint
    record(made(), path)
    with pytest.raises(Problems) as caught:
        find_printer("shop lasr", path)
    assert caught.value.items[0].code == "unknown-printer"
    assert "shop laser" in caught.value.items[0].hint


def test_the_file_is_in_the_users_settings() -> None:
    assert book_path().name == "printers.yaml"
    assert "docgen" in book_path().parts


@pytest.mark.parametrize("name", ["letter", "a4", "a4-landscape"])
@pytest.mark.parametrize("figures", [("206=200", "206=200"), ("200=206", "206=200"), ("200=205", "200=204")])
def test_the_drawn_page_stays_in_the_printable_area(name: str, figures: tuple[str, str]) -> None:
    layout = read_layout(name)
    measured = made(*figures)
    inner = measured.inside(layout)
    for turned in (False, True):
        page, room = (inner.turned(), layout.turned()) if turned else (inner, layout)
        for side, factor in zip(page.size, measured.factors(page.size), strict=True):
            assert side / 2 - (side / 2 - page.unprintable) * factor >= room.unprintable - 1e-9
    assert replace(inner, unprintable=layout.unprintable) == layout


A4, LETTER = "210 × 297 mm", "215.9 × 279.4 mm"


def test_a_record_keeps_its_paper(tmp_path: Path) -> None:
    path = tmp_path / "printers.yaml"
    for paper in (A4, LETTER, ROLL, ""):
        record(replace(made(name="p"), paper=paper), path)
        assert find_printer("p", path).paper == paper
    assert "paper:" not in path.read_text(encoding="utf-8")  # an old record stays as it was


def test_sizes_are_said_and_read_alike() -> None:
    for name in ("letter", "a4", "a4-landscape", "a3"):
        size = read_layout(name).size
        assert sheet_size(sheet_words(size)) == pytest.approx((min(size), max(size)))
    assert sheet_size(ROLL) is None


@pytest.mark.parametrize(
    ("paper", "fits"), [(A4, True), (LETTER, True), (ROLL, True), ("", True), ("148 × 210 mm", False)]
)
def test_a_length_lies_on_its_paper(paper: str, fits: bool) -> None:
    said = {way: [(text, HERE)] for way, text in (("across", "190=189"), ("down", "260=259"))}
    if fits:
        assert printer("p", said["across"], said["down"], HERE, paper).paper == paper
        return
    with pytest.raises(Problems) as caught:
        printer("p", said["across"], said["down"], HERE, paper)
    assert [p.code for p in caught.value.items] == ["printer-paper", "printer-paper"]
    assert "190 mm across does not lie on paper of 148 × 210 mm" in caught.value.items[0].message


@pytest.mark.parametrize(
    ("measured", "sheet", "wrong", "doubt"),
    [
        (A4, A4, False, False),
        (A4, LETTER, False, True),
        (A4, ROLL, True, True),
        (ROLL, ROLL, False, False),
        (ROLL, A4, True, True),
        ("", A4, False, False),
        ("", ROLL, False, True),
    ],
)
def test_rolls_and_sheets_are_not_taken_for_each_other(measured: str, sheet: str, wrong: bool, doubt: bool) -> None:
    one = replace(made(), paper=measured)
    assert (bool(unsuited(one, sheet)), bool(doubtful(one, sheet))) == (wrong, doubt)
