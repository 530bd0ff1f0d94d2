"""What a command writes over, and what it leaves alone."""

import os
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from docgen.cli import main
from docgen.tables import data_text

SHELF = Path(__file__).parents[1] / "examples" / "wall-shelf.yaml"


def run(*words: str | Path) -> Result:
    return CliRunner().invoke(main, [str(w) for w in words])


@pytest.fixture
def shelf(tmp_path: Path) -> Path:
    """Return a copy of the shelf that includes a file of materials."""
    file = tmp_path / "shelf.yaml"
    text = SHELF.read_text(encoding="utf-8")
    assert "include" not in text
    file.write_text(text.replace("docgen: 1\n", "docgen: 1\ninclude: shop.yaml\n", 1), encoding="utf-8")
    (tmp_path / "shop.yaml").write_text(
        "docgen: 1\nmaterials:\n  spare: {thickness: 1/2, species: white oak}\n", encoding="utf-8"
    )
    return file


@pytest.mark.parametrize("command", ["build", "roll"])
@pytest.mark.parametrize("name", ["shelf.yaml", "shop.yaml", "link.pdf"])
def test_what_is_read_is_never_written_over(command: str, name: str, shelf: Path) -> None:
    (shelf.parent / "link.pdf").symlink_to(shelf)
    out = shelf.parent / name
    before = out.read_bytes()
    result = run(command, shelf, "-o", out)
    assert result.exit_code == 2 and "[out-is-read]" in result.output, result.output
    assert out.read_bytes() == before


def test_another_name_of_the_same_file_is_the_same_file(shelf: Path) -> None:
    other = shelf.parent / "other.pdf"
    os.link(shelf, other)
    assert "[out-is-read]" in run("build", shelf, "-o", other).output
    assert other.read_bytes() == shelf.read_bytes()


@pytest.mark.parametrize("command", ["build", "roll", "printer"])
def test_what_another_program_wrote_is_left_alone(command: str, tmp_path: Path) -> None:
    file = () if command == "printer" else (SHELF,)
    for name, data in (("notes.txt", b"notes"), ("scan.pdf", b"%PDF-1.4 a scan /Producer (scanner)")):
        out = tmp_path / name
        out.write_bytes(data)
        result = run(command, *file, "-o", out)
        assert result.exit_code == 2 and "[out-not-ours]" in result.output, result.output
        assert out.read_bytes() == data
    assert sorted(p.name for p in tmp_path.iterdir()) == ["notes.txt", "scan.pdf"]


@pytest.mark.parametrize("command", ["build", "roll", "printer"])
def test_an_earlier_packet_and_an_empty_file_are_written_over(command: str, tmp_path: Path) -> None:
    file = () if command == "printer" else (SHELF,)
    out = tmp_path / "out.pdf"
    out.touch()
    for _ in range(2):
        result = run(command, *file, "-o", out)
        assert result.exit_code == 0, result.output
        assert out.read_bytes().startswith(b"%PDF")


def test_outlines_keep_to_their_own_files(tmp_path: Path) -> None:
    desk = SHELF.with_name("sketching-desk.yaml")
    key = run("outline", desk).output.splitlines()[0]
    for name, theirs in (("t.svg", b"<svg/>"), ("t.dxf", b"0\nSECTION\n")):
        out = tmp_path / name
        assert run("outline", desk, "--template", key, "-o", out).exit_code == 0
        assert run("outline", desk, "--template", key, "-o", out).exit_code == 0
        out.write_bytes(theirs)
        result = run("outline", desk, "--template", key, "-o", out)
        assert result.exit_code == 2 and "[out-not-ours]" in result.output
        assert out.read_bytes() == theirs


def test_a_folder_that_is_missing_is_told_as_such(tmp_path: Path) -> None:
    result = run("build", SHELF, "-o", tmp_path / "none" / "x.pdf")
    assert result.exit_code == 2
    assert f"there is no folder {tmp_path / 'none'} [packet-unwritable]" in result.output


def test_what_is_told_has_a_section() -> None:
    codes = ("out-is-read", "out-not-ours", "packet-unwritable", "starter-unwritable")
    assert all(f"\n## {code}\n" in data_text("shared", "problems.md") for code in codes)
