"""Finding and reading the data that travels with the program, from a checkout and from an installed wheel."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent
_FOLDERS = {
    kind: _PACKAGE / "data" / kind if (_PACKAGE / "data" / kind).is_dir() else _PACKAGE.parent / kind
    for kind in ("layouts", "shared")
}  # a wheel carries them inside the package, a checkout has them beside it


def data_path(kind: str, name: str = "") -> Path:
    """Return the path of ``layouts/NAME`` or ``shared/NAME``.

    Raises FileNotFoundError when there is no such file or folder, or when the name leads out of the folder.
    """
    folder = _FOLDERS[kind]
    path = (folder / name).resolve()
    if not path.is_relative_to(folder) or not path.exists():
        raise FileNotFoundError(f"{kind}/{name}")
    return path


def data_names(kind: str, folder: str = "", suffix: str = "") -> tuple[str, ...]:
    """Return the names, without `suffix`, of the files in a data folder that end with it, sorted."""
    found = data_path(kind, folder).iterdir()
    return tuple(
        sorted(path.name.removesuffix(suffix) for path in found if path.is_file() and path.name.endswith(suffix))
    )


def data_text(kind: str, name: str) -> str:
    """Return the text of a data file."""
    return data_path(kind, name).read_text(encoding="utf-8")


def rows(name: str) -> list[dict[str, str]]:
    """Return the rows of ``shared/tables/NAME.csv``, each by its column's heading, texts stripped.

    A row with more or fewer cells than the heading is a ValueError: the table is broken.
    """
    return [dict(row) for row in _rows(name)]


@cache
def _rows(name: str) -> tuple[dict[str, str], ...]:
    with data_path("shared", f"tables/{name}.csv").open(encoding="utf-8", newline="") as file:
        reader = csv.reader(file)
        heads = [head.strip() for head in next(reader)]
        cells = [row for row in reader if row]
    for row in cells:
        if len(row) != len(heads):
            raise ValueError(f"tables/{name}.csv: {len(row)} cells under {len(heads)} headings: {row}")
    return tuple({head: cell.strip() for head, cell in zip(heads, row, strict=True)} for row in cells)
