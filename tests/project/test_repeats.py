"""Statements that name repeated parts."""

from dataclasses import replace

import pytest

from docgen.project.fields import Field, PartName
from docgen.project.model import Project
from docgen.project.read import read_project
from docgen.reading.problems import Problems
from tests.project.words import VOCABULARY, word

PIN = word("pin", "joint", Field("one", PartName(), "a part"), Field("other", PartName(), "another"))
WORDS = replace(VOCABULARY, joints={**VOCABULARY.joints, "pin": PIN})
RACK = """\
docgen: 1
piece: Rack
units: mm
sizes: {{n: 3}}
materials: {{ply: {{sheet: "plywood, birch", thickness: 18}}}}
parts:
  post: {{of: ply, grain: up, box: {{across: [0, 18], deep: [0, 60], up: [0, 300]}}, repeat: {{along: across, at: [0, 99, 300]}}}}
  rail: {{of: ply, grain: deep, box: {{across: [0, 18], deep: [60, 400], up: [0, 60]}}, repeat: {{along: across, count: n, step: 90}}}}
joints:
  - {joint}
"""


def read(joint: str, sets: dict[str, str] | None = None) -> Project:
    return read_project("rack.yaml", RACK.format(joint=joint), WORDS, sets or {})


def test_copies_of_two_repeats_go_together_one_by_one() -> None:
    pins = read("pin: {one: rail, other: post}").joints
    assert [(p["one"], p["other"]) for p in pins] == [(f"rail.{n}", f"post.{n}") for n in (1, 2, 3)]


def test_a_list_has_every_copy_in_its_place() -> None:
    (one,) = read("housing: {shelf: rail.2, into: [post, rail.1], depth: 4}").joints
    assert one["into"] == ("post.1", "post.2", "post.3", "rail.1")
    assert one.spans["into.3"].column == one.spans["into.0"].column + len("post, ")


def test_unequal_numbers_do_not_go_together() -> None:
    with pytest.raises(Problems) as caught:
        read("pin: {one: rail, other: post}", {"n": "2"})
    (problem,) = caught.value.items
    assert (problem.code, problem.where.line) == ("repeat-counts", 10)
    assert "2 of rail and 3 of post" in problem.message


def test_formulas_know_the_copy() -> None:
    stops = [j["stop"]["front"].evaluate(lambda name: {}[name]).value for j in read(
        "housing: {shelf: rail, into: post.1, depth: 4, stop: {front: copy * 5}}").joints]  # fmt: skip
    assert stops == [5, 10, 15]


def test_sections_that_take_lists_of_parts_take_repeats() -> None:
    text = RACK.format(joint="pin: {one: rail, other: post}") + "templates:\n  - {part: [post, rail.2], face: front}\n"
    (wish,) = read_project("rack.yaml", text, WORDS, {}).templates
    assert wish["part"] == ("post.1", "post.2", "post.3", "rail.2")


def test_each_copy_of_one_repeat_goes_with_each_of_another_where_that_is_said() -> None:
    pins = read("pin: {one: rail, other: post, copies: each with each}", {"n": "2"}).joints
    found = [(p["one"], p["other"]) for p in pins]
    assert found == [(f"rail.{n}", f"post.{m}") for n in (1, 2) for m in (1, 2, 3)]
    # In equal numbers too: only the file can tell whether three rails cross three posts or stand one at each.
    assert len(read("pin: {one: rail, other: post, copies: each with each}").joints) == 9
    assert len(read("pin: {one: rail, other: post, copies: one by one}").joints) == 3


def test_each_with_each_says_nothing_more_where_one_repeat_is_named() -> None:
    for more in ("", ", copies: each with each"):
        assert len(read(f"pin: {{one: rail, other: post.2{more}}}").joints) == 3


def test_copies_that_go_together_in_another_way_are_told() -> None:
    with pytest.raises(Problems) as caught:
        read("pin: {one: rail, other: post, copies: each}")
    (problem,) = caught.value.items
    assert problem.where.line == 10 and "each with each" in f"{problem.message} {problem.hint}"


def test_formulas_know_the_copy_of_the_first_repeat_that_is_named() -> None:
    made = read("housing: {shelf: rail, into: post, depth: copy * 2, copies: each with each}").joints
    depths = [j["depth"].evaluate(lambda name: {}[name]).value for j in made]
    assert depths == [2, 4, 6]  # its posts are a list: each rail enters them all
