"""The README tells what is there."""

import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_the_file_it_explains_is_the_example() -> None:
    (block,) = re.findall(r"```yaml\n(.*?)```", README, re.S)
    example = (ROOT / "examples" / "wall-shelf.yaml").read_text(encoding="utf-8")
    assert block == example
    assert len(example.splitlines()) < 20


def test_what_it_links_to_exists() -> None:
    links = re.findall(r"\]\(([\w/.-]+)\)", README)
    assert len(links) >= 4
    assert [link for link in links if not (ROOT / link).exists()] == []


def test_it_names_every_example() -> None:
    names = {f"examples/{p.name}" for p in (ROOT / "examples").glob("*.yaml")}
    assert {n for n in names if f"`{n}`" not in README} == set()
