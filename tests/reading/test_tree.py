"""Text → tree: values stay as written, places are right, bounds hold."""

from __future__ import annotations

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.places import Span
from docgen.reading.problems import Problem, Problems
from docgen.reading.tree import MOST_BYTES, Mapping, Node, Scalar, Sequence, read_tree, read_value


def tree(text: str) -> Mapping:
    found = read_tree("f.yaml", text)
    assert isinstance(found, Mapping)
    return found


def plain(node: Node) -> object:
    """Return the tree as lists and dicts of texts."""
    match node:
        case Scalar(text):
            return text
        case Sequence(items):
            return [plain(item) for item in items]
        case Mapping(items):
            return {entry.key.text: plain(entry.value) for entry in items}


def only(text: str) -> Problem:
    with pytest.raises(Problems) as caught:
        read_tree("f.yaml", text)
    assert len(caught.value.items) == 1
    return caught.value.items[0]


def test_scalars_stay_what_was_written() -> None:
    text = "a: on\nb: [1:30, 010, 1e3, ~, null, 0x1F, 2026-03-02]\nc:\nd: ''\ne: \"x\\u2044y\"\nleft   side: 1 1/2\n"
    found = tree(text)
    assert plain(found) == {
        "a": "on",
        "b": ["1:30", "010", "1e3", "~", "null", "0x1F", "2026-03-02"],
        "c": "",
        "d": "",
        "e": "x⁄y",
        "left side": "1 1/2",
    }
    absent, empty = found.get("c"), found.get("d")
    assert absent and isinstance(absent.value, Scalar) and absent.value.absent
    assert empty and isinstance(empty.value, Scalar) and not empty.value.absent


def test_places_are_those_of_the_characters() -> None:
    found = tree("# remark\nparts:\n  木の棚: {up: [0, 6 + board]}\n")
    part = found.get("parts")
    assert part and part.key.span == Span("f.yaml", 2, 1, 5)
    assert isinstance(part.value, Mapping)
    shelf = part.value.items[0]
    assert shelf.key.span == Span("f.yaml", 3, 3, 3)
    assert isinstance(shelf.value, Mapping)
    reach = shelf.value.items[0].value
    assert isinstance(reach, Sequence)
    assert reach.span == Span("f.yaml", 3, 13, 1)
    assert [item.span for item in reach.items] == [Span("f.yaml", 3, 14, 1), Span("f.yaml", 3, 17, 9)]


def test_an_anchor_can_be_repeated() -> None:
    assert plain(tree("a: &x [1, 2]\nb: *x\n")) == {"a": ["1", "2"], "b": ["1", "2"]}


def test_a_byte_order_mark_is_no_part_of_the_file() -> None:
    assert tree("\ufeffa: 1").items[0].key.span.column == 1


@pytest.mark.parametrize(
    ("text", "code", "where"),
    [
        ("a: 1\nb: {x: 1, x: 2}\n", "duplicate-key", (2, 11, 1)),
        ("left side: 1\nleft  side: 2\n", "duplicate-key", (2, 1, 10)),
        ("a: &x [*x]\n", "alias-in-itself", (1, 8, 2)),
        ("a: *x\n", "unknown-alias", (1, 4, 2)),
        ("a: !!int 1\n", "tag", (1, 4, 7)),
        ("a: {<<: 1}\n", "merge-key", (1, 5, 2)),
        ("? [a, b]\n: 1\n", "bad-key", (1, 3, 1)),
        ("'': 1\n", "bad-key", (1, 1, 2)),
        ("a: 1\n---\nb: 2\n", "second-document", (2, 1, 3)),
        ("", "empty-file", (1, 1, 1)),
        ("# nothing\n", "empty-file", (1, 1, 1)),
        ("a:\n\t- 1\n", "tab", (2, 1, 1)),
        ("a: 'x\n\n", "yaml-syntax", (1, 4, 1)),
        ("a: [1\nb: 2\n", "yaml-syntax", (2, 2, 1)),
        ("a: b: c\n", "yaml-syntax", (1, 5, 1)),
        ("a: @x\n", "yaml-syntax", (1, 4, 1)),
        ('a: "\\x07"\n', "control-character", (1, 4, 6)),
        ("a: 1\r\nb: x\x00\n", "control-character", (2, 5, 1)),
        ("a: x\u202ey\n", "control-character", (1, 5, 1)),
        ("a: \ud800\n", "control-character", (1, 4, 1)),
        ("[" * 51, "too-deep", (1, 51, 1)),
        ("a: &x 1\nb: [" + "*x, " * 101 + "]\n", "too-many-aliases", (2, 405, 2)),
    ],
)
def test_what_is_refused(text: str, code: str, where: tuple[int, int, int]) -> None:
    problem = only(text)
    assert problem.code == code
    assert (problem.where.line, problem.where.column, problem.where.length) == where


def test_fifty_deep_and_a_hundred_aliases_are_allowed() -> None:
    read_tree("f", "[" * 50 + "]" * 50)
    read_tree("f", "a: &x 1\nb: [" + "*x, " * 100 + "]\n")


def test_several_faults_are_told_together() -> None:
    with pytest.raises(Problems) as caught:
        read_tree("f", "a: !x 1\na: 2\nb: *c\n")
    assert [p.code for p in caught.value.items] == ["tag", "duplicate-key", "unknown-alias"]


def test_aliases_of_aliases_end_soon() -> None:
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{i}: &a{i} [{', '.join([f'*a{i - 1}'] * 10)}]" for i in range(1, 9)]
    start = time.perf_counter()
    assert only("\n".join(lines)).code == "too-many-values"
    assert time.perf_counter() - start < 2


def test_a_file_of_more_than_a_mebibyte_is_not_read() -> None:
    assert only("a: " + "x" * MOST_BYTES).code == "file-too-large"


def test_values_of_a_program_stand_where_it_says() -> None:
    span = Span("f.yaml", 9, 3, 7)
    assert plain(read_value("[1, {front: 3/4}]", span)) == ["1", {"front": "3/4"}]
    nodes = [read_value("[1, {front: 3/4}]", span)]
    while nodes:
        node = nodes.pop()
        assert node.span == span
        match node:
            case Sequence(items):
                nodes += items
            case Mapping(entries):
                nodes += [entry.value for entry in entries]


@given(st.text(alphabet="ab: -[]{}&*!?|>'\"#%@,\n\t0\\x\u00e9木", max_size=60))
@settings(deadline=None, max_examples=400)
def test_any_text_is_a_tree_or_problems_with_places(text: str) -> None:
    lines = text.count("\n") + 1
    try:
        read_tree("f", text)
    except Problems as problems:
        assert problems.items
        assert all(1 <= p.where.line <= lines + 1 and p.where.column >= 1 and p.message for p in problems.items)


@given(st.text(alphabet=st.characters(exclude_categories=("Cc", "Cs", "Cf", "Zl", "Zp")), max_size=40))
@settings(deadline=None, max_examples=100)
def test_quoted_texts_come_back_as_they_were(text: str) -> None:
    quoted = text.replace("'", "''")
    if set(text) & {"\ufffe", "\uffff", "\ufeff"}:
        return
    assert plain(tree(f"a: '{quoted}'")) == {"a": text}
