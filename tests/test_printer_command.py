"""Measuring a printer and building for it, as a user does."""

import io
from pathlib import Path

import pdfplumber
import pytest
from click.testing import CliRunner, Result

from docgen.cli import main

ROOT = Path(__file__).resolve().parents[1]
SHELF = ROOT / "examples" / "wall-shelf.yaml"
MM = 72 / 25.4


def run(*args: str | Path) -> Result:
    return CliRunner().invoke(main, [str(a) for a in args])


def recorded(folder: Path) -> Path:
    book = folder / "printers.yaml"
    result = run("printer", "shop laser", "--across", "200=197.4", "--down", "250=251.5", "--printers", book)
    assert result.exit_code == 0, result.output
    assert "101.32 %" in result.output and "99.40 %" in result.output
    return book


def rules(data: bytes) -> list[tuple[float, float]]:
    """Return width and height of each drawn line, mm, longest first."""
    with pdfplumber.open(io.BytesIO(data)) as book:
        lines = [((ln["x1"] - ln["x0"]) / MM, (ln["bottom"] - ln["top"]) / MM) for ln in book.pages[0].lines]
    return sorted(lines, key=max, reverse=True)


@pytest.mark.parametrize("paper", ["a4", "letter", "a4-landscape", "a3"])
def test_the_calibration_page_has_long_rules_both_ways(paper: str, tmp_path: Path) -> None:
    out = tmp_path / "page.pdf"
    assert run("printer", "-o", out, "--paper", paper).exit_code == 0
    (first, second, *_) = rules(out.read_bytes())
    down, across = round(first[1], 3), round(second[0], 3)
    assert across >= 150 and down >= 150 and across % 10 == 0 and down % 10 == 0
    with pdfplumber.open(out) as book:
        (page,) = book.pages
        text = " ".join(page.extract_text().split())
        edge = min(min(c["x0"], page.width - c["x1"], c["top"], page.height - c["bottom"]) for c in page.chars)
    assert page.height > page.width and edge / MM > 5
    assert f"--across {across:g}=READ --down {down:g}=READ" in text
    assert ("--paper" in text) is (paper != "a4")


def test_the_page_for_a_record_comes_out_true(tmp_path: Path) -> None:
    book, out = recorded(tmp_path), tmp_path / "page.pdf"
    assert run("printer", "shop laser", "-o", out, "--printers", book).exit_code == 0
    (first, second, *_) = rules(out.read_bytes())
    for length in (first[1] * 1.006, second[0] * 0.987):
        assert length == pytest.approx(10 * round(length / 10), abs=0.02)


def test_paper_too_small_to_measure_on_is_told(tmp_path: Path) -> None:
    layout = tmp_path / "small.yaml"
    margins = "{left: 7 mm, bottom: 7 mm, right: 7 mm, top: 7 mm}"
    text = f"layout: 1\nlike: {ROOT}/layouts/a4.yaml\nsize: [190 mm, 202 mm]\nmargins: {margins}\ntitle block: 20 mm\n"
    layout.write_text(text, encoding="utf-8")
    out = tmp_path / "page.pdf"
    result = run("printer", "-o", out, "--paper", layout)
    assert result.exit_code == 2 and "no line of 150 mm" in result.output and not out.exists()


def test_figures_that_no_printer_has_are_refused(tmp_path: Path) -> None:
    book = tmp_path / "printers.yaml"
    result = run("printer", "x", "--across", "200=192", "--down", "250=240", "--printers", book)
    assert result.exit_code == 2
    assert result.output.count("[printer-range]") == 2 and "actual size" in result.output
    assert not book.exists()


def test_figures_without_a_name_or_direction_are_refused(tmp_path: Path) -> None:
    book = tmp_path / "printers.yaml"
    assert run("printer", "--across", "200=199", "--down", "200=199", "--printers", book).exit_code == 2
    result = run("printer", "x", "--across", "200=199", "--printers", book)
    assert result.exit_code == 2 and "[printer-figures]" in result.output
    assert not book.exists()


def test_a_folder_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    result = run("printer", "x", "--across", "200=199", "--down", "200=199", "--printers", tmp_path / "file" / "p.yaml")
    assert result.exit_code == 2 and "[printers-unwritable]" in result.output


