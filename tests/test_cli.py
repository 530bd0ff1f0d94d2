"""The commands as a new user meets them."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from docgen.cli import main

ROOT = Path(__file__).resolve().parents[1]
SHELF = ROOT / "examples" / "wall-shelf.yaml"


def run(*args: str | Path) -> Result:
    return CliRunner().invoke(main, [str(a) for a in args])


def test_new_writes_a_file_that_builds_at_once(tmp_path: Path) -> None:
    file, packet = tmp_path / "first.yaml", tmp_path / "first.pdf"
    assert run("new", file).exit_code == 0
    result = run("build", file, "-o", packet)
    assert result.exit_code == 0, result.output
    assert packet.read_bytes().startswith(b"%PDF")


def test_new_leaves_an_existing_file_alone(tmp_path: Path) -> None:
    file = tmp_path / "mine.yaml"
    file.write_text("mine", encoding="utf-8")
    result = run("new", file)
    assert result.exit_code == 2
    assert file.read_text(encoding="utf-8") == "mine"


def test_a_file_that_cannot_be_used_leaves_the_earlier_packet(tmp_path: Path) -> None:
    packet = tmp_path / "shelf.pdf"
    packet.write_bytes(b"earlier")
    file = tmp_path / "bad.yaml"
    file.write_text(SHELF.read_text(encoding="utf-8").replace("docgen: 1", "docgne: 1"), encoding="utf-8")
    result = run("build", file, "-o", packet)
    assert result.exit_code == 2
    assert packet.read_bytes() == b"earlier"
    assert re.search(r"bad\.yaml:\d+:\d+: error: .*\[[a-z-]+\]", result.output)
    assert "docgen" in result.output
    assert list(tmp_path.glob("*.pdf")) == [packet]


@pytest.mark.parametrize("command", ["build", "check", "facts", "sheets"])
def test_a_missing_file_is_told_without_a_traceback(command: str, tmp_path: Path) -> None:
    result = run(command, tmp_path / "none.yaml")
    assert result.exit_code == 2
    assert "none.yaml" in result.output
    assert "Traceback" not in result.output


def test_bytes_that_are_no_text_are_told_with_their_line(tmp_path: Path) -> None:
    file = tmp_path / "raw.yaml"
    file.write_bytes(b"docgen: 1\npiece: \xff\n")
    result = run("check", file)
    assert result.exit_code == 2
    assert "raw.yaml:2:8" in result.output


def test_an_unknown_sheet_word_is_told_with_the_nearest(tmp_path: Path) -> None:
    result = run("build", SHELF, "-o", tmp_path / "x.pdf", "--only", "cuting")
    assert result.exit_code == 2
    assert "cutting" in result.output
    assert not (tmp_path / "x.pdf").exists()


def test_only_makes_just_these_sheets(tmp_path: Path) -> None:
    result = run("build", SHELF, "-o", tmp_path / "x.pdf", "--only", "cutting")
    assert result.exit_code == 0, result.output
    whole = run("sheets", SHELF)
    part = run("sheets", SHELF, "--only", "cutting")
    assert part.output.count("\n") < whole.output.count("\n")


def test_facts_are_json_with_the_parts_of_the_file() -> None:
    result = run("facts", SHELF)
    assert result.exit_code == 0
    assert {p["path"] for p in json.loads(result.output)["parts"]} >= {"shelf"}


def test_same_file_same_bytes_whatever_the_place_and_time(tmp_path: Path) -> None:
    packets = []
    for seed, zone, folder in (("1", "UTC", "a"), ("2", "Asia/Tokyo", "b")):
        (tmp_path / folder).mkdir()
        environment = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone, "LC_ALL": "C", "SOURCE_DATE_EPOCH": seed * 9}
        subprocess.run(
            [sys.executable, "-m", "docgen", "build", str(SHELF), "-o", "p.pdf"],
            cwd=tmp_path / folder,
            env=environment,
            check=True,
            capture_output=True,
        )
        packets.append((tmp_path / folder / "p.pdf").read_bytes())
    assert packets[0] == packets[1]
