"""The contributors' page names what is there, and the rooms keep their order."""

import re
from fnmatch import fnmatch
from pathlib import Path

import docgen

ROOT = Path(docgen.__file__).resolve().parents[1]
TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "docgen", "layouts", "tests", "examples", "shared"}


def test_every_room_named_in_the_contributors_page_exists() -> None:
    page = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    named = set(re.findall(r"`((?:docgen|tests|layouts|shared)/[\w/.-]*)`", page))
    assert len(named) > 15
    assert [name for name in sorted(named) if not (ROOT / name).exists()] == []


def test_every_module_named_in_the_contributors_page_exists() -> None:
    """Also those that are named from within their room, as `sheets/order.py`, `sheets/part_*` or `records.py`."""
    page = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    named = set(re.findall(r"`([\w/*]+\.py)`|`(\w+/\w+_\*)`", page))
    files = [f"/{path.relative_to(ROOT)}" for room in ("docgen", "tests") for path in (ROOT / room).rglob("*.py")]
    asked = sorted(f"*/{one or f'{several}.py'}" for one, several in named)
    assert len(asked) > 10
    assert [name for name in asked if not any(fnmatch(file, name) for file in files)] == []


def test_every_room_is_named_in_the_contributors_page() -> None:
    page = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    rooms = [p.name for p in sorted((ROOT / "docgen").iterdir()) if p.is_dir() and (p / "__init__.py").exists()]
    assert [room for room in rooms if f"`docgen/{room}/`" not in page] == []


def test_modules_stay_short() -> None:
    long = {
        str(path.relative_to(ROOT)): lines
        for path in sorted((ROOT / "docgen").rglob("*.py"))
        if (lines := len(path.read_text(encoding="utf-8").splitlines())) > 400
    }
    assert long == {}


def test_each_package_says_what_it_holds() -> None:
    for path in sorted((ROOT / "docgen").rglob("__init__.py")):
        assert path.read_text(encoding="utf-8").startswith('"""'), path
