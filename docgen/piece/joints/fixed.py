"""Fixed: what is laid in, or only lies against others, is held by small bought things.

Brads, pins and clips are driven by eye: their places stay words. Screws want holes, which are set out in rows.
"""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.faults import Fault
from docgen.piece.joints.fixed_rows import SCREWS, driven
from docgen.piece.model import Item, Sets
from docgen.piece.records import Authority, Origin
from docgen.project.fields import Count, Field, Many, Nested, PartName, Word, Words
from docgen.project.statements import Bound


def build(bench: Bench, values: Bound) -> None:
    """Note what fixes the parts: it goes on the hardware list and into the order of work; drill for screws in rows."""
    said = values["count"]
    if values["screws"] is not None:
        count = sum(driven(bench, values, path) for path in values["parts"])
        if said is not None and said != count:
            message = f"{count} screws stand in the rows, the file counts {said}"
            raise Fault("fixed-count", message, "count", f"{count}, or no count")
        return
    if said is None:
        raise Fault(
            "fixed-count", f"how many {values['with']} there are is not said", "count", "count: 24, or screws in rows"
        )
    told = tuple(bench.part(path) for path in values["parts"])
    bench.item(
        Item(
            what=values["with"],
            count=said,
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
        Field("count", Count(), "how many, for all these parts together; screws in rows are counted"),
        Field("size", Words(), "their size, as they are bought", default=""),
        Field("note", Words(), "how: how far apart, into what, from which side", default=""),
        Field("screws", Nested(SCREWS), "screws in rows: their holes are drilled through the parts and dimensioned"),
    ),
    example="fixed: {parts: back, with: brads, count: 24, size: 20 mm, note: 'into the rabbets, 150 apart'}",
    build=build,
)
