"""The reference of the file's words as Markdown, made from the schema and the vocabulary, so that it cannot lag behind."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import assert_never

from docgen.expressions import FUNCTIONS
from docgen.project import schema
from docgen.project.drawing import WORDS
from docgen.project.fields import (
    Angle,
    Box,
    ByFace,
    Choice,
    Count,
    FaceWord,
    Field,
    FieldKind,
    Flag,
    Length,
    Many,
    Mass,
    MaterialName,
    Nested,
    PartName,
    Place,
    Plain,
    Reach,
    Word,
    Words,
)  # fmt: skip
from docgen.project.model import Vocabulary
from docgen.project.templates import TEMPLATE
from docgen.tables import rows

_INTRODUCTION = """\
# Words of the project file

A project file is YAML. Values are texts, numbers or formulas; nothing is guessed from how a value looks. Keys may
hold spaces. Every word below is checked: unknown ones are told with the nearest known one.
"""

_FORMULAS = f"""\
## Numbers and formulas

- A bare number takes the file's unit where it stands for a length or is added to one, and degrees where it stands
  for an angle. Beside × and ÷ it is a plain number.
- Units: mm, cm, m, in (or "), ft (or '), deg (or °), kg, g, lb. `1 1/2`, `1 1/2 in`, `3/8 in`, `5 ft 3 in`, `14 deg`.
- Signs: + - * / × ÷ and brackets. Functions: {", ".join(FUNCTIONS)}. Angle functions take degrees and give degrees.
- Names: sizes (`seat_height`) and faces of parts at rest (`left side.right`): {", ".join(schema.FACES)}.
- The axes are {schema.AXES[0]} (left to right), {schema.AXES[1]} (front to back) and {schema.AXES[2]}.
- Sizes have values of their own in any order. `--set NAME=VALUE` wins over `measured`, and that over `sizes`.
"""

_INCLUDED = """\
## Included files

A file named under `include` lies in the project file's folder or in one below it. It holds `sizes`, `materials` and
`shop`, and includes no other file. What the project file says itself wins over an included name, and formulas of the
included file follow; two included files may not say the same name. Its bare numbers read in the project file's unit:
write the unit behind each figure, and one file serves projects in both units.

```yaml
include: [shop/workshop.yaml, wood.yaml]
```
"""

_ASSEMBLIES = """\
`repeat: 3` beside the word makes the assembly three times, as `name.1`, `name.2`, `name.3`. In its formulas `copy` is
the number of the copy: `up: [low + (copy - 1) * pitch, low + copy * pitch]`.
"""

_PARTS = """\
`name: fields`. A repeated part is said once: `slat` with `repeat` gives `slat.1`, `slat.2` and so on. In its formulas
`copy` is the number of the copy, and its own name means that copy. A statement that names `slat` where one part is
meant is carried out for each copy; in a list of parts, `slat` stands for all of them. Where a statement names two repeated
parts so, their copies go together one by one; with `copies: each with each` every copy of one meets every copy of the other.

```yaml
slat: {of: boards, grain: up, box: {across: [0, 45], deep: [0, 15], up: [rail.top, top rail.bottom]},
  repeat: {along: across, count: 5, between: [left leg.right, right leg.left]}}
```
"""

_GROUPS = """\
Coordinates are said upright; the group leans as a whole, its joints with it.

```yaml
back: {parts: [left stile, right stile, slat, crest], turn: {about: across, at: {deep: 16, up: 17}, by: -12 deg}}
```
"""

_MIRRORS = """\
A mirrored part is called as the copy is; the members of a mirrored assembly or list get the copy's name before their
own (`right door.left stile`), with left and right changed where the mirror stands across. Joints, edges, holes and
operations are carried out on the copies too, when all the parts that they name are mirrored and no copy is named.

```yaml
right side: {of: left side, about: {across: width / 2}}
right door: {of: door, about: {across: width / 2}, pairs: [[case.left, case.right]]}
```
"""


def reference(words: Vocabulary) -> str:
    """Return the reference of everything that may stand in a file."""
    fixed = {
        "measured": ("A plain value, or:", schema.MEASURED),
        "materials": (_materials(), schema.MATERIAL),
        "parts": (_PARTS, schema.PART),
        "templates": ("Each line: `{part: seat, face: top}`, or `{part: seat, none: yes}`.", TEMPLATE),
        "groups": (_GROUPS, schema.GROUP),
        "mirrors": (_MIRRORS, schema.MIRROR),
        "conditions": ("", schema.CONDITIONS),
        "shop": ("", schema.SHOP),
    }
    said: dict[str, Mapping[str, Word]] = {
        "assemblies": words.assemblies,
        "drawing": WORDS,
        "joints": words.joints,
        "edges": words.edges,
        "holes": words.holes,
        "operations": words.operations,
    }
    blocks = [_INTRODUCTION, _FORMULAS, "## The head of the file\n", _table(schema.HEADER), _INCLUDED]
    blocks.append(_table(schema.INCLUDED))
    for name, text in schema.SECTIONS:
        blocks.append(f"## {name}\n\n{_sentence(text)}\n")
        if name in fixed:
            before, fields = fixed[name]
            blocks += [before.rstrip("\n") + "\n"] if before else []
            blocks.append(_table(fields))
        if name == "assemblies":
            blocks.append(_ASSEMBLIES)
        blocks += [_word(word) for word in said.get(name, {}).values()]
    return "\n".join(blocks)


def _materials() -> str:
    """Return what is said of materials, with the names that the tables know."""
    moving = [row["name"] for row in rows("wood_movement")]
    known = [row["name"] for row in rows("wood_density") if row["density"]]
    weighed = [name for name in moving if name not in known]
    sheets = [row["name"] for row in rows("panel_materials")]
    return f"""\
`name: fields`. One of species and sheet must stand.

Species of which density, movement and stiffness are known, each with its source in `shared/tables`: {"; ".join(known)}.
With `density` stated also: {"; ".join(weighed)}. Any other wood may be named where `density` is stated, and its
`movement` and `stiffness`, so that the checks can judge them.

Sheet goods: {"; ".join(sheets)}. Names with a comma stand in quotation marks.
"""


def _word(word: Word) -> str:
    """Return a word's section: what it does, its fields, one use."""
    example = word.example.strip("\n")
    return f"### {word.name}\n\n{_sentence(word.help)}\n\n{_table(word.fields)}\n```yaml\n{example}\n```\n"


def _sentence(text: str) -> str:
    """Return the text with a capital and a full stop."""
    return f"{text[:1].upper()}{text[1:].rstrip('.')}."


def _table(fields: tuple[Field, ...]) -> str:
    rows = ["| word | value | meaning |", "|---|---|---|"]
    rows += [f"| {name} | {value} | {meaning} |" for name, value, meaning in _rows(fields, "")]
    return "\n".join(rows) + "\n"


def _rows(fields: tuple[Field, ...], before: str) -> Iterator[tuple[str, str, str]]:
    """Yield name, value and meaning of each field, those of nested mappings behind their own."""
    for f in fields:
        needed = " (needed)" if f.required else ""
        default = f"; `{f.default}` if absent" if f.default not in (None, "", "[]") else ""
        yield f"{before}{f.name}{needed}", _value(f.kind), f"{f.help}{default}".replace("|", "\\|")
        nested = _nested(f.kind)
        if nested is not None:
            yield from _rows(nested.fields, f"{before}{f.name} › ")


def _nested(kind: FieldKind) -> Nested | None:
    if isinstance(kind, (Many, ByFace)):
        return _nested(kind.kind)
    return kind if isinstance(kind, Nested) else None


def _value(kind: FieldKind) -> str:
    """Return what a field takes, in a few words."""
    match kind:
        case Length() | Angle() | Plain() | Mass():
            return f"{_NAMES[type(kind)]}{_bounds(kind)}"
        case Count(least):
            return f"whole number, from {least}"
        case Choice(of):
            return " or ".join(f"`{word}`" for word in of)
        case Many(inner, least):
            return f"{_value(inner)}, one or a list" + (f" of {least} or more" if least > 1 else "")
        case ByFace(inner):
            return f"`{{face: …}}`, each {_value(inner)}"
        case Place(need):
            return f"place `{{{', '.join(f'{axis}: …' for axis in need or schema.AXES)}}}`"
        case Words() | Flag() | PartName() | MaterialName() | FaceWord() | Reach() | Box() | Nested():
            return _NAMES[type(kind)]
        case _:
            assert_never(kind)


_NAMES: dict[type, str] = {
    Length: "length",
    Angle: "angle",
    Plain: "plain number",
    Mass: "mass with its unit",
    Words: "text",
    Flag: "`yes` or `no`",
    PartName: "a part",
    MaterialName: "a material",
    FaceWord: "a face",
    Reach: "`[from, to]`",
    Box: "`{across: [..], deep: [..], up: [..]}`",
    Nested: "fields",
}


def _bounds(kind: Length | Angle | Plain | Mass) -> str:
    unit = {Length: " mm", Angle: "°", Mass: " kg", Plain: ""}[type(kind)]
    above, most = getattr(kind, "above", None), getattr(kind, "most", None)
    said = [f"above {above:g}{unit if above else ''}"] if above is not None else []
    said += [f"from {kind.least:g}{unit if kind.least else ''}"] if kind.least is not None else []
    said += [f"to {most:g}{unit}"] if most is not None else []
    return ", " + " ".join(said) if said else ""
