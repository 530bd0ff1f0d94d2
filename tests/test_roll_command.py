"""The command that writes true-size pages for a roll."""

import io
from pathlib import Path

import pypdf
import pytest
from click.testing import CliRunner

from docgen.cli import main

SHELF = Path(__file__).parents[1] / "examples" / "wall-shelf.yaml"


def run(*words: str):
    return CliRunner().invoke(main, ["roll", str(SHELF), *words])


def test_the_file_is_written_and_its_length_is_told(tmp_path: Path) -> None:
    out = tmp_path / "shelf.pdf"
    result = run("--width", "24 in", "-o", str(out))
    assert result.exit_code == 0, result.output
    pages = pypdf.PdfReader(io.BytesIO(out.read_bytes())).pages
    assert f"{len(pages)} page" in result.output and "roll of 609.6 mm" in result.output
    assert all(
        pytest.approx(float(min(p.mediabox[2:], key=lambda v: abs(float(v) - 1728)))) == 609.6 * 72 / 25.4
        for p in pages
    )
    before = out.read_bytes()
    run("--width", "24 in", "-o", str(out))
    assert out.read_bytes() == before


def test_what_cannot_be_done_is_told(tmp_path: Path) -> None:
    assert run("--width", "5 in").exit_code == 2
    assert "[roll-width]" in run("--width", "5 in").output
    result = run("-o", str(tmp_path / "none" / "x.pdf"))
    assert result.exit_code == 2 and "[packet-unwritable]" in result.output


def test_the_pages_are_drawn_for_a_measured_printer(tmp_path: Path) -> None:
    book, out = tmp_path / "printers", tmp_path / "shelf.pdf"
    measured = ["printer", "plotter", "--across", "600=592.2", "--down", "2000=1988", "--printers", str(book)]
    sheet = CliRunner().invoke(main, measured)
    assert (
        sheet.exit_code == 2
        and "[printer-paper]" in sheet.output
        and "does not lie on paper of 210 × 297 mm" in sheet.output
    )
    kept = CliRunner().invoke(main, [*measured, "--paper", "roll"])
    assert kept.exit_code == 0 and "recorded, on a roll" in kept.output and "docgen roll FILE" in kept.output
    result = run("--printer", "plotter", "--printers", str(book), "-o", str(out))
    assert result.exit_code == 0, result.output
    for page in pypdf.PdfReader(io.BytesIO(out.read_bytes())).pages:
        assert "101.32 % across the roll and 100.60 % along it" in " ".join(page.extract_text().split())
    assert run("--printer", "laser", "--printers", str(book)).exit_code == 2
    assert "plotter" in run("--printer", "ploter", "--printers", str(book)).output


def test_a_record_of_sheets_does_not_serve_a_roll(tmp_path: Path) -> None:
    book = tmp_path / "printers"
    laser = ["printer", "laser", "--across", "180=178.9", "--down", "250=249", "--printers", str(book)]
    assert CliRunner().invoke(main, laser).exit_code == 0
    result = run("--printer", "laser", "--printers", str(book), "-o", str(tmp_path / "a.pdf"))
    assert result.exit_code == 2 and "[printer-paper]" in result.output and not (tmp_path / "a.pdf").exists()
    assert "'laser' was measured on paper of 210 × 297 mm, these pages are printed on a roll" in result.output
    old = book.read_text(encoding="utf-8").replace("  paper: 210 × 297 mm\n", "")
    book.write_text(old, encoding="utf-8")
    result = run("--printer", "laser", "--printers", str(book), "-o", str(tmp_path / "a.pdf"))
    assert result.exit_code == 0 and "does not say on what paper" in result.output
