"""The draft: what assemblies add to the file's own parts and statements, before anything has a place."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from docgen.expressions import Expr, ExprFault
from docgen.piece.bench import Bench
from docgen.piece.faults import Fault
from docgen.piece.mirrors import Planned, copied, turned
from docgen.piece.model import Run
from docgen.piece.naming import spoken
from docgen.places import Span
from docgen.project.evaluate import evaluate, problem_of
from docgen.project.fields import Count
from docgen.project.model import PartDef, Project, Vocabulary
from docgen.project.say import said
from docgen.project.statements import Lazy
from docgen.reading.problems import Problem, Problems
from docgen.units import Quantity, Units

ROOMS = ("joints", "operations", "holes", "edges")
"""The sections of statements, in the order in which they are carried out."""


@dataclass(slots=True)
class Plan:
    """All parts and statements of the piece, the assemblies' among them."""

    parts: list[PartDef]
    statements: dict[str, list[Lazy]]
    runs: list[Run] = field(default_factory=list)
    later: list[tuple[Lazy, Callable[[Bench], None]]] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    mirrors: list[Planned] = field(default_factory=list)


def in_turn(statements: Mapping[str, Sequence[Lazy]]) -> list[Lazy]:
    """Return all statements in the order in which they are carried out; joints that wait come behind the operations."""
    first: list[Lazy] = []
    waiting: list[Lazy] = []
    for joint in statements[ROOMS[0]]:
        waits = bool(joint.word.waits) and joint.values[joint.word.waits] is None
        (waiting if waits else first).append(joint)
    rest = (s for room in ROOMS[2:] for s in statements[room])
    return [*first, *statements[ROOMS[1]], *waiting, *rest]


@dataclass(slots=True)
class AssemblyDraft:
    """What one assembly writes into the plan; see `bench.Draft`."""

    name: str
    units: Units
    plan: Plan
    words: Vocabulary
    statement: Lazy
    sizes: Mapping[str, Quantity]

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
        """Add a part, at the place of the assembly."""
        if called.startswith(self.name):
            called = f"{spoken(self.name)}{called[len(self.name) :]}"
        if any(p.path == path for p in self.plan.parts):
            message = f"'{path}', which '{self.name}' makes, is the name of a part already"
            self.plan.problems.append(Problem("name-twice", self._span, message, "give the assembly another name"))
            return
        self.plan.parts.append(
            PartDef(
                path,
                material,
                grain,
                box,
                turns,
                show,
                group,
                authority,
                hardware,
                note,
                self._span,
                (self._span,),
                called,
            )
        )

    def say(self, room: str, word: str, **values: Any) -> None:
        """Add a statement, at the place of the assembly."""
        known = getattr(self.words, room)
        try:
            lazy = said(known[word], values, self.units, self._span, (self._span,))
        except Problems as problems:
            self.plan.problems.extend(problems.items)
        else:
            self.plan.statements[room].append(lazy)

    def count(self, value: Expr, least: int = 1) -> int:
        """Return a count that depends on sizes alone; Problems where it has no value."""
        where = value.span or self._span
        other = [name for name in value.names() if name not in self.sizes]
        if other:
            message = f"how many there are depends on sizes alone, and '{other[0]}' is none"
            raise Problems([Problem("repeat-count", where, message, "a number, or a formula of sizes")])
        try:
            return int(evaluate(value, Count(least), self.sizes.__getitem__, self.units, where))
        except ExprFault as fault:
            raise Problems([problem_of(fault, where)]) from fault

    def run(self, run: Run) -> None:
        """Note parts cut in turn from one blank."""
        self.plan.runs.append(run)

    def later(self, build: Callable[[Bench], None]) -> None:
        """Call `build` after everything else."""
        self.plan.later.append((self.statement, build))

    @property
    def _span(self) -> Span:
        return self.statement.span


def planned(project: Project, words: Vocabulary) -> Plan:
    """Return the plan: assemblies carried out in the order of the file, their statements before the file's own.

    Then groups are turned, and mirrored copies made of what was turned.
    """
    plan = Plan(list(project.parts), {room: [] for room in ROOMS})
    sizes = {name: value for name, value, _ in project.sizes}
    for lazy in project.assemblies:
        draft = AssemblyDraft(lazy.name, project.units, plan, words, lazy, sizes)
        try:
            lazy.word.build(draft, lazy)
        except Fault as fault:
            where = lazy.spans.get(fault.field, lazy.span)
            plan.problems.append(Problem(fault.code, where, fault.told(project.units), fault.hint(project.units)))
        except Problems as problems:
            plan.problems.extend(problems.items)
    plan.parts = turned(plan.parts, project.groups, plan.problems)
    for mirror in project.mirrors:
        made, plan_of_one = copied(plan.parts, mirror, plan.problems)
        plan.parts.extend(made)
        plan.mirrors.append(plan_of_one)
    for room in ROOMS:
        plan.statements[room].extend(getattr(project, room))
    return plan
