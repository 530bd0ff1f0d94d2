from docgen.piece.kinds import kinds
from docgen.piece.model import Kind
from docgen.piece.solids import Solids
from tests.piece.desk import HEAD, built

BOARD = "  {name}:\n    of: {material}\n    grain: {grain}\n    box: {box}\n"


def part(name: str, box: str, grain: str = "up", material: str = "boards") -> str:
    return BOARD.format(name=name, box=box, grain=grain, material=material)


SIDES = "parts:\n" + part("a", "{across: [0, board], deep: [0, 10], up: [0, 30]}")
SIDES += part("b", "{across: [30, 30 + board], deep: [0, 10], up: [0, 30]}")


def counted(text: str) -> tuple[Kind, ...]:
    piece = built(HEAD + text)
    return kinds(piece, Solids(piece))


def test_bare_boards_are_one_kind() -> None:
    assert counted(SIDES) == (Kind(("a", "b")),)


def test_left_and_right_are_told_apart() -> None:
    dados = (
        "operations:\n"
        "  - dado: {part: a, face: right, run: deep, span: [6, 7], depth: 1/4, stop: {front: 1}}\n"
        "  - dado: {part: b, face: left, run: deep, span: [6, 7], depth: 1/4, stop: {front: 1}}\n"
    )
    (kind,) = counted(SIDES + dados)
    assert (kind.parts, kind.mirrored, kind.count) == (("a",), ("b",), 2)


def test_boards_turned_end_for_end_are_the_same() -> None:
    holes = (
        "holes:\n"
        "  - hole: {part: a, face: right, at: {up: 4, deep: 2}, diameter: 1/4}\n"
        "  - hole: {part: b, face: right, at: {up: 26, deep: 8}, diameter: 1/4}\n"
    )
    assert counted(SIDES + holes) == (Kind(("a", "b")),)


def test_a_through_hole_off_the_middle_has_no_hand_but_a_blind_one_has() -> None:
    hole = "  - hole: {{part: {p}, face: right, at: {{up: 4, deep: {d}}}, diameter: 1/4{more}}}\n"
    through = "holes:\n" + hole.format(p="a", d=2, more="") + hole.format(p="b", d=8, more="")
    blind = "holes:\n" + hole.format(p="a", d=2, more=", depth: 1/2") + hole.format(p="b", d=8, more=", depth: 1/2")
    assert counted(SIDES + through) == (Kind(("a", "b")),)
    assert counted(SIDES + blind) == (Kind(("a",), ("b",)),)


def test_square_legs_may_be_rolled() -> None:
    legs = "parts:\n" + part("one", "{across: [0, 1 3/4], deep: [0, 1 3/4], up: [0, 28]}", material="stock")
    legs += part("two", "{across: [9, 10 3/4], deep: [0, 1 3/4], up: [0, 28]}", material="stock")
    tapers = (
        "operations:\n"
        "  - taper: {part: one, face: front, end: bottom, run: 20, amount: 1/2}\n"
        "  - taper: {part: two, face: left, end: bottom, run: 20, amount: 1/2}\n"
    )
    assert counted(legs + tapers) == (Kind(("one", "two")),)


def test_material_authority_and_threads_part_equal_solids() -> None:
    other = SIDES.replace("materials", "materials") + "    authority: measure first\n"
    assert len(counted(other)) == 2
    holes = (
        "holes:\n"
        "  - hole: {part: a, face: right, at: {up: 4, deep: 2}, diameter: 1/4}\n"
        "  - hole: {part: b, face: right, at: {up: 4, deep: 2}, diameter: 1/4, purpose: tapped, thread: M8}\n"
    )
    assert len(counted(SIDES + holes)) == 2


def test_parts_that_lie_elsewhere_and_otherwise_are_still_the_same() -> None:
    flat = SIDES + part("c", "{across: [0, 30], deep: [40, 50], up: [0, board]}", grain="across")
    assert counted(flat) == (Kind(("a", "b", "c")),)


MORTISED = (
    "parts:\n"
    + part("a", "{across: [0, 3], deep: [0, board], up: [0, 30]}").replace("grain: up", "grain: up\n    show: front")
    + part("b", "{across: [40, 43], deep: [0, board], up: [0, 30]}").replace("grain: up", "grain: up\n    show: SHOW")
    + "operations:\n"
    + "  - dado: {part: a, face: right, run: deep, span: [4, 5], depth: 1/4}\n"
    + "  - dado: {part: b, face: left, run: deep, span: [4, 5], depth: 1/4}\n"
)


def test_boards_that_fit_turned_over_are_two_hands_where_the_turn_would_hide_the_face_that_shows() -> None:
    assert counted(MORTISED.replace("SHOW", "front")) == (Kind(("a",), ("b",)),)
    assert counted(MORTISED.replace("SHOW", "back")) == (Kind(("a", "b")),)
