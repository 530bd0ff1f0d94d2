"""What may be written in a file outside the statements: the header and the sections that always mean the same."""

from __future__ import annotations

import re

from docgen.project.fields import (
    Angle,
    Box,
    Choice,
    Count,
    FaceWord,
    Field,
    Flag,
    Length,
    Many,
    Mass,
    MaterialName,
    Nested,
    Place,
    Plain,
    Reach,
    Words,
)  # fmt: skip

AXES = ("across", "deep", "up")
"""The piece's axes: left to right, front to back, floor to ceiling."""

FACES = {"left": (0, 0), "right": (0, 1), "front": (1, 0), "back": (1, 1), "bottom": (2, 0), "top": (2, 1)}
"""Face word → (axis, side): side 0 low, 1 high."""

HEADER = (
    Field("docgen", Words(), "version of the file's language: 1", required=True),
    Field("piece", Words(), "what the piece is called", required=True),
    Field("number", Words(), "drawing number", default=""),
    Field("revision", Words(), "revision of the drawing", default=""),
    Field("date", Words(), "date of the revision, as 2026-03-02", default=""),
    Field("author", Words(), "who drew it and answers for it", default=""),
    Field("owner", Words(), "whose drawing it is: the workshop or its client", default=""),
    Field("approved by", Words(), "who looked it over; absent: room for a name by hand", default=""),
    Field("units", Choice(("inch", "mm")), "how bare numbers read and how sizes are printed", required=True),
    Field("finest", Length(above=0), "finest printed division, 1/32 where units are inch and 0.1 where they are mm"),
    Field(
        "projection", Choice(("third angle", "first angle")), "how views are laid out, third angle where units are inch"
    ),
    Field("paper", Words(), "the layout to use where none is asked for", default=""),
    Field(
        "include",
        Many(Words(), least=0),
        "files in this file's folder with sizes, materials and shop of their own; names said here win over theirs",
        default="[]",
    ),
    Field("notes", Many(Words(), least=0), "notes for the cover", default="[]"),
    Field(
        "stands",
        Choice(("floor", "strapped", "wall")),
        "what carries it: strapped stands on the floor and is held to the wall by straps, that it does not tip; what hangs on a "
        "wall is not judged as standing",
        default="floor",
    ),
)

INCLUDED = (
    Field("docgen", Words(), "version of the file's language: 1"),
    Field("units", Choice(("inch", "mm")), "the unit of its bare numbers, that of the file which includes it"),
    Field("notes", Many(Words(), least=0), "notes for whoever reads it", default="[]"),
)
"""The head of an included file: all of it may be left out."""

SECTIONS = (
    ("sizes", "named sizes: `name: formula`, in any order"),
    ("measured", "sizes as found after milling; each wins over the one under `sizes`"),
    ("materials", "what parts are made of, by name"),
    ("parts", "boards and panels, by name"),
    ("assemblies", "parts and joints made together: `name: {word: fields}`"),
    ("groups", "parts that are turned together: `name: fields`"),
    ("mirrors", "parts made once more as mirror images, with all that is done to them: `name: fields`"),
    ("joints", "a list of `word: fields`"),
    ("edges", "a list of `word: fields`"),
    ("holes", "a list of `word: fields`"),
    ("operations", "a list of `word: fields`"),
    ("templates", "true-size templates to print, or to leave out, beside those that come by themselves: a list"),
    (
        "drawing",
        "what the part sheets show beside or instead of what they show by themselves: a list of `word: fields`",
    ),
    ("conditions", "where the piece stands and what it carries"),
    ("shop", "what the shop's machines can take"),
)

MEASURED = (
    Field("value", Length(), "what the calliper said", required=True),
    Field("on", Words(), "the day, as 2026-03-02"),
)

MOVEMENT = (
    Field(
        "tangential",
        Plain(least=0, most=1),
        "flat-sawn boards: per cent of their width for 1 % of moisture, as 0.36",
        required=True,
    ),
    Field("radial", Plain(least=0, most=1), "quarter-sawn boards: the same"),
)

MATERIAL = (
    Field("species", Words(), "solid wood: its species"),
    Field("sheet", Words(), "sheet goods, glass: what it is"),
    Field("thickness", Length(above=0), "actual thickness", required=True),
    Field("bought", Words(), "nominal thickness as bought: 5/4", default=""),
    Field("stock", Many(Length(above=0), least=2), "length and width of the boards or sheets"),
    Field("density", Plain(least=1), "kg/m³, where the tables do not know it or it was weighed"),
    Field("movement", Nested(MOVEMENT), "how the wood moves across the grain, where the tables do not know it"),
    Field(
        "stiffness",
        Plain(least=1),
        "modulus of elasticity along the grain, MPa (N/mm²), where the tables do not know it",
    ),
)

TURN = (
    Field("about", Choice(AXES), "the axis that the part turns about", required=True),
    Field("at", Place(), "a point on that axis: its two other coordinates", required=True),
    Field("by", Angle(), "right-handed: about across, +90 degrees takes deep into up", required=True),
)

COPY = "copy"
"""What formulas of something repeated call the number of the copy, 1 for the first."""

