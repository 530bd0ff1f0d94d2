"""What shared/cautions.yaml may and may not say."""

import re
from pathlib import Path

import pytest

import docgen
from docgen.schedules.cautions import texts

TOPICS = (
    "table saw", "mitre on saw", "band saw", "router", "bearing-guided bit", "round over", "drill press", "hand drill",
    "tap", "loose tenon machine", "glue up", "finish rags", "dust", "sanding", "glass", "heavy panel", "tipping", "lifting",
)  # fmt: skip


def test_every_topic_has_its_text() -> None:
    assert [t for t in TOPICS if t not in texts()] == []


@pytest.mark.parametrize("key", texts())
def test_each_text_is_short_and_defers(key: str) -> None:
    text = texts()[key]
    assert text.title and text.symbols
    assert 5 <= len(text.lines) <= 10 or key in ("chisel", "plane")
    assert all(len(line) <= 170 and line.endswith(".") for line in text.lines)
    assert re.search(r"rule|manual|law|code|maker|label|teaches|differ", text.lines[0])


NEVER = {
    r"stacked dado set": r"\b[Nn]ever\b.*tilted arbor",
    r"compressed air": r"\b[Nn]ever\b",
    r"rip fence": r"\bnever\b",
    r"stop block": r"gauge|sled",
    r"glue alone": r"not enough",
    r"side that moves": r"moves down",
    r"guard and knife": r"back before the next cut",
}


@pytest.mark.parametrize(("phrase", "must"), NEVER.items())
def test_what_a_set_up_never_says(phrase: str, must: str) -> None:
    """Each forbidden practice may be named only to forbid it, with the safer way."""
    lines = [line for t in texts().values() for line in t.lines if re.search(phrase, line)]
    assert lines
    assert [line for line in lines if not re.search(must, line)] == []


def test_every_machine_and_caution_named_in_the_program_has_a_text() -> None:
    source = "\n".join(
        p.read_text(encoding="utf-8") for p in sorted((Path(docgen.__file__).parent / "piece").rglob("*.py"))
    )
    named = set(re.findall(r'\b(?:Setting|Caution)\(\s*"([a-z -]+)"', source))
    assert len(named) >= 3
    assert sorted(named - set(texts())) == []
