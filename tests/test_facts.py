"""The facts are documented, plain and stable."""

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from docgen.cli import main

ROOT = Path(__file__).resolve().parents[1]
EXAMPLES = sorted((ROOT / "examples").glob("*.yaml"))


def read(file: Path, *more: str) -> dict[str, Any]:
    result = CliRunner().invoke(main, ["facts", str(file), *more])
    assert result.exit_code == 0, result.output
    out = json.loads(result.stdout)
    assert isinstance(out, dict)
    return out


def keys(value: Any, inside: str = "") -> set[str]:
    """Return all dict keys that are words of the form, not names out of the file."""
    out: set[str] = set()
    if isinstance(value, dict):
        for key, item in value.items():
            if inside != "parameters":
                out.add(key)
            out |= keys(item, key)
    elif isinstance(value, list):
        for item in value:
            out |= keys(item, inside)
    return out


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda p: p.stem)
def test_every_name_is_documented(file: Path) -> None:
    page = (ROOT / "shared" / "facts.md").read_text(encoding="utf-8")
    known = {word for word in page.replace("`", " ` ").split() if word.replace("_", "").isalnum()}
    found = {k.removesuffix("_text") for k in keys(read(file))}
    assert sorted(found - known) == []


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda p: p.stem)
def test_weights_follow_from_volumes(file: Path) -> None:
    data = read(file)
    for part in data["parts"]:
        low = [span[0] for span in part["spans"].values()]
        high = [span[1] for span in part["spans"].values()]
        box = (high[0] - low[0]) * (high[1] - low[1]) * (high[2] - low[2])
        assert 0 < part["volume"] <= box * (1 + 1e-9), part["path"]
        if part["weight"] is not None:
            assert 100 < part["weight"] / (part["volume"] * 1e-9) < 3500, part["path"]
