"""A project file → `Project`, with all that is wrong with the file told at once."""

from __future__ import annotations

from collections.abc import Iterable, MutableMapping
from collections.abc import Mapping as MappingOf

from docgen.expressions import ExprFault
from docgen.places import Span
from docgen.project.bind import bind
from docgen.project.check import Checker
from docgen.project.drawing import read_drawing
from docgen.project.fields import Field, Word
from docgen.project.header import read_header
from docgen.project.include import read_included
from docgen.project.model import Figures, MaterialDef, Project, UnfinishedProject, Vocabulary
from docgen.project.names import Names
from docgen.project.parts import mirrored_part, read_groups, read_mirrors, read_parts
from docgen.project.repeats import count_of
from docgen.project.saying import read_assemblies, read_statements
from docgen.project.schema import CONDITIONS, HEADER, MATERIAL, SECTIONS, SHOP
from docgen.project.sizes import Sizes, name_fits, read_sizes
from docgen.project.statements import Bound, Lazy
from docgen.project.templates import read_templates
from docgen.reading.problems import Problem, Problems
from docgen.reading.tree import Entry, Mapping, Scalar, Sequence, read_tree
from docgen.reading.words import nearest
from docgen.units import Kind, Quantity, Units

STATEMENTS = ("joints", "edges", "holes", "operations")
_BROKEN = "broken-size"  # marks what cannot be worked out because a size, told elsewhere, has no value


def read_project(
    path: str,
    text: str,
    words: Vocabulary,
    sets: MappingOf[str, str],
    sources: MutableMapping[str, str] | None = None,
) -> Project:
    """Return the project in `text`; `path` is the file's name in messages, `sets` are values for this run by name.

    `sources` gets the text of each file that it includes, by the name that places carry, for `tell`.
    Raises Problems with everything that is wrong with the file; UnfinishedProject, where the rest of it can be judged.
    """
    tree = read_tree(path, text)
    if not isinstance(tree, Mapping):
        hint = "begin with: docgen: 1"
        raise Problems([Problem("wrong-shape", tree.span, "a project file holds `key: value` pairs", hint)])
    return _Reader(path, tree, words).project(sets, {} if sources is None else sources)


