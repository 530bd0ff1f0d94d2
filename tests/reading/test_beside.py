"""Files that the project file names are read from its own folder and from nowhere else."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from docgen.places import Span
from docgen.reading.beside import beside_name, read_beside
from docgen.reading.problems import Problem, Problems

HERE = Span("piece.yaml", 7, 11, 5)


def refused(project: Path, name: str, limit: int = 1000) -> Problem:
    with pytest.raises(Problems) as caught:
        read_beside(str(project), name, limit, where=HERE)
    (problem,) = caught.value.items
    return problem


@pytest.fixture
def project(tmp_path: Path) -> Path:
    folder = tmp_path / "pieces"
    (folder / "drawings").mkdir(parents=True)
    (folder / "end.svg").write_text("<svg/>", encoding="utf-8")
    (folder / "drawings" / "end.svg").write_text("<svg>below</svg>", encoding="utf-8")
    (tmp_path / "outside.svg").write_text("secret", encoding="utf-8")
    return folder / "piece.yaml"


def test_a_file_in_the_folder_is_read(project: Path) -> None:
    assert read_beside(str(project), "end.svg", where=HERE) == "<svg/>"


def test_a_file_in_a_folder_below_is_read(project: Path) -> None:
    assert read_beside(str(project), "drawings/end.svg", where=HERE) == "<svg>below</svg>"
    assert read_beside(str(project), "drawings/../end.svg", where=HERE) == "<svg/>"


@pytest.mark.parametrize(
    "name", ["../outside.svg", "drawings/../../outside.svg", "/etc/hostname", "~/x.svg", "C:x.svg"]
)
def test_a_path_out_of_the_folder_is_refused(project: Path, name: str) -> None:
    problem = refused(project, name)
    assert problem.code == "beside-outside"
    assert problem.where == HERE


def test_a_link_out_of_the_folder_is_refused(project: Path) -> None:
    (project.parent / "link.svg").symlink_to(project.parent.parent / "outside.svg")
    (project.parent / "away").symlink_to(project.parent.parent)
    assert refused(project, "link.svg").code == "beside-outside"
    assert refused(project, "away/outside.svg").code == "beside-outside"


def test_a_link_that_stays_inside_is_followed(project: Path) -> None:
    (project.parent / "link.svg").symlink_to("drawings/end.svg")
    assert read_beside(str(project), "link.svg", where=HERE) == "<svg>below</svg>"


def test_links_in_a_ring_end(project: Path) -> None:
    (project.parent / "ring.svg").symlink_to("ring.svg")
    assert refused(project, "ring.svg").code == "beside-unreadable"


@pytest.mark.parametrize("name", ["nothing.svg", "drawings", "", "a\0b"])
def test_what_is_no_file_is_told(project: Path, name: str) -> None:
    assert refused(project, name).code == "beside-unreadable"


def test_a_pipe_is_not_waited_for(project: Path) -> None:
    os.mkfifo(project.parent / "pipe.svg")
    assert refused(project, "pipe.svg").code == "beside-unreadable"


def test_the_limit_is_the_last_size_that_is_read(project: Path) -> None:
    assert read_beside(str(project), "end.svg", 6, where=HERE) == "<svg/>"
    assert refused(project, "end.svg", 5).code == "beside-too-large"


def test_bytes_that_are_no_text_are_told_in_the_file_itself(project: Path) -> None:
    (project.parent / "bad.svg").write_bytes(b"<svg>\n\xff</svg>")
    problem = refused(project, "bad.svg")
    assert (problem.code, problem.where.line, problem.where.column) == ("not-utf8", 2, 1)
    assert problem.where.file == beside_name(str(project), "bad.svg")
