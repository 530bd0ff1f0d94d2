from __future__ import annotations

from docgen.project.reference import reference
from docgen.project.schema import CONDITIONS, HEADER, MATERIAL, PART, SECTIONS, SHOP
from tests.project.words import VOCABULARY


def test_everything_that_may_be_written_is_in_the_reference() -> None:
    text = reference(VOCABULARY)
    for fields in (HEADER, MATERIAL, PART, CONDITIONS, SHOP):
        for f in fields:
            assert f"| {f.name}" in text and f.help in text
    for name, _ in SECTIONS:
        assert f"\n## {name}\n" in text
    for room in (VOCABULARY.assemblies, VOCABULARY.joints, VOCABULARY.edges, VOCABULARY.holes, VOCABULARY.operations):
        for word in room.values():
            assert f"\n### {word.name}\n" in text and word.help in text and word.example in text
            assert all(f"| {f.name}" in text for f in word.fields)


def test_values_are_said_in_words() -> None:
    text = reference(VOCABULARY)
    assert "| depth (needed) | length, above 0 | depth of the cut |" in text
    assert "| stop | `{face: …}`, each length, from 0 | how far before a face it stops |" in text
    assert "| lean | angle, from -45° to 45° | from square |" in text
    assert "| run › kerf | length, above 0 | saw; `1/8` if absent |" in text
    assert "| at (needed) | place `{across: …}`, one or a list | where |" in text


def test_the_reference_is_the_same_each_time() -> None:
    assert reference(VOCABULARY) == reference(VOCABULARY)
