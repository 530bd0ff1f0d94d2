"""What a command does where it cannot tell, cannot write, or is itself at fault: a status that means nothing else."""

from __future__ import annotations

import os
import stat
import subprocess
import sys
import threading
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from docgen.cli import loaded, main
from docgen.tables import data_text

ROOT = Path(__file__).resolve().parents[1]
SHELF = ROOT / "examples" / "wall-shelf.yaml"


def run(*words: str | Path) -> Result:
    return CliRunner().invoke(main, [str(w) for w in words])


@pytest.mark.parametrize("command", ["build", "check", "facts", "sheets", "roll", "outline"])
def test_a_fault_of_the_program_has_a_status_of_its_own(
    command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object) -> None:
        raise ZeroDivisionError("division by\nzero")

    monkeypatch.setattr(loaded, "build_piece", broken)
    monkeypatch.chdir(tmp_path)
    (tmp_path / "wall-shelf.pdf").write_bytes(b"earlier")
    result = run(command, SHELF)
    assert result.exit_code == 3
    told = result.stderr.splitlines()
    assert told[0].endswith("a fault of docgen, not of your file: ZeroDivisionError: division by zero [docgen-fault]")
    assert "report it" in told[2] and "Traceback" not in result.output and result.stdout == ""
    assert [p.read_bytes() for p in tmp_path.iterdir()] == [b"earlier"]


def test_the_report_says_where(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object) -> None:
        raise KeyError

    monkeypatch.setattr(loaded, "build_piece", broken)
    result = run("--traceback", "check", SHELF)
    assert result.exit_code == 3
    assert (
        result.stderr.startswith("Traceback")
        and "in broken" in result.stderr
        and "KeyError [docgen-fault]" in result.stderr
    )


def test_an_interrupt_is_no_finding(monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(loaded, "build_piece", interrupted)
    result = run("check", SHELF)
    assert (result.exit_code, result.output) == (130, "\nbroken off: no packet was written\n")


def test_a_missing_file_of_the_program_is_no_full_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    def missing(*_: object) -> None:
        (ROOT / "none").read_bytes()

    monkeypatch.setattr(loaded, "build_piece", missing)
    assert run("check", SHELF).exit_code == 3


def started(*words: str | Path, out: int, folder: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "docgen", *map(str, words)]
    return subprocess.run(command, stdout=out, stderr=subprocess.PIPE, text=True, cwd=folder, check=False)


@pytest.mark.parametrize("words", [("new", "x.yaml"), ("--help",)])
def test_a_full_disk_is_told_in_one_line(words: tuple[str, ...], tmp_path: Path) -> None:
    with Path("/dev/full").open("wb") as full:
        done = started(*words, out=full.fileno(), folder=tmp_path)
    assert done.returncode == 2
    assert done.stderr == "docgen: error: the output cannot be written: No space left on device [output-unwritable]\n"


def test_a_reader_that_went_away_is_no_finding_and_nothing_to_tell(tmp_path: Path) -> None:
    read, write = os.pipe()
    os.close(read)
    done = started("new", "x.yaml", out=write, folder=tmp_path)
    os.close(write)
    assert (done.returncode, done.stderr) == (2, "")


def test_a_packet_goes_into_a_pipe_and_what_is_told_goes_beside(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    found: list[bytes] = []
    reader = threading.Thread(target=lambda: found.append(pipe.read_bytes()), daemon=True)
    reader.start()
    result = run("build", SHELF, "--only", "cutting", "-o", pipe)
    reader.join(10)
    assert result.exit_code == 0, result.output
    assert found[0].startswith(b"%PDF") and found[0].rstrip().endswith(b"%%EOF")
    assert stat.S_ISFIFO(pipe.stat().st_mode)
    assert result.stdout == "" and "pages on" in result.stderr


def test_an_outline_is_not_silently_left_unwritten(tmp_path: Path) -> None:
    out = tmp_path / "x.svg"
    result = run("outline", SHELF, "-o", out)
    assert result.exit_code == 2 and "--template" in result.output and not out.exists()


def mark(file: Path, out: Path, *words: str) -> str:
    result = run("build", file, "--only", "cutting", "-o", out, *words)
    assert result.exit_code in (0, 1), result.output
    return next(line for line in out.read_bytes().split(b"/") if line.startswith(b"Keywords")).decode("latin-1")


def test_the_last_value_counts_and_tells_packets_apart(tmp_path: Path) -> None:
    file = tmp_path / "shelf.yaml"
    text = (
        SHELF.read_text(encoding="utf-8")
        .replace("units: mm", "units: mm\nsizes: {w: 800, d: 180}")
        .replace("[780, 800]", "[w - 20, w]")
    )
    file.write_text(text, encoding="utf-8")
    packets, marks = [], []
    for values in (("w=820", "w=880"), ("w=880", "w=820"), ("w=880",), ("w = 880 ",)):
        out = tmp_path / f"{len(packets)}.pdf"
        marks.append(mark(file, out, *(word for value in values for word in ("--set", value))))
        packets.append(out.read_bytes())
    assert packets[0] == packets[2] == packets[3] != packets[1]
    assert marks[0] == marks[2] == marks[3] != marks[1]


@pytest.mark.parametrize(
    ("sheet", "what"), [("views", "the whole piece in its views"), ("parts", "the sheet of plank")]
)
def test_a_piece_too_long_for_every_scale_is_told_with_larger_paper(sheet: str, what: str, tmp_path: Path) -> None:
    file = tmp_path / "long.yaml"
    box = "{across: [0, 90000], deep: [0, 180], up: [0, 20]}"
    file.write_text(
        "docgen: 1\npiece: Long\nunits: mm\nmaterials: {b: {species: white oak, thickness: 20}}\n"
        f"parts:\n  plank: {{of: b, grain: across, box: {box}}}\n",
        encoding="utf-8",
    )
    result = run("build", file, "--only", sheet, "-o", tmp_path / "x.pdf")
    assert result.exit_code == 2, result.output
    assert f"a4 has room at no scale for {what} [paper-too-small]" in result.output
    assert "take larger paper" in result.output


def test_a_layout_of_the_users_own_is_told_with_its_line(tmp_path: Path) -> None:
    file = tmp_path / "own.yaml"
    file.write_text("layout: 1\nlike: a4\nmargin: {left: 4000 mm}\nnonsense: 3\n", encoding="utf-8")
    result = run("build", SHELF, "--paper", file, "-o", tmp_path / "x.pdf")
    assert result.exit_code == 2
    assert "    4 | nonsense: 3" in result.output


@pytest.mark.parametrize("words", [("roll", str(SHELF), "--width"), ("printer", "p", "--down", "200=200", "--across")])
def test_a_number_without_end_is_told_as_such(words: tuple[str, ...], tmp_path: Path) -> None:
    huge = "*".join(["9" * 30] * 11)
    figure = f"{huge}={huge}" if words[0] == "printer" else huge
    result = run(*words, figure, *(("--printers", tmp_path / "p.yaml") if words[0] == "printer" else ()))
    assert result.exit_code == 2 and "larger" in result.output, result.output


def test_what_is_told_has_a_section() -> None:
    assert all(f"\n## {code}\n" in data_text("shared", "problems.md") for code in ("docgen-fault", "output-unwritable"))