class _Reader:
    """Goes through the sections, each with what the ones before it know."""

    def __init__(self, path: str, tree: Mapping, words: Vocabulary) -> None:
        self._path, self._tree, self._words = path, tree, words
        self._checker = Checker(Units())
        self._start = Span(path, 1, 1)

    def project(self, sets: MappingOf[str, str], sources: MutableMapping[str, str]) -> Project:
        """Return the project; raises Problems."""
        self._top()
        checker = self._checker
        head, places = read_header(self._tree, checker, self._start)
        headed = not checker.problems
        named = [(name, places[f"include.{i}"]) for i, name in enumerate(head["include"] or ()) if name]
        included = read_included(self._path, named, checker, sources)
        self._tree = included.merged(self._tree)
        sizes = read_sizes(self._section("sizes"), self._section("measured"), sets, checker)
        checker.names = self._names(sizes)
        materials = self._materials(checker.names)
        names = checker.names
        parts = read_parts(self._entries("parts"), checker, names)
        assemblies = read_assemblies(self._entries("assemblies"), self._words.assemblies, checker, names)
        groups = read_groups(self._entries("groups"), checker)
        mirrors = read_mirrors(self._entries("mirrors"), checker)
        rest = {
            section: read_statements(self._tree.get(section), getattr(self._words, section), checker, names)
            for section in STATEMENTS
        }
        conditions = self._conditions()
        shop = self._fixed("shop", SHOP)
        templates = read_templates(self._tree, checker)
        drawing = read_drawing(self._tree, checker, names)
        if checker.problems and not headed:
            raise Problems(checker.problems)
        project = Project(
            path=self._path,
            title=head["piece"],
            number=head["number"],
            revision=head["revision"],
            date=head["date"],
            author=head["author"],
            units=checker.units,
            projection=head["projection"],
            paper=head["paper"],
            notes=head["notes"],
            sizes=sizes.figures,
            materials=materials,
            parts=parts,
            assemblies=assemblies,
            groups=groups,
            mirrors=mirrors,
            joints=rest["joints"],
            edges=rest["edges"],
            holes=rest["holes"],
            operations=rest["operations"],
            conditions=conditions,
            shop=shop.values if shop else {},
            size_spans=sizes.spans,
            measured_on=sizes.measured_on,
            formulas=sizes.formulas,
            drawn=sizes.drawn,
            stands=head["stands"],
            templates=templates,
            drawing=drawing,
            owner=head["owner"],
            approved=head["approved by"],
            beside=tuple(sorted(included.texts.items())),
        )
        if checker.problems:
            raise UnfinishedProject(checker.problems, project)
        return project

    def _top(self) -> None:
        """Check the keys of the file, and that it makes any parts."""
        known = (*(f.name for f in HEADER), *(name for name, _ in SECTIONS))
        self._checker.known_keys(self._tree, known, "the file")
        if not any(self._tree.get(section) for section in ("parts", "assemblies")):
            self._checker.fault(
                "missing-key", self._start, "the file lacks 'parts'", "name the parts of the piece under parts:"
            )

    def _section(self, name: str) -> Mapping | None:
        """Return a section that is a mapping, None when it is absent, empty or something else."""
        entry = self._tree.get(name)
        if entry is None or (isinstance(entry.value, Scalar) and entry.value.absent):
            return None
        return self._checker.as_mapping(entry.value, f"'{name}'")

    def _names(self, sizes: Sizes) -> Names:
        """Return the names that the rest of the file may use; note names that cannot be used or stand twice."""
        kept: dict[str, Scalar] = {}
        for section, what in (
            ("parts", "part"),
            ("assemblies", "assembly"),
            ("mirrors", "mirrored copy"),
            ("materials", "material"),
        ):
            mapping = self._section(section)
            for key in (entry.key for entry in (mapping.items if mapping else ())):
                name_fits(key, what, self._checker)
                first = kept.get(key.text)
                if first is not None and section != "materials":
                    message = f"'{key.text}' is the name of something else already, on line {first.span.line}"
                    self._checker.fault("name-twice", key.span, message, "give it a name of its own")
                elif section != "materials":
                    kept[key.text] = key
        return self._known(sizes)

    def _known(self, sizes: Sizes) -> Names:
        """Return the names by what they stand for."""
        units, values = self._checker.units, sizes.values
        parts, repeats = [], {}
        for entry in self._entries("parts"):
            name = entry.key.text
            repeat = entry.value.get("repeat") if isinstance(entry.value, Mapping) else None
            if repeat is None:
                parts.append(name)
            else:
                repeats[name] = count_of(repeat.value, values, units)
                parts += [f"{name}.{n}" for n in range(1, repeats[name] + 1)]
        groups = [*repeats, *(entry.key.text for entry in self._entries("assemblies"))]
        for entry in self._entries("mirrors"):
            one = mirrored_part(entry, groups)
            (parts if one else groups).append(entry.key.text)
        return Names(
            sizes=values,
            broken=sizes.broken,
            parts=tuple(parts),
            assemblies=tuple(name for name in groups if name not in repeats),
            materials=tuple(entry.key.text for entry in self._entries("materials")),
            repeats=repeats,
        )

    def _entries(self, section: str) -> tuple[Entry, ...]:
        entry = self._tree.get(section)
        return entry.value.items if entry is not None and isinstance(entry.value, Mapping) else ()

    def _materials(self, names: Names) -> tuple[MaterialDef, ...]:
        word = _section_word("materials", MATERIAL)
        out = []
        for entry in self._entries("materials"):
            key = entry.key
            before = len(self._checker.problems)
            lazy = self._checker.statement(word, entry.value, key.span, name=key.text)
            self._of_one_kind(entry)
            if lazy is not None and len(self._checker.problems) == before:
                bound = self._bound(lazy, names)
                out += [_material(bound, lazy["thickness"].names())] if bound else []
        return tuple(out)

    def _of_one_kind(self, entry: Entry) -> None:
        """Check that a material is either solid wood or sheet goods, and that its stock has two sizes."""
        if not isinstance(entry.value, Mapping):
            return
        kinds = [entry.value.get(kind) for kind in ("species", "sheet")]
        misspelt = any(nearest(key, ("species", "sheet")) for key in entry.value.words())
        if all(kinds) or not (any(kinds) or misspelt):
            message = f"'{entry.key.text}' needs either a species or a sheet"
            self._checker.fault(
                "material-kind", entry.key.span, message, "species: black cherry, or sheet: float glass"
            )
        stock = entry.value.get("stock")
        if stock and isinstance(stock.value, Sequence) and len(stock.value.items) > 2:
            self._checker.fault("wrong-shape", stock.value.span, "stock takes two sizes", "stock: [length, width]")

    def _bound(self, lazy: Lazy, names: Names) -> Bound | None:
        """Return a statement that uses sizes only, evaluated."""

        def look(name: str) -> Quantity:
            if name in names.broken:
                raise ExprFault(_BROKEN, name)
            return names.sizes[name]

        try:
            return bind(lazy, look, units=self._checker.units)
        except Problems as problems:
            self._checker.problems += [problem for problem in problems.items if problem.code != _BROKEN]
            return None

    def _fixed(self, section: str, fields: tuple[Field, ...]) -> Bound | None:
        """Return a section of fixed fields, evaluated."""
        mapping = self._section(section)
        entry = self._tree.get(section)
        if mapping is None or entry is None or self._checker.names is None:
            return None
        lazy = self._checker.statement(_section_word(section, fields), mapping, entry.key.span)
        return self._bound(lazy, self._checker.names) if lazy is not None else None

    def _conditions(self) -> Figures:
        bound = self._fixed("conditions", CONDITIONS)
        if bound is None:
            return ()
        out: list[tuple[str, Quantity, str]] = []
        for year in ("moisture", "humidity"):
            swing = bound[year]
            if swing is not None:
                out += [
                    (f"{year} {name}", Quantity(value, Kind.NUMBER), "stated")
                    for name, value in swing.values.items()
                    if value is not None
                ]
                self._swing(year, swing)
        if bound["wall"] is not None:
            wall = bound["wall"].values.items()
            out += [
                (f"wall {name}", Quantity(value, Kind.LENGTH), "stated") for name, value in wall if value is not None
            ]
        out += [
            (name, Quantity(value, Kind.MASS), "stated")
            for name, value in bound.values.items()
            if name not in ("moisture", "humidity", "wall") and value is not None
        ]
        return tuple(out)

    def _swing(self, year: str, swing: Bound) -> None:
        low, high = swing["from"], swing["to"]
        if low is not None and high is not None and low > high:
            self._checker.fault("moisture-order", swing.spans["from"], f"the driest {year} is above the wettest")
        for name in ("from", "to", "on the day"):
            if year == "humidity" and swing[name] is not None and swing[name] > 99:
                self._checker.fault(
                    "humidity-range", swing.spans[name], "the air holds less than its greatest humidity", "up to 99"
                )


def _section_word(name: str, fields: Iterable[Field]) -> Word:
    return Word(name.removesuffix("s"), "section", "", tuple(fields), "", lambda *_: None)


def _moving(said: Bound | None) -> tuple[float | None, float] | None:
    """Return the movement that a material states, radial and tangential, as shares for 1 % of moisture."""
    if said is None:
        return None
    radial = said["radial"]
    return None if radial is None else float(radial) / 100, float(said["tangential"]) / 100


def _material(bound: Bound, uses: tuple[str, ...]) -> MaterialDef:
    stock = bound["stock"]
    return MaterialDef(
        name=bound.name,
        thickness=bound["thickness"],
        species=bound["species"] or "",
        sheet=bound["sheet"] or "",
        bought=bound["bought"] or "",
        stock=(stock[0], stock[1]) if stock else None,
        density=bound["density"],
        movement=_moving(bound["movement"]),
        stiffness=None if bound["stiffness"] is None else float(bound["stiffness"]),
        span=bound.span,
        uses=uses,
    )
