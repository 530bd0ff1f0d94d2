"""A layout file as a `Layout`: read like a project file, with errors told the same way."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from docgen.layout.model import Heights, Layout, PenStyle
from docgen.layout.values import Given, Taker
from docgen.places import Span
from docgen.reading.problems import Problem, Problems
from docgen.reading.source import read_source
from docgen.reading.tree import Mapping, Node, Scalar, read_tree
from docgen.reading.words import did_you_mean
from docgen.tables import data_names, data_path

KEYS = (
    "layout", "like", "paper", "size", "margins", "title block", "unprintable", "foot", "overlap", "lettering", "pens",
    "sheets", "scales",
)  # fmt: skip
NESTED = ("margins", "lettering", "pens", "scales")  # a layout that is like another gives some of these keys anew
SIDES = ("left", "bottom", "right", "top")
HEIGHTS = ("title", "heading", "figure", "least", "note", "small")
PENS = ("visible", "thin", "hidden", "centre", "phantom", "cutting", "hatch", "break", "frame", "datum", "trim")
SHEETS = (
    "cover", "views", "chain", "work", "exploded", "parts", "joinery", "templates", "sticks", "drilling", "cutting", "setups", "hardware", "safety", "findings",
)  # fmt: skip
SYSTEMS = ("mm", "inch")
LEAST_HEIGHT = 1.8  # mm, ISO 3098's smallest
LEAST_BENCH_HEIGHT = 2.5  # mm, ISO 3098 practice for drawings of A4 to A2
LEAST_DOT = 0.5  # mm: a shorter dash is three dots of an office printer
LEAST_SIDE, MOST_SIDE = 100.0, 2000.0  # mm of paper: below, no title block stands; above, no printer prints
LEAST_ROOM = 156.0  # mm: a check line of 6 in with air
MOST_LIKE = 8  # layouts that stand on one another


def names() -> tuple[str, ...]:
    """Return the names of the layouts that come with the program, sorted."""
    return data_names("layouts", suffix=".yaml")


def read_layout(name: str | Path) -> Layout:
    """Return the layout of this name, or the one in a file (a name that ends in .yaml or has a folder in it).

    A name is taken as it is printed as well: `A4`, `ARCH D`. Raises Problems with everything that is wrong with the file or
    the ones it is like.
    """
    if not _is_file(str(name)):
        name = "-".join(str(name).lower().split())
    entries, path = _gathered(str(name), Span(str(name), 1, 1), None, ())
    taker = Taker()
    layout = _layout(Given(entries, Span(path, 1, 1)), Path(name).stem if _is_file(str(name)) else str(name), taker)
    if taker.problems or layout is None:
        raise Problems(taker.problems)
    return layout


def _is_file(name: str) -> bool:
    return name.endswith((".yaml", ".yml")) or "/" in name or "\\" in name


def _gathered(name: str, said: Span, beside: Path | None, above: tuple[str, ...]) -> tuple[dict[str, _Entry], str]:
    """Return the entries of a layout over those of the layout that it is like, and the file's name."""
    path, shown = _found(name, said, beside)
    if shown in above or len(above) >= MOST_LIKE:
        chain = " → ".join((*above, shown))
        raise Problems([Problem("circular-layout", said, f"a layout cannot be like itself: {chain}")])
    tree = read_tree(shown, read_source(path) if path.is_file() else "")
    if not isinstance(tree, Mapping):
        raise Problems([Problem("bad-layout", tree.span, "a layout holds keys and values", "begin with: layout: 1")])
    own = _own(tree)
    like = tree.get("like")
    if like is None:
        return own, shown
    if not isinstance(like.value, Scalar) or like.value.absent:
        raise Problems([Problem("wrong-shape", like.value.span, "'like' takes the name of one layout")])
    below, _ = _gathered(like.value.text.strip(), like.value.span, path.parent, (*above, shown))
    for key, entry in own.items():
        if key in NESTED and key in below and isinstance(entry.value, Mapping):
            entry = _Entry(entry.key, entry.value, (*below[key].under, below[key].value))
        below[key] = entry
    return below, shown


def _found(name: str, said: Span, beside: Path | None) -> tuple[Path, str]:
    """Return a layout's file, and how it is called in messages."""
    if _is_file(name):
        path = Path(name) if beside is None else beside / name
        return path, str(path) if path.is_file() else _missing(name, said)
    try:
        return data_path("layouts", f"{name}.yaml"), f"layouts/{name}.yaml"
    except FileNotFoundError:
        return Path(), _missing(name, said)


def _missing(name: str, said: Span) -> str:
    if _is_file(name):
        raise Problems([Problem("unreadable-file", said, f"there is no layout file '{name}'")])
    hint = did_you_mean(name, names(), otherwise=f"there are {', '.join(names())}, or a file that ends in .yaml")
    raise Problems([Problem("unknown-layout", said, f"there is no layout '{name}'", hint)])


