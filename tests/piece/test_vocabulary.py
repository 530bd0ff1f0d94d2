import pytest

from docgen.piece.solids import Solids
from docgen.piece.vocabulary import vocabulary, words
from docgen.project.fields import Word
from tests.piece.desk import HEAD, PARTS, built

OURS = [w for w in words() if w.room in ("operation", "edge", "hole") and w.name != "knot"]  # a knot is told, not cut


@pytest.mark.parametrize("word", OURS, ids=lambda w: w.name)
def test_the_example_of_each_word_cuts_the_parts_it_names(word: Word) -> None:
    bare = built(HEAD + PARTS)
    cut = built(f"{HEAD}{PARTS}{word.room}s:\n  - {word.example}\n")
    worked = [p.path for p in cut.parts if p.features]
    assert worked
    before, after = Solids(bare), Solids(cut)
    for path in worked:
        assert abs(after.solid(path).volume - before.solid(path).volume) > 1, path


def test_words_are_found_in_their_rooms() -> None:
    known = vocabulary()
    assert {"dado", "rabbet", "tongue", "notch", "mortise", "bevel", "taper", "glued rabbet"} <= set(known.operations)
    assert {"round over", "chamfer", "corner radius", "glued corner"} <= set(known.edges)
    assert {"hole", "slotted hole"} <= set(known.holes)
    assert list(words()) == sorted(words(), key=lambda w: (w.room, w.name))
