"""Files are written whole or not at all, and what is no plain file stays what it is."""

from __future__ import annotations

import os
import stat
import threading
from pathlib import Path

import pytest

from docgen.saving import create, save


def test_an_earlier_file_is_replaced(tmp_path: Path) -> None:
    path = tmp_path / "p.pdf"
    save(b"first", path)
    with path.open("rb") as opened:  # by a viewer
        save(b"second", path)
        assert opened.read() == b"first"  # whole in its old place, not written over under the reader
    assert path.read_bytes() == b"second"
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("call", ["os.fsync", "pathlib.Path.replace", "pathlib.Path.chmod"])
def test_an_earlier_file_stays_when_writing_fails(call: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "p.pdf"
    save(b"first", path)

    def broken(*_: object) -> None:
        raise OSError("disk full")

    monkeypatch.setattr(call, broken)
    with pytest.raises(OSError, match="disk full"):
        save(b"second", path)
    assert path.read_bytes() == b"first"
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o444])
def test_an_earlier_files_permissions_stay(mode: int, tmp_path: Path) -> None:
    path = tmp_path / "p.pdf"
    path.touch()
    path.chmod(mode)
    save(b"data", path)
    assert stat.S_IMODE(path.stat().st_mode) == mode


def test_a_new_file_gets_the_permissions_that_new_files_get(tmp_path: Path) -> None:
    (tmp_path / "other").touch()
    save(b"data", tmp_path / "p.pdf")
    assert (tmp_path / "p.pdf").stat().st_mode == (tmp_path / "other").stat().st_mode


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    there, link = tmp_path / "there.pdf", tmp_path / "link.pdf"
    link.symlink_to(there)
    for data in (b"first", b"second"):  # also one that led nowhere
        save(data, link)
        assert link.is_symlink() and there.read_bytes() == data and not there.is_symlink()


def test_a_ring_of_links_is_refused(tmp_path: Path) -> None:
    ring = tmp_path / "ring"
    ring.symlink_to(ring)
    with pytest.raises(OSError, match="symbolic links"):
        save(b"data", ring)
    assert ring.is_symlink()


def test_a_name_as_long_as_the_system_takes_is_written(tmp_path: Path) -> None:
    path = tmp_path / ("n" * 251 + ".pdf")
    save(b"data", path)
    assert path.read_bytes() == b"data"


def test_what_another_run_left_behind_is_not_touched(tmp_path: Path) -> None:
    left = tmp_path / f".docgen-{os.getpid()}-0.part"
    (tmp_path / "mine").write_bytes(b"mine")
    left.symlink_to(tmp_path / "mine")
    save(b"data", tmp_path / "p.pdf")
    assert left.is_symlink() and (tmp_path / "mine").read_bytes() == b"mine"


def test_a_pipe_is_written_into_and_stays_a_pipe(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    found: list[bytes] = []
    reader = threading.Thread(target=lambda: found.append(pipe.read_bytes()), daemon=True)
    reader.start()
    save(b"data", pipe)
    reader.join(10)
    assert found == [b"data"]
    assert stat.S_ISFIFO(pipe.stat().st_mode) and list(tmp_path.iterdir()) == [pipe]


def test_a_folder_is_refused_and_so_is_one_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(IsADirectoryError):
        save(b"x", tmp_path)
    with pytest.raises(OSError, match="No such file"):
        save(b"x", tmp_path / "none" / "p.pdf")


def test_a_new_file_is_made_once_and_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "start.yaml"
    with pytest.raises(TypeError):
        create("no bytes", path)  # type: ignore[arg-type]
    assert not path.exists()  # what was begun is not left to stand in the way of the next try
    create(b"mine", path)
    with pytest.raises(FileExistsError):
        create(b"other", path)
    assert path.read_bytes() == b"mine"
