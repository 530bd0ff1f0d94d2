import math
from dataclasses import replace

import pytest

from docgen.geometry.topology import SHARP, topology
from docgen.piece.faults import Fault
from docgen.piece.operations.rim import Rim
from docgen.piece.operations.round_part import Disc, Oval
from docgen.piece.records import Face
from tests.piece.desk import HEAD, PARTS, built, codes
from tests.piece.operations.trial import board, made, proven, taken, worked

TOP = Face(2, 1)


@pytest.mark.parametrize("face", [Face(2, 0), TOP])
def test_a_disc_of_its_whole_box(face: Face) -> None:
    part = board(300, 300, 30)
    disc = Disc(face, (150, 150), 300)
    solid = worked(disc, part)
    assert solid.volume == pytest.approx(math.pi * 150**2 * 30, rel=1e-3)
    assert [*solid.bounds[0], *solid.bounds[1]] == pytest.approx([0, 0, 0, 300, 300, 30])
    assert {s.kind for s in solid.marked.surfaces} == {"cylinder"}


def test_every_number_of_a_disc() -> None:
    disc = Disc(TOP, (200, 60), 100)
    assert taken(disc, board()) == pytest.approx((400 * 120 - math.pi * 2500) * 20, rel=1e-3)
    proven(disc, board())


def test_a_disc_is_sawn_and_trimmed_on_a_pin() -> None:
    answer = made(Disc(TOP, (200, 60), 100), board())
    assert [(s.machine, s.values[0][1]) for s in answer.settings] == [
        ("band saw", 52),
        ("router", 50),
    ]  # wood is left to rout
    trim = answer.settings[1]
    assert ("straight bit, about", 12, "length") in trim.values
    assert ("cutting edge, more than", 20, "length") in trim.values
    assert "never the other way" in trim.feed
    assert [(m.position, m.label) for m in answer.marks] == [(200, "centre of the disc")]
    (template,) = answer.templates
    assert template.radii and template.whole and [line[2] for line in template.lines] == ["centre", ""]
    assert [c.key for c in answer.cautions] == ["band saw", "router"]


def test_an_oval_in_its_box() -> None:
    oval = Oval(TOP, (200, 60), (400, 120))
    assert taken(oval, board()) == pytest.approx((400 * 120 - math.pi * 200 * 60) * 20, rel=1e-3)
    proven(Oval(TOP, (200, 60), (380, 100)), board())
    values = {n: v for n, v, _ in made(Oval(TOP, (200, 60), (200, 120)), board()).settings[0].values}
    assert "turn part and template over" in made(oval, board()).settings[1].feed
    assert values["pins for a string, apart"] == 160  # half axes 100 and 60
    assert values["string round both pins and the pencil"] == 360


def test_a_round_edge_on() -> None:
    disc = Disc(Face(1, 0), (50, 10), 18)
    assert worked(disc, board()).volume == pytest.approx(math.pi * 81 * 120, rel=2e-3)


@pytest.mark.parametrize("disc", [Disc(TOP, (200, 60), 121), Disc(TOP, (20, 60), 50), Oval(TOP, (200, 60), (401, 50))])
def test_a_round_larger_than_its_part(disc: Disc | Oval) -> None:
    with pytest.raises(Fault) as fault:
        disc.made(board())
    assert fault.value.code == "outside-part"


@pytest.mark.parametrize("face", [Face(2, 0), TOP, Face(1, 1)])
def test_a_rounded_rim_takes_a_ring(face: Face) -> None:
    """Pappus: the spandrel's centroid lies 0.2234 r from its corner (from memory: (10 − 3π) / (3 (4 − π)))."""
    part = board(200, 200, 200) if face.axis == 1 else board(200, 200, 30)
    r = 6.0
    disc, rim = Disc(face, (100, 100), 160), Rim(face, (100, 100), 160, r)
    area, off = r * r * (1 - math.pi / 4), r * (10 - 3 * math.pi) / (3 * (4 - math.pi))
    ring = area * math.tau * (80 - off)

    class Both:
        word = "both"

        def made(self, of):  # type: ignore[no-untyped-def]
            return replace(disc.made(of), cuts=(*disc.made(of).cuts, *rim.made(of).cuts))

    both = worked(disc, part).volume - worked(Both(), part).volume
    assert both == pytest.approx(ring, rel=2e-2)
    proven(rim, part)
    assert "torus" in {s.kind for s in worked(Both(), part).marked.surfaces}


def test_a_rim_said_with_the_disc() -> None:
    said = "edges:\n  - round: {part: cheek, face: left, diameter: 3, rim: [left, right], rim radius: 1/8}\n"
    assert [f.word for f in built(HEAD + PARTS + said).part("cheek").features] == ["round", "rim", "rim"]
    assert codes(HEAD + PARTS + said.replace(", rim radius: 1/8", "")) == ["rim-words"]
    assert codes(HEAD + PARTS + said.replace("[left, right]", "front")) == ["rim-words"]
    assert codes(HEAD + PARTS + said.replace("diameter: 3, ", "")) == ["rim-words"]


@pytest.mark.parametrize("diameter", [160, 300 / 7, 1000 / 3])
def test_no_seam_shows_between_rim_and_wall(diameter: float) -> None:
    part = board(400, 400, 30)
    disc = Disc(TOP, (200, 200), diameter)
    rims = [Rim(face, (200, 200), diameter, 6) for face in (TOP, Face(2, 0))]

    class All:
        word = "all"

        def made(self, of):  # type: ignore[no-untyped-def]
            return replace(disc.made(of), cuts=tuple(c for o in (disc, *rims) for c in o.made(of).cuts))

    shape = topology(worked(All(), part))
    assert int((shape.edge_kind == SHARP).sum()) == 0


def test_a_part_that_gets_a_new_outline_is_left_rough_and_placed_from_drawn_lines() -> None:
    for operation in (Disc(TOP, (60, 60), 120), Oval(TOP, (200, 60), (400, 120))):
        answer = made(operation, board())
        assert answer.outlined
        assert any("drawn on the rough blank" in a.text for a in answer.assumed)


def test_trimming_to_a_template_names_its_bit() -> None:
    trim = made(Oval(TOP, (200, 60), (400, 120)), board()).settings[1]
    assert trim.values == (
        ("flush cutter with a bearing", "any diameter", "text"),
        ("cutting edge, more than", 20, "length"),
    )
