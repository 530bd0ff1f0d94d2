"""What a project file says, checked: sizes resolved, coordinates still expressions."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeAlias

from docgen.expressions import Expr
from docgen.places import Span
from docgen.project.fields import Word
from docgen.project.statements import Lazy
from docgen.reading.problems import Problem, Problems
from docgen.units import Number, Quantity, Units

Figures: TypeAlias = tuple[tuple[str, Quantity, str], ...]
Spans: TypeAlias = tuple[tuple[Expr, Expr], tuple[Expr, Expr], tuple[Expr, Expr]]
Turn: TypeAlias = tuple[int, Expr, Expr, Expr]
"""Axis (0 across, 1 deep, 2 up), angle, and the coordinates on the two other axes in rising order."""


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """The words that may stand in the sections of a file."""

    operations: Mapping[str, Word] = field(default_factory=dict)
    edges: Mapping[str, Word] = field(default_factory=dict)
    holes: Mapping[str, Word] = field(default_factory=dict)
    joints: Mapping[str, Word] = field(default_factory=dict)
    assemblies: Mapping[str, Word] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class MaterialDef:
    """A material: solid wood of a species, or sheet goods. Lengths in mm, density in kg/m³."""

    name: str
    thickness: Number
    species: str = ""
    sheet: str = ""
    bought: str = ""
    stock: tuple[Number, Number] | None = None
    density: Number | None = None
    span: Span | None = None
    uses: tuple[str, ...] = ()  # names of the sizes that its thickness is made of
    movement: tuple[float | None, float] | None = None  # radial, tangential, share for 1 % of moisture
    stiffness: float | None = None  # MPa, along the grain


@dataclass(frozen=True, slots=True)
class PartDef:
    """A part: its box at rest along across, deep, up, then its turns, innermost first."""

    path: str
    material: str
    grain: str  # "across", "deep" or "up"
    box: Spans
    turns: tuple[Turn, ...] = ()
    show: str = ""
    group: str = ""
    authority: str = "cut"  # "cut" or "measure"
    hardware: bool = False
    note: str = ""
    span: Span = field(default=Span("", 1, 1))
    because: tuple[Span, ...] = ()
    called: str = ""  # what it is called on paper; "" leaves it to the path


@dataclass(frozen=True, slots=True)
class GroupDef:
    """Parts and assemblies that are turned together, after their own turns."""

    name: str
    parts: tuple[tuple[str, Span], ...]
    turns: tuple[Turn, ...]
    span: Span = field(default=Span("", 1, 1))


@dataclass(frozen=True, slots=True)
class MirrorDef:
    """Parts made once more as their mirror images, with what is done to them; `at` is where the mirror stands.

    `pairs` are parts that stand there already, each with the one that is its image.
    """

    name: str
    of: tuple[tuple[str, Span], ...]
    axis: int  # square to the mirror: 0 across, 1 deep, 2 up
    at: Expr
    pairs: tuple[tuple[str, str], ...] = ()
    span: Span = field(default=Span("", 1, 1))
    spans: Mapping[str, Span] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Project:
    """One project file. `sizes` has (name, value, "size" | "measured" | "set")."""

    path: str
    title: str
    number: str
    revision: str
    date: str
    author: str
    units: Units
    projection: str
    paper: str
    notes: tuple[str, ...]
    sizes: Figures
    materials: tuple[MaterialDef, ...]
    parts: tuple[PartDef, ...]
    assemblies: tuple[Lazy, ...] = ()
    groups: tuple[GroupDef, ...] = ()
    mirrors: tuple[MirrorDef, ...] = ()
    joints: tuple[Lazy, ...] = ()
    edges: tuple[Lazy, ...] = ()
    holes: tuple[Lazy, ...] = ()
    operations: tuple[Lazy, ...] = ()
    conditions: Figures = ()  # ("moisture from", …, "stated"): per cent, kg
    shop: Mapping[str, Any] = field(
        default_factory=dict
    )  # by the names of `schema.SHOP`; mm, texts; what is not stated is None
    size_spans: Mapping[str, Span] = field(default_factory=dict)  # where each size's value was written
    measured_on: Mapping[str, str] = field(default_factory=dict)  # size → date of its measurement
    formulas: tuple[tuple[str, Expr], ...] = ()  # what each size's value comes from
    drawn: tuple[tuple[str, Quantity], ...] = ()  # what the file says of the sizes whose value was measured or set
    stands: str = "floor"  # or "strapped", "wall"
    templates: tuple[Lazy, ...] = ()  # what is asked of the true-size templates
    drawing: tuple[Lazy, ...] = ()  # what is asked of the part sheets
    beside: tuple[tuple[str, str], ...] = ()  # name → text of each file that was read beside this one
    owner: str = ""
    approved: str = ""

    def size(self, name: str) -> Quantity:
        """Return the value of a size; KeyError if there is none."""
        for known, value, _ in self.sizes:
            if known == name:
                return value
        raise KeyError(name)


class UnfinishedProject(Problems):
    """All problems of reading, with what could be read all the same: `rest` lacks what is at fault."""

    def __init__(self, items: Iterable[Problem], rest: Project) -> None:
        super().__init__(items)
        self.rest = rest
