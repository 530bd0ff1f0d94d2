"""From a project to the piece: assemblies, coordinates, placements, then joints and operations, in that order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from docgen.expressions import ExprFault, Lookup
from docgen.piece.draft import ROOMS, Plan, in_turn, planned
from docgen.piece.drawn import drawing_wishes
from docgen.piece.faults import Fault
from docgen.piece.hole_names import named
from docgen.piece.mirrors import Mirror
from docgen.piece.model import DrawingWish, Material, Part, Piece, Rules
from docgen.piece.naming import called, glazed, materials_named, parts_named
from docgen.piece.placement import Turn, place
from docgen.piece.records import Authority, Origin
from docgen.piece.wishes import faults as wish_faults
from docgen.piece.wishes import wishes
from docgen.piece.workbench import Workbench, names_given
from docgen.places import Span
from docgen.project.bind import bind
from docgen.project.evaluate import evaluate, problem_of
from docgen.project.fields import Angle, Length
from docgen.project.model import MaterialDef, PartDef, Project, UnfinishedProject, Vocabulary
from docgen.project.resolve import Coordinates, lookup_of, resolved
from docgen.project.statements import Bound, Lazy
from docgen.reading.problems import Problem, Problems
from docgen.reading.words import did_you_mean
from docgen.trade.density import sheet, wood
from docgen.trade.names import UnknownName
from docgen.units import Quantity

UNPLACED = "unplaced-name"
"""Marks what cannot be worked out because a place, told elsewhere, has no value; never told itself."""


def build(project: Project, vocabulary: Vocabulary) -> Piece:
    """Return the piece. Raises Problems with everything that is wrong, each at its place in the file."""
    return _Builder(project, planned(project, vocabulary)).piece()


def impossible(unfinished: UnfinishedProject, vocabulary: Vocabulary) -> Problems:
    """Return all problems of a file that does not read whole: also what cannot be made of the rest.

    What the rest lacks because it was at fault is told once, by the reader.
    """
    builder = _Builder(unfinished.rest, planned(unfinished.rest, vocabulary))
    try:
        builder.piece()
    except Problems:
        made = [p for p in builder.unmakeable if not p.code.startswith("unknown-")]
        return Problems((*unfinished.items, *made))
    return unfinished


@dataclass(slots=True)
class _Builder:
    project: Project
    plan: Plan
    problems: list[Problem] = field(default_factory=list)
    unmakeable: list[Problem] = field(default_factory=list)  # those of `problems` that are faults of geometry

    def piece(self) -> Piece:
        """Return the piece; raises Problems."""
        self.problems.extend(self.plan.problems)
        self._names()
        coordinates = self._coordinates()
        sizes = {name: value for name, value, _ in self.project.sizes}
        parts = self._parts(coordinates, lookup_of(sizes, coordinates))
        bench = self._worked(parts, lookup_of(self._sizes_or_unplaced(sizes), coordinates))
        finished = named(tuple(bench.finished(path) for path in parts))
        self.problems.extend(bench.problems)
        self.problems.extend(wish_faults(self.project.templates, self.plan.parts))
        drawing = self._drawing(finished, lookup_of(sizes, coordinates))
        self.unmakeable.extend(bench.problems)
        if self.problems:
            raise Problems(self.problems)
        return replace(self._piece(finished, bench), drawing=drawing)

    def _drawing(self, parts: tuple[Part, ...], lookup: Lookup) -> tuple[DrawingWish, ...]:
        """Return what the file asks of the part sheets; not looked at where parts are missing."""
        if self.problems:
            return ()
        wished, faults = drawing_wishes(self.project.drawing, {p.path: p for p in parts}, lookup, self.project.units)
        self.problems.extend(faults)
        return wished

    def _densities(self) -> dict[str, float | None]:
        """Return the density of each material in kg/m³, stated or from the tables; note what no table holds."""
        out: dict[str, float | None] = {}
        for m in self.project.materials:
            out[m.name] = None if m.density is None else float(m.density)
            try:
                if m.density is None:
                    out[m.name] = wood(m.species).density if m.species else sheet(m.sheet)
            except UnknownName as error:
                means = " or ".join(f"'{name}'" for name in error.hints)
                nearest = f"did you mean {means}? " if means else ""
                message = f"the {error.what} '{error.name}' of {m.name} stands in no table"
                hint = f"{nearest}or state its density, in kg/m³"
                self.problems.append(Problem("unknown-wood", m.span or Span("", 1, 1), message, hint))
        return out

    def _names(self) -> None:
        """Note the materials and parts that assemblies and parts name and nobody knows."""
        parts = tuple(p.path for p in self.plan.parts)
        materials = tuple(m.name for m in self.project.materials)
        for lazy in self.project.assemblies:
            for names, known, what in (
                (parts_named(lazy), parts, "part"),
                (materials_named(lazy), materials, "material"),
            ):
                for name, where in names:
                    self._known(name, known, what, where)
        for part in self.plan.parts:
            self._known(part.material, materials, "material", part.span)

    def _known(self, name: str, known: tuple[str, ...], what: str, where: Span) -> None:
        if name not in known:
            hint = did_you_mean(name, known)
            problem = Problem(f"unknown-{what}", where, f"no {what} is called '{name}'", hint)
            if problem not in self.problems:
                self.problems.append(problem)

    def _coordinates(self) -> Coordinates:
        sizes = {name: value for name, value, _ in self.project.sizes}
        coordinates, problems = resolved(self.plan.parts, sizes, self.project.units)
        self.problems.extend(problems)
        return coordinates

    def _sizes_or_unplaced(self, sizes: Mapping[str, Quantity]) -> Lookup:
        """Return a lookup of sizes that marks the faces of parts that have no place."""
        known = {p.path for p in self.plan.parts}

        def look(name: str) -> Quantity:
            if name not in sizes and name.rpartition(".")[0] in known:
                raise ExprFault(UNPLACED, name)
            return sizes[name]

        return look

    def _parts(self, coordinates: Coordinates, lookup: Lookup) -> dict[str, Part]:
        densities = self._densities()
        materials = {m.name: _material(m, densities[m.name]) for m in self.project.materials}
        sheets = {name: m.sheet for name, m in materials.items()}
        names = called((p.path, p.called or glazed(p.path, sheets.get(p.material, ""))) for p in self.plan.parts)
        out: dict[str, Part] = {}
        for number, definition in enumerate(self.plan.parts, 1):
            material = materials.get(definition.material)
            keys = [(definition.path, axis, side) for axis in range(3) for side in (0, 1)]
            if material is None or any(key not in coordinates for key in keys):
                continue
            part = self._part(number, definition, material, [coordinates[k] for k in keys], lookup)
            if part is not None:
                out[definition.path] = replace(part, called=names[definition.path])
        return out

    def _part(self, number: int, definition: PartDef, material: Material, c: list, lookup: Lookup) -> Part | None:  # type: ignore[type-arg]
        try:
            turns = tuple(self._turn(t, definition, lookup) for t in definition.turns)
            box = ((c[0], c[1]), (c[2], c[3]), (c[4], c[5]))
            placed = place(box, definition.grain, material.thickness, turns, definition.show)
        except ExprFault as fault:
            self.problems.append(problem_of(fault, definition.span))
            return None
        except Fault as fault:
            where = _box_place(definition) if fault.field == "box" else definition.span
            units = self.project.units
            message = f"{definition.path}: {fault.told(units)}"
            self.unmakeable.append(Problem(fault.code, where, message, fault.hint(units)))
            self.problems.append(self.unmakeable[-1])
            return None
        return Part(
            path=definition.path,
            number=number,
            material=material,
            size=placed.size,
            frame=placed.frame,
            words=placed.words,
            grain_word=definition.grain,
            show=dict(placed.words)[definition.show] if definition.show else None,
            group=definition.group,
            turned=any(angle for _, angle, _, _ in turns),
            authority=Authority(definition.authority),
            hardware=definition.hardware,
            note=definition.note,
            origin=Origin(definition.span, definition.because),
            box=placed.box,
            rest=placed.rest,
        )

    def _turn(self, turn: tuple, definition: PartDef, lookup: Lookup) -> Turn:  # type: ignore[type-arg]
        axis, angle, first, second = turn
        units, where = self.project.units, definition.span
        return (
            axis,
            evaluate(angle, Angle(), lookup, units, where),
            evaluate(first, Length(), lookup, units, where),
            evaluate(second, Length(), lookup, units, where),
        )

    def _worked(self, parts: dict[str, Part], lookup: Lookup) -> Workbench:
        """Return the bench after every statement was carried out and the assemblies' last words were said."""
        everything = in_turn(self.plan.statements)
        mirrors = self._mirrors(parts, lookup)
        bench = Workbench(self.project.units, parts, names_given(everything), mirrors=mirrors)
        for lazy in everything:
            bound = self._bound(lazy, lookup)
            if bound is not None and all(name in parts for name, _ in parts_named(bound)):
                bench.carry_out(bound)
        if not self.problems and not bench.problems:
            for statement, late in self.plan.later:
                bench.finish(statement, late)
        return bench

    def _mirrors(self, parts: Mapping[str, Part], lookup: Lookup) -> tuple[Mirror, ...]:
        """Return the mirrors in their places; note pairs that are no images of each other."""
        out = []
        for plan in self.plan.mirrors:
            try:
                at = evaluate(plan.at, Length(), lookup, self.project.units, plan.span)
            except ExprFault as fault:
                if fault.code != UNPLACED:
                    self.problems.append(problem_of(fault, plan.span))
                continue
            mirror = Mirror(plan.axis, at, plan.pairs, plan.names, frozenset(one for one, _ in plan.standing))
            if not all(p in parts and q in parts for p, q in mirror.pairs.items()):
                continue
            for i, (one, other) in enumerate(plan.standing):
                if mirror.reflection(parts[one], parts[other]) is None:
                    where = plan.spans.get(f"pairs.{i}", plan.span)
                    message = f"{other} does not stand where the mirror image of {one} would"
                    self.problems.append(Problem("mirror-pair", where, message, "two parts of one size, opposite"))
                    break
            else:
                out.append(mirror)
        return tuple(out)

    def _bound(self, lazy: Lazy, lookup: Lookup) -> Bound | None:
        paths = tuple(p.path for p in self.plan.parts)
        materials = tuple(m.name for m in self.project.materials)
        names = (*(name for name, _, _ in self.project.sizes), *paths)
        try:
            return bind(lazy, lookup, units=self.project.units, parts=paths, materials=materials, names=names)
        except Problems as problems:
            self.problems.extend(p for p in problems.items if p.code != UNPLACED)
            return None

    def _piece(self, parts: tuple[Part, ...], bench: Workbench) -> Piece:
        p = self.project
        return Piece(
            title=p.title,
            number=p.number,
            revision=p.revision,
            date=p.date,
            author=p.author,
            units=p.units,
            projection=p.projection,
            paper=p.paper,
            notes=p.notes,
            sizes=p.sizes,
            parts=parts,
            joints=tuple(bench.joints),
            runs=(*self.plan.runs, *bench.runs),
            groups=tuple(bench.groups),
            fasteners=tuple(bench.fasteners),
            items=tuple(bench.items),
            drawers=tuple(bench.drawers),
            panes=tuple(bench.panes),
            conditions=p.conditions,
            shop=tuple((name, value) for name, value in p.shop.items() if value is not None),
            measured_on=tuple(p.measured_on.items()),
            stands=p.stands,
            owner=p.owner,
            approved=p.approved,
            rules=Rules(
                p.formulas,
                tuple(self.plan.parts),
                tuple(s for room in ROOMS for s in self.plan.statements[room]),
                p.drawn,
                tuple((m.name, m.uses) for m in p.materials),
            ),
            templates=wishes(p.templates),
            beside=tuple(sorted({**dict(p.beside), **bench.files}.items())),
        )


def _material(m: MaterialDef, density: float | None) -> Material:
    return Material(
        m.name, m.thickness, m.species, m.sheet, m.bought, m.stock, density, Origin(m.span), m.movement, m.stiffness
    )


def _box_place(definition: PartDef) -> Span:
    """Return where the part's box was written, the part itself when an assembly made it."""
    return next((e.span for pair in definition.box for e in pair if e.span is not None), definition.span)
