"""Fixed: what is laid in, or only lies against others, is held by small bought things whose places are the maker's."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.model import Item, Sets
from docgen.piece.records import Authority, Origin
from docgen.project.fields import Count, Field, Many, PartName, Word, Words
from docgen.project.statements import Bound


def build(bench: Bench, values: Bound) -> None:
    """Note what fixes the parts: it goes on the hardware list and into the order of work."""
    told = tuple(bench.part(path) for path in values["parts"])
    bench.item(
        Item(
            what=values["with"],
            count=values["count"],
            size=values["size"],
            authority=Authority.CUT,
            note=values["note"],
            origin=Origin(values.span, values.because),
            where=", ".join(part.path for part in told),
            sets=Sets.FIXES,
            parts=tuple(part.path for part in told),
        )
    )


WORD = Word(
    name="fixed",
    room="joint",
    help="parts that lie in rabbets or against others are held by brads, small screws or clips, driven at the putting together",
    fields=(
        Field("parts", Many(PartName()), "what is fixed", required=True),
        Field("with", Words(), "what it is fixed with", required=True),
        Field("count", Count(), "how many, for all these parts together", required=True),
        Field("size", Words(), "their size, as they are bought", default=""),
        Field("note", Words(), "how: how far apart, into what, from which side", default=""),
    ),
    example="fixed: {parts: back, with: brads, count: 24, size: 20 mm, note: 'into the rabbets, 150 apart'}",
    build=build,
)