@dataclass(frozen=True, slots=True)
class _Entry:
    """A key with its value, and the values of the same key in the layouts below, lowest first."""

    key: Scalar
    value: Node
    under: tuple[Node, ...] = field(default=())


def _own(tree: Mapping) -> dict[str, _Entry]:
    out: dict[str, _Entry] = {}
    problems: list[Problem] = []
    for entry in tree.items:
        if entry.key.text in KEYS:
            out[entry.key.text] = _Entry(entry.key, entry.value)
        else:
            hint = did_you_mean(entry.key.text, KEYS, otherwise=f"known are {', '.join(KEYS)}")
            problems.append(Problem("unknown-key", entry.key.span, f"unknown word '{entry.key.text}'", hint))
    version = tree.get("layout")
    if version is None:
        problems.append(Problem("missing-key", tree.span, "'layout' is missing", "begin the file with: layout: 1"))
    elif not isinstance(version.value, Scalar) or version.value.text != "1":
        problems.append(Problem("layout-version", version.value.span, "this program reads layout: 1"))
    if problems:
        raise Problems(problems)
    return out


def _layout(given: Given, name: str, take: Taker) -> Layout | None:
    """Return the layout, None when too little of it could be read; the taker keeps what was wrong."""
    size = take.lengths(given, "size", 2, least=LEAST_SIDE, most=MOST_SIDE)
    margins = take.group(given, "margins", SIDES)
    lettering = take.group(given, "lettering", HEIGHTS)
    pens = take.group(given, "pens", PENS)
    scales = take.group(given, "scales", SYSTEMS)
    margin = [take.length(margins, side, least=0.0, most=100.0) for side in SIDES]
    heights = [
        take.length(lettering, h, least=LEAST_HEIGHT if h == "small" else LEAST_BENCH_HEIGHT, most=20.0)
        for h in HEIGHTS
    ]
    styles = {pen: _pen(pens, pen, take) for pen in PENS}
    ladders = {system: take.scales(scales, system) for system in SYSTEMS}
    sheets = take.words(given, "sheets", SHEETS)
    title_block = take.length(given, "title block", least=20.0, most=80.0)
    unprintable = take.length(given, "unprintable", least=0.0, most=30.0)
    foot = take.length(given, "foot", least=3.5, most=20.0)
    overlap = take.length(given, "overlap", least=5.0, most=60.0)
    if take.problems:
        return None
    layout = Layout(
        name=name,
        size=(size[0], size[1]),
        margin=(margin[0], margin[1], margin[2], margin[3]),
        title_block=title_block,
        unprintable=unprintable,
        overlap=overlap,
        pens=styles,
        heights=Heights(*heights),
        sheets=sheets,
        scales=ladders,
        foot=foot,
        paper=take.text(given, "paper"),
    )
    take.problems += list(_contradictions(layout, given))
    return layout


def _pen(pens: Given, name: str, take: Taker) -> PenStyle:
    style = take.group(pens, name, ("width", "dash", "grey"), needed=("width",))
    width = take.length(style, "width", least=0.1, most=3.0)
    grey = take.number(style, "grey", least=0.0, most=0.8) if style.has("grey") else 0.0
    dash = take.numbers(style, "dash", least=0.0) if style.has("dash") else ()
    if len(dash) % 2:
        take.fault(style, "dash", "bad-dash", "dashes and gaps come in pairs")
    elif dash and width and min(dash) * width < LEAST_DOT - 1e-9:
        shortest = min(dash) * width
        take.fault(style, "dash", "bad-dash", f"a piece of {shortest:g} mm does not print; the least is {LEAST_DOT} mm")
    return PenStyle(width, dash, grey)


def _contradictions(layout: Layout, given: Given) -> Iterator[Problem]:
    """Yield what is wrong with values that are each right on their own."""
    if min(layout.margin) < layout.unprintable:
        message = f"a margin of {min(layout.margin):g} mm lies in the {layout.unprintable:g} mm that do not print"
        yield Problem("margin-unprintable", given.place("margins"), message)
    if min(layout.area.width, layout.area.height) < LEAST_ROOM:
        room = f"{layout.area.width:g} × {layout.area.height:g} mm"
        message = f"{room} are left to draw on; check lines of 6 in need {LEAST_ROOM:g} mm both ways"
        yield Problem("paper-too-small", given.place("size"), message)
    if layout.heights.least > layout.heights.figure:
        message = f"the least height of figures, {layout.heights.least:g} mm, is above the wished one"
        yield Problem("height-order", given.place("lettering"), message)
