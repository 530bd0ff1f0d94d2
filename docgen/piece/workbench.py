"""The bench on which joints and operations work: placed parts, their features, and what is noted along the way."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import TypeAlias, cast

from docgen.piece.bench import Bench, Operation
from docgen.piece.faults import Fault
from docgen.piece.mirrors import Mirror, MirroredOperation
from docgen.piece.model import Drawer, Fastener, Group, Item, Joint, Pane, Part, Run
from docgen.piece.naming import parts_named
from docgen.piece.operations.base import parameters
from docgen.piece.records import Allowance, Face, Feature, Made, Origin, Stage
from docgen.places import Span
from docgen.project.statements import Bound, Lazy
from docgen.reading.problems import Problem, Problems
from docgen.units import Kind, Number, Quantity, Units, format_quantity


@dataclass(slots=True)
class _Work:
    """One operation on one part, so that it can be worked out again when the blank has its last size."""

    operation: Operation
    feature: Feature


_Cut: TypeAlias = tuple[str, str]
"""A feature: the part's path and its name there."""

_Noted: TypeAlias = tuple[int, ...]
"""How many joints, fasteners, items, drawers, panes, groups and runs there were."""


@dataclass(slots=True)
class Workbench:
    """See `bench.Bench`. `current` is the statement that is being carried out."""

    units: Units
    placed: Mapping[str, Part]
    taken: set[str] = field(default_factory=set)  # hole names that the file gives
    current: Bound | Lazy | None = None
    work: dict[str, list[_Work]] = field(default_factory=dict)
    joints: list[Joint] = field(default_factory=list)
    fasteners: list[Fastener] = field(default_factory=list)
    items: list[Item] = field(default_factory=list)
    drawers: list[Drawer] = field(default_factory=list)
    panes: list[Pane] = field(default_factory=list)
    groups: list[Group] = field(default_factory=list)
    runs: list[Run] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    files: dict[str, str] = field(default_factory=dict)  # name → text of what was read beside the project file
    mirrors: tuple[Mirror, ...] = ()
    images: dict[int, dict[_Cut, _Cut]] = field(default_factory=dict)  # by mirror: features, each with its image
    done: list[tuple[str, _Work]] = field(default_factory=list)  # by the statement that is being carried out

    def part(self, path: str) -> Part:
        """Return the part with the features so far; KeyError if there is none."""
        done = tuple(w.feature for w in self.work.get(path, ()))
        return replace(self.placed[path], features=done)

    def add(
        self,
        path: str,
        operation: Operation,
        *,
        title: str = "",
        stage: Stage = Stage.PART,
        origin: Origin | None = None,
    ) -> Feature:
        """Carry out `operation`; a `Fault` becomes a problem and leaves a feature that does nothing."""
        part = self.part(path)
        number = 1 + sum(w.feature.word == operation.word for w in self.work.get(path, ()))
        origin = origin or self._origin()
        made = self._made(part, operation, origin)
        feature = Feature(
            name=f"{operation.word} {number}",
            word=operation.word,
            title=title or operation.word,
            stage=stage,
            made=made or Made(),
            parameters=parameters(operation.of if isinstance(operation, MirroredOperation) else operation),
            origin=origin,
        )
        if made is not None:
            work = _Work(operation, feature)
            self.work.setdefault(path, []).append(work)
            self.done.append((path, work))
        return feature

    def _made(self, part: Part, operation: Operation, origin: Origin) -> Made | None:
        try:
            return operation.made(part)
        except Fault as fault:
            where = self._where(fault.field) if self.current is not None else origin.span or Span("", 1, 1)
            told = fault.told(self.units)
            message = told if part.path in told else f"{part.path}: {told}"
            self.problems.append(Problem(fault.code, where, message, fault.hint(self.units)))
            return None

    def finished(self, path: str) -> Part:
        """Return the part with every feature worked out again on its final blank."""
        part = self.part(path)
        self._agree(part)
        features = []
        for work in self.work.get(path, ()):
            made = self._made(part, work.operation, work.feature.origin)
            if made is not None:
                features.append(replace(work.feature, made=made))
        return replace(part, features=tuple(features))

    def _agree(self, part: Part) -> None:
        """Note allowances of one face that are not the same."""
        first: dict[Face, tuple[Allowance, Feature]] = {}
        for feature in part.features:
            for a in feature.made.allowances:
                other, by = first.setdefault(a.face, (a, feature))
                if abs(float(other.amount) - float(a.amount)) > 1e-6:
                    self.problems.append(
                        Problem(
                            "allowances-differ",
                            feature.origin.span or Span("", 1, 1),
                            f"{part.path}: its {part.word(a.face)} face is lengthened by {self._length(other.amount)} for "
                            f"{by.title} and by {self._length(a.amount)} for {feature.title}",
                            "give both joints one depth",
                        )
                    )

    def _length(self, mm: Number) -> str:
        return format_quantity(Quantity(mm, Kind.LENGTH), self.units)

    def next_name(self, prefix: str = "") -> str:
        """Return the next free hole name: A to Z, then AA, AB…; with a prefix the prefix and a number."""
        n = 0
        while True:
            n += 1
            name = f"{prefix}{n}" if prefix else _letters(n)
            if name not in self.taken:
                self.taken.add(name)
                return name

    def joint(self, joint: Joint) -> None:
        """Note a joint that was made."""
        self.joints.append(joint)

    def fastener(self, fastener: Fastener) -> None:
        """Note a fastener with its length."""
        self.fasteners.append(fastener)

    def item(self, item: Item) -> None:
        """Note something to be bought."""
        self.items.append(item)

    def drawer(self, drawer: Drawer) -> None:
        """Note a drawer."""
        self.drawers.append(drawer)

    def pane(self, pane: Pane) -> None:
        """Note a panel in a frame."""
        self.panes.append(pane)

    def run(self, run: Run) -> None:
        """Note parts cut in turn from one blank."""
        self.runs.append(run)

    def group(self, group: Group) -> None:
        """Note parts that turn together."""
        self.groups.append(group)

    def beside(self, name: str, text: str) -> None:
        """Note a file beside the project file that was read."""
        self.files[name] = text

    def fault(self, values: Bound, field: str, code: str, message: str, expected: str = "") -> None:
        """Note a problem at the place of `field` of a statement."""
        fault = Fault(code, message, field, expected)
        where = values.spans.get(field, values.span)
        self.problems.append(Problem(code, where, fault.told(self.units), fault.hint(self.units)))

    def carry_out(self, statement: Bound) -> None:
        """Carry out one statement, and once more in each mirror that has images of all its parts."""
        self.current = statement
        try:
            before = self._noted()
            statement.word.build(self, statement)
            self._mirrored(statement, before)
        except Fault as fault:
            self.fault(statement, fault.field, fault.code, fault.message, fault.expected)
        except Problems as found:  # in a file that the statement names
            self.problems.extend(found.items)
        finally:
            self.current = None

    def _noted(self) -> _Noted:
        self.done.clear()
        lists = (self.joints, self.fasteners, self.items, self.drawers, self.panes, self.groups, self.runs)
        return tuple(len(one) for one in lists)

    def _mirrored(self, statement: Bound, before: _Noted) -> None:
        """Carry out in every mirror what the statement did; mirrors of mirrors see their images too."""
        if not self.mirrors:
            return
        named = tuple(path for path, _ in parts_named(statement))
        joints, fasteners, items, drawers, panes, groups, runs = before
        bought = self.items[items:]
        for number, mirror in enumerate(self.mirrors):
            if not mirror.serves(named):
                continue
            done = [(path, work) for path, work in self.done if path in mirror.pairs]
            both = len(done) == len(self.done)
            features = self.images.setdefault(number, {})
            features.update(self._images(mirror, done))
            has = mirror.has
            self.joints += [mirror.joint(j, features) for j in self.joints[joints:] if has(j.parts)]
            self.fasteners += [mirror.fastener(f) for f in self.fasteners[fasteners:] if has(f.parts)]
            self.items += [mirror.item(i) for i in (self.items[items:] if both else bought)]
            self.drawers += [mirror.drawer(d) for d in self.drawers[drawers:] if has(d.parts)]
            self.panes += [mirror.pane(p) for p in self.panes[panes:] if has((p.pane, *p.frame))]
            self.groups += [mirror.group(g) for g in self.groups[groups:] if has(g.parts)]
            self.runs += [mirror.run(r) for r in self.runs[runs:] if has(r.parts)]

    def _images(self, mirror: Mirror, done: Iterable[tuple[str, _Work]]) -> dict[_Cut, _Cut]:
        """Cut on the images what was cut on the parts; return where each feature has its image."""
        out: dict[_Cut, _Cut] = {}
        for path, work in done:
            part, image = self.placed[path], self.placed[mirror.pairs[path]]
            reflection = mirror.reflection(part, image)
            assert reflection is not None, f"{image.path} is no image of {path}"
            operation = MirroredOperation(work.operation, work.feature.word, reflection, part)
            feature = self.add(
                image.path,
                cast(Operation, operation),
                title=mirror.words(work.feature.title),
                stage=work.feature.stage,
                origin=work.feature.origin,
            )
            out[path, work.feature.name] = (image.path, feature.name)
        return out

    def finish(self, statement: Lazy, late: Callable[[Bench], None]) -> None:
        """Carry out what an assembly left for the end."""
        self.current = statement
        try:
            late(self)
        except Fault as fault:
            where = self._where(fault.field)
            self.problems.append(Problem(fault.code, where, fault.told(self.units), fault.hint(self.units)))
        finally:
            self.current = None

    def _where(self, field: str) -> Span:
        assert self.current is not None
        return self.current.spans.get(field, self.current.span)

    def _origin(self) -> Origin:
        if self.current is None:
            return Origin()
        return Origin(self.current.span, self.current.because)


def _letters(n: int) -> str:
    """Return the letters of a number: A to Z, then AA, AB and so on."""
    out = ""
    while n:
        n, rest = divmod(n - 1, 26)
        out = chr(ord("A") + rest) + out
    return out


def names_given(statements: Iterable[Lazy]) -> set[str]:
    """Return the hole names that statements give themselves."""
    return {str(s.values["name"]) for s in statements if s.values.get("name")}
