"""Write shared/reference.md anew from the words that the program knows: ``python -m tests.support.reference``."""

from pathlib import Path

from docgen.piece.vocabulary import vocabulary
from docgen.project.reference import reference

PAGE = Path(__file__).resolve().parents[2] / "shared" / "reference.md"

if __name__ == "__main__":
    PAGE.write_text(reference(vocabulary()), encoding="utf-8")
