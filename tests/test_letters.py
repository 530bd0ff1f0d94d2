"""Letters that the packet's font lacks are told, and those that it has are not."""

from dataclasses import replace

from docgen.cli.letters import CODE, letters_missing
from docgen.packet.fonts import printable
from docgen.tables import data_text
from tests.support.pieces import part, piece

SLAB = piece(part("slab", ((0, 900), (0, 200), (0, 1000))))


def test_a_letter_that_the_font_lacks_is_told_once_with_its_places() -> None:
    of = replace(SLAB, title="架 shelf", notes=("架 and 好",))
    (f,) = letters_missing(of)
    assert (f.code, f.grade.value) == (CODE, "note")
    assert f.message.count("U+67B6") == 1 and "U+597D" in f.message
    assert "the piece's name, notes" in f.message


def test_the_alphabets_of_the_font_are_not_told() -> None:
    for title in ("Bücherbord für Öl", "Étagère à livres", "Полка для книг", "Ράφι", "1/2 × 20 ≈ −3°"):
        assert letters_missing(replace(SLAB, title=title)) == (), title
        assert printable(title) == title


def test_notes_of_parts_are_read_and_the_code_has_a_section() -> None:
    noted = replace(SLAB, parts=(replace(SLAB.parts[0], note="好"),))
    assert "part 1" in letters_missing(noted)[0].message
    assert f"\n## {CODE}\n" in data_text("shared", "problems.md")