def test_a_spoilt_file_of_printers_is_told_with_its_line(tmp_path: Path) -> None:
    book = tmp_path / "printers.yaml"
    book.write_text("attic:\n  across: [200=180]\n  down: [200=199]\n", encoding="utf-8")
    for command in (
        ("build", SHELF, "--printer", "attic", "-o", tmp_path / "a.pdf"),
        ("printer", "attic", "-o", tmp_path / "a.pdf"),
        ("printer", "attic", "--across", "200=199", "--down", "200=199"),
    ):
        result = run(*command, "--printers", book)
        assert result.exit_code == 2
        assert f"{book}:2:12: error" in result.output and "    2 |   across: [200=180]" in result.output
    assert list(tmp_path.iterdir()) == [book]


def test_building_for_a_printer(tmp_path: Path) -> None:
    book = recorded(tmp_path)
    found = []
    for name in ("a.pdf", "b.pdf"):
        out = tmp_path / name
        result = run("build", SHELF, "-o", out, "--printer", "shop laser", "--printers", book)
        assert result.exit_code == 0, result.output
        found.append(out.read_bytes())
    assert found[0] == found[1]
    with pdfplumber.open(tmp_path / "a.pdf") as packet:
        true_size = [page for page in packet.pages if "· full size" in page.extract_text()]
        cover = " ".join(packet.pages[0].extract_text().split())
        checks = [check_lines(page) for page in (packet.pages[0], *true_size)]
        told = [page.extract_text() for page in true_size]
        sides = {page.width < page.height for page in true_size}
    assert sides == {True, False}  # templates upright, sticks on their side
    assert all("Drawn for the printer “shop laser”" in text for text in told)
    assert "101.32 %" in cover
    assert checks == [(152.4, 152.4)] * len(checks)


def check_lines(page: pdfplumber.page.Page) -> tuple[float, float]:
    """Return how long the check lines come out of the printer, mm to a hundredth: those nearest to 6 in."""
    scales = (0.987, 1.006) if page.width < page.height else (1.006, 0.987)
    level = [(ln["x1"] - ln["x0"]) / MM * scales[0] for ln in page.lines]
    upright = [(ln["bottom"] - ln["top"]) / MM * scales[1] for ln in page.lines]
    near = [min(lengths, key=lambda v: abs(v - 152.4)) for lengths in (level, upright)]
    return round(near[0], 2), round(near[1], 2)


def test_an_unknown_printer_stops_the_build(tmp_path: Path) -> None:
    book, out = recorded(tmp_path), tmp_path / "a.pdf"
    result = run("build", SHELF, "-o", out, "--printer", "shop lasr", "--printers", book)
    assert result.exit_code == 2 and "[unknown-printer]" in result.output and not out.exists()


def test_another_record_is_another_fingerprint(tmp_path: Path) -> None:
    marks = set()
    for figure in ("197.4", "197.5"):
        book = tmp_path / f"{figure}.yaml"
        run("printer", "p", "--across", f"200={figure}", "--down", "250=251.5", "--printers", book)
        out = tmp_path / "a.pdf"
        assert run("build", SHELF, "-o", out, "--only", "cutting", "--printer", "p", "--printers", book).exit_code == 0
        with pdfplumber.open(out) as packet:
            marks.add(packet.metadata["Keywords"])
    assert len(marks) == 2


def test_a_record_is_for_its_paper(tmp_path: Path) -> None:
    book, out = recorded(tmp_path), tmp_path / "a.pdf"
    words = ("build", SHELF, "-o", out, "--only", "cutting", "--printer", "shop laser", "--printers", book)
    assert "was measured" not in run(*words, "--paper", "a4").output
    assert "was measured" not in run(*words, "--paper", "a4-landscape").output
    told = run(*words, "--paper", "letter")
    assert told.exit_code == 0 and "'shop laser' was measured on paper of 210 × 297 mm" in told.output
    assert "printed on paper of 215.9 × 279.4 mm" in told.output
    plotter = ("--across", "600=592.2", "--down", "600=598", "--paper", "roll", "--printers", book)
    assert run("printer", "plotter", *plotter).exit_code == 0
    for command in (("build", SHELF), ("printer", "plotter")):
        told = run(
            *command, "-o", out, "--printers", book, *(("--printer", "plotter") if command[0] == "build" else ())
        )
        assert told.exit_code == 2 and "[printer-paper]" in told.output and "on a roll" in told.output
    assert run("printer", "--paper", "roll", "-o", out).exit_code == 2
