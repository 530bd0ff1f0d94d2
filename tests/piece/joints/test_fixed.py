"""Fixed: what holds parts that are laid in goes on the list and into the order of work."""

from pathlib import Path

from docgen.piece.build import build
from docgen.piece.kinds import kinds
from docgen.piece.model import Piece, Sets
from docgen.piece.solids import Solids
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from docgen.schedules.make import schedules

WORDS = vocabulary()
EXAMPLE = Path("examples/bookcase.yaml")


def made(text: str) -> Piece:
    return build(read_project("trial.yaml", text, WORDS, {}), WORDS)


def test_it_is_counted_once_and_names_its_parts() -> None:
    piece = made(EXAMPLE.read_text(encoding="utf-8"))
    (item,) = [i for i in piece.items if i.sets is Sets.FIXES]
    assert (item.count, item.size, item.parts) == (36, "3 × 16 mm", ("back panel",))


def test_the_step_and_the_list_say_it_and_it_is_not_made_at_the_bench() -> None:
    piece = made(EXAMPLE.read_text(encoding="utf-8"))
    solids = Solids(piece)
    lists = schedules(piece, solids, kinds(piece, solids))
    step = next(r for r in lists.work if r.what.startswith("Lay back panel"))
    assert "fixed with 36 × wood screws, flat head, 3 × 16 mm" in step.what and "states no" not in step.what
    assert not any(r.what.startswith("Make") for r in lists.work)
    assert any(r.what == "wood screws, flat head" and r.count == 36 for r in lists.hardware)
    assert not any(h.what.startswith("wood screws") for h in lists.chain.holds)  # no sheet of its own rules


def test_parts_that_no_joint_holds_are_fixed_as_stated() -> None:
    text = Path("examples/dovetailed-box.yaml").read_text(encoding="utf-8")
    fixed = "\njoints:\n  - fixed: {parts: [left ledge, right ledge], with: glue blocks, count: 4}"
    piece = made(text.replace("\njoints:", fixed, 1))
    solids = Solids(piece)
    told = [r.what for r in schedules(piece, solids, kinds(piece, solids)).work]
    assert "Fix left ledge, right ledge where the drawings show them, with 4 × glue blocks." in told
    assert not any("states no joint" in t for t in told)


def test_the_image_of_what_is_mirrored_is_fixed_too() -> None:
    piece = made(Path("examples/door-cabinet.yaml").read_text(encoding="utf-8"))
    brads = [i for i in piece.items if i.what == "brads"]
    assert [len(i.parts) for i in brads] == [4, 4] and {p.split(".")[0] for p in brads[1].parts} == {"right door"}
