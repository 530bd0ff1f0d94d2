"""What joints, assemblies and operation words work on while the piece is being made.

A word's `build` is called with the bench and its bound values:

* operation, edge, hole, joint: ``build(bench: Bench, values: Bound) -> None``, after all parts are placed;
* assembly: ``build(draft: Draft, values: Lazy) -> None``, before: it only adds what the file could have said
  by hand: parts whose coordinates are expressions, joints, edges, holes, groups, runs.
"""

from __future__ import annotations

from typing import Any, ClassVar, Protocol, runtime_checkable

from docgen.expressions import Expr
from docgen.geometry.shapes import Frame
from docgen.piece.model import Drawer, Fastener, Group, Item, Joint, Pane, Part, Run
from docgen.piece.records import Feature, Made, Origin, Stage
from docgen.project.statements import Bound, Lazy
from docgen.units import Units


@runtime_checkable
class Operation(Protocol):
    """A frozen dataclass of numbers (part axes, mm, degrees) that answers with records."""

    word: ClassVar[str]

    def made(self, part: Part) -> Made:
        """Return everything this operation means for `part`; `Fault` when it cannot be cut."""
        ...


class Bench(Protocol):
    """The placed parts and the ways to work on them."""

    units: Units

    def part(self, path: str) -> Part:
        """Return the part as it stands now, with the features so far."""
        ...

    def add(
        self,
        path: str,
        operation: Operation,
        *,
        title: str = "",
        stage: Stage = Stage.PART,
        origin: Origin | None = None,
    ) -> Feature:
        """Carry out `operation` on a part; a `Fault` becomes a problem at the place in the file."""
        ...

    def next_name(self, prefix: str = "") -> str:
        """Return the next free hole name: A, B, … ; the same on both parts of a joint."""
        ...

    def joint(self, joint: Joint) -> None:
        """Note a joint that was made."""
        ...

    def fastener(self, fastener: Fastener) -> None:
        """Note a fastener with its length."""
        ...

    def item(self, item: Item) -> None:
        """Note something to be bought."""
        ...

    def drawer(self, drawer: Drawer) -> None:
        """Note a drawer."""
        ...

    def pane(self, pane: Pane) -> None:
        """Note a panel in a frame."""
        ...

    def group(self, group: Group) -> None:
        """Note parts that turn together."""
        ...

    def run(self, run: Run) -> None:
        """Note parts cut in turn from one blank, where its figures are known only once all is placed."""
        ...

    def beside(self, name: str, text: str) -> None:
        """Note a file beside the project file that was read: it shapes the packet."""
        ...

    def fault(self, values: Bound, field: str, code: str, message: str, expected: str = "") -> None:
        """Note a problem at the place of `field` and go on."""
        ...


class Draft(Protocol):
    """What an assembly may add; every coordinate is an expression that may name other parts' faces."""

    name: str  # the assembly's own name: parts are called f"{name}.front"
    units: Units

    def part(
        self,
        path: str,
        *,
        material: str,
        grain: str,
        box: tuple[tuple[Expr, Expr], tuple[Expr, Expr], tuple[Expr, Expr]],
        turns: tuple[tuple[int, Expr, Expr, Expr], ...] = (),
        show: str = "",
        group: str = "",
        authority: str = "cut",
        hardware: bool = False,
        note: str = "",
        called: str = "",
    ) -> None:
        """Add a part; `called` is its name on paper, "" leaves that to the path. `turns`: (axis, angle, first, second coordinate of a point on the axis line), innermost first.

        The axis is 0 across, 1 deep, 2 up; the two coordinates are those of the other axes in rising order.
        Angles are right-handed: about across, +90 degrees takes deep into up.
        """
        ...

    def say(self, room: str, word: str, **values: Any) -> None:
        """Add a statement as the file could: room is "joints", "edges", "holes", "operations".

        Values are what the file would hold: text that parses, `Expr`, lists and dicts of these; keys with
        spaces are given with underscores.
        """
        ...

    def count(self, value: Expr, least: int = 1) -> int:
        """Return a count now: how many parts there are depends on sizes alone. Problems where it has no value."""
        ...

    def run(self, run: Run) -> None:
        """Note parts cut in turn from one blank."""
        ...

    def later(self, build: Any) -> None:
        """Call ``build(bench)`` after all parts are placed and all joints are made (drawers, panes, groups)."""
        ...


def placed_frame(part: Part) -> Frame:
    """Return the part's placement at rest; kept here so that joints need not know the field."""
    return part.frame


__all__ = ["Bench", "Bound", "Draft", "Lazy", "Operation", "placed_frame"]