REPEAT = (
    Field("along", Choice(AXES), "the direction in which the copies follow each other", required=True),
    Field("count", Count(), "how many; a formula of sizes"),
    Field("step", Length(), "from each copy to the next; the first stands in the box that is said"),
    Field("between", Reach(), "equal spaces between these two places: before, between and behind the copies"),
    Field("spread", Reach(), "the first copy begins and the last one ends here, equal spaces between them"),
    Field("at", Many(Length()), "where each copy begins"),
)

PART = (
    Field("of", MaterialName(), "its material", required=True),
    Field("grain", Choice(AXES), "where the grain runs, at rest", required=True),
    Field("box", Box(), "from and to along each axis, at rest, before joints", required=True),
    Field("turn", Many(Nested(TURN)), "one turn or a list of them, done in this order"),
    Field("repeat", Nested(REPEAT), "made several times: parts called `name.1`, `name.2` and so on"),
    Field("show", FaceWord(), "the face that is seen"),
    Field("group", Words(), "the group that it tilts or turns with", default=""),
    Field("authority", Choice(("cut to size", "measure first")), "which figure rules", default="cut to size"),
    Field("hardware", Flag(), "bought, not made", default="no"),
    Field("note", Words(), "a line for its sheet", default=""),
    Field("called", Words(), "what it is called on paper, where that is not its name", default=""),
)

GROUP = (
    Field("parts", Many(Words()), "names of parts, of repeated parts and of assemblies", required=True),
    Field("turn", Many(Nested(TURN)), "one turn or a list of them, done after the parts' own", required=True),
)

MIRROR = (
    Field("of", Many(Words()), "names of parts, of repeated parts and of assemblies", required=True),
    Field("about", Place(), "where the mirror stands, across one direction: `{across: width / 2}`", required=True),
    Field(
        "pairs",
        Many(Many(Words())),
        "parts that stand there already, each with its image: `[[left side, right side]]`; one through whose middle the mirror "
        "stands is its own: `[[top, top]]`",
    ),
)

MOISTURE = (
    Field("from", Plain(least=0), "driest wood moisture of the year, per cent", required=True),
    Field("to", Plain(least=0), "wettest wood moisture of the year, per cent", required=True),
    Field("on the day", Plain(least=0), "wood moisture on the day of fitting, per cent"),
)

HUMIDITY = (
    Field("from", Plain(least=0), "driest air of the year, per cent of relative humidity", required=True),
    Field("to", Plain(least=0), "dampest air of the year, per cent of relative humidity", required=True),
    Field("on the day", Plain(least=0), "relative humidity where the wood lay before it was fitted, per cent"),
    Field("temperature", Plain(), "of the room, degrees Celsius", default="20"),
)

WALL = (
    Field("covering", Length(least=0), "plaster, board or tiles before what bears in the wall", default="0"),
    Field("embedment", Length(above=0), "how deep screws go into that, as the wall's builder asks", required=True),
)

CONDITIONS = (
    Field("moisture", Nested(MOISTURE), "how the wood's moisture swings where the piece stands"),
    Field("humidity", Nested(HUMIDITY), "how the air's humidity swings there, where the wood's moisture is not stated"),
    Field(
        "shelf load",
        Mass(least=0),
        "what each shelf carries: a level board under the top, at least three times as wide as thick, on which no other part lies",
    ),
    Field("drawer load", Mass(least=0), "what each drawer carries"),
    Field(
        "top load",
        Mass(least=0),
        "what stands on the top; boards that make it together share it as they weigh on the feet, and each alone is to carry all of it",
    ),
    Field("side push", Mass(least=0), "a level push at the top, told as the weight that pulls as hard"),
    Field("wall", Nested(WALL), "the wall that the piece hangs on: screws for it are listed with their length"),
)

SHOP = (
    Field("saw depth", Length(above=0), "deepest cut of the table saw, blade square"),
    Field("saw depth at 45", Length(above=0), "deepest cut of the table saw, blade tilted to 45 degrees"),
    Field("kerf", Length(above=0), "width of the saw's cut"),
    Field("gauge", Angle(least=0, most=90), "how far the mitre gauge swings from square"),
    Field("fence reach", Length(above=0), "from blade to rip fence at the most"),
    Field("sled", Length(above=0), "longest part on the cross-cut sled"),
    Field("jointer", Length(above=0), "widest board on the jointer"),
    Field("planer", Length(above=0), "widest board through the planer"),
    Field("sander", Length(above=0), "widest board through the drum sander"),
    Field("drill reach", Length(above=0), "from the drill press's column to the drill"),
    Field("drill stroke", Length(above=0), "deepest hole in one stroke"),
    Field("router speed", Plain(least=1), "slowest speed of the router, turns a minute"),
    Field("clamp", Length(above=0), "longest clamp"),
    Field("clamps", Count(), "how many clamps for boards glued up to width"),
    Field("drills", Many(Words()), "drills at hand, as they are called"),
    Field("taps", Many(Words()), "taps at hand"),
    Field("bits", Many(Length(above=0)), "diameters of straight router bits"),
    Field(
        "placing", Length(above=0), "how far from its figure a line or a hole may come out; stands on each part sheet"
    ),
)

NAME = re.compile(r"[^\W\d]\w*(?: \w+)*")
"""What a size, material, part or assembly may be called; its words are parted by single spaces."""
