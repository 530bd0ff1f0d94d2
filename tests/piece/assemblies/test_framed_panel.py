import pytest

from docgen.piece.records import Stage
from tests.piece.joints.making import Trial, built, problems, trial

FRAME = """
assemblies:
  window:
    frame round a panel:
      box: {across: [100, 500], deep: [0, 20], up: [50, 350]}
      material: board
      width: 40
      face: %s
      panel: {material: thin, thickness: 6, rabbet: 10, clearance: %s}
"""


@pytest.mark.parametrize(("face", "deep"), [("back", (14, 20)), ("front", (0, 6))])
def test_panel_is_laid_in_from_the_named_face(face, deep):
    frame = trial(FRAME % (face, 2))
    panel = frame.part("window.panel")
    assert panel.box[1] == deep and panel.authority == "measure"
    # 400 − 2 × 40 + 2 × 10 − 2 × 2 and 300 − 64.
    assert [h - low for low, h in panel.box] == [336, 6, 236]
    assert {p.path for p in frame.piece.parts} == {f"window.{n}" for n in ("left", "right", "top", "bottom", "panel")}
    assert frame.clashes() == []


@pytest.mark.parametrize("clearance", [0, 1.5])
def test_clearance_moves_the_panel_and_leaves_the_rabbet(clearance):
    frame = trial(FRAME % ("back", clearance))
    (rabbet,) = frame.features("window.left", "rabbet")
    assert sorted(float(s.value) for s in rabbet.made.sizes) == [6, 10]
    assert frame.part("window.panel").size[0] == 340 - 2 * clearance


def test_rails_are_mitred():
    frame = trial(FRAME % ("back", 2))
    # Long rail: trapezoid of 400 and 320 by 40; its rabbet runs from 320 to 340 long between the mitres.
    assert frame.volume("window.top") == pytest.approx(360 * 40 * 20 - 330 * 10 * 6, abs=0.1)
    assert frame.volume("window.left") == pytest.approx(260 * 40 * 20 - 230 * 10 * 6, abs=0.1)


def test_flat_frame_has_front_and_back_rails():
    body = """
    assemblies:
      lid:
        frame round a panel:
          {box: {across: [0, 400], deep: [0, 300], up: [0, 20]}, material: board, width: 40, face: top, group: lid,
          panel: {material: thin, thickness: 6, rabbet: 10, clearance: 1}, tenons: {thickness: 5, width: 20, depth: 10}}
    """
    lid = trial(body)
    assert [p.path for p in lid.piece.parts] == ["lid.left", "lid.right", "lid.front", "lid.back", "lid.panel"]
    assert {p.group for p in lid.piece.parts} == {"lid"}
    assert sum(len(lid.features(f"lid.{r}", "mortise in a cut")) for r in ("left", "right", "front", "back")) == 8
    assert lid.clashes() == []


PANE = """
assemblies:
  window:
    frame round a panel:
      box: {across: [100, 500], deep: [0, 20], up: [50, 350]}
      material: board
      width: 40
      face: %s
      panel: {material: glass, thickness: 3, rabbet: 10, clearance: 2, depth: 13, bed: 1}
      backer: {material: thin, thickness: 6}
      %s
materials:
  board: {species: sugar maple, thickness: 20}
  thin: {sheet: "plywood, birch", thickness: 6}
  glass: {sheet: float glass, thickness: 3}
"""


def pane(face: str, more: str = "") -> Trial:
    return built("docgen: 1\npiece: Trial\nunits: mm\n" + PANE % (face, more))


@pytest.mark.parametrize(("face", "glass", "backer"), [("back", (8, 11), (11, 17)), ("front", (9, 12), (3, 9))])
def test_bed_pane_and_backer_lie_in_one_rabbet(face, glass, backer):
    frame = pane(face)
    # From a floor 13 under the face: 1 of felt, 3 of glass, 6 of plywood; 3 stay for what holds them.
    assert frame.part("window.panel").box[1] == glass and frame.part("window.backer").box[1] == backer
    assert frame.part("window.backer").box[0] == frame.part("window.panel").box[0] == (132, 468)
    (note,) = frame.piece.panes
    assert note.rabbet == (10, 13)
    assert {(n, float(v)) for n, v, _ in note.figures} >= {("backer", 6.0), ("bed", 1.0), ("outside long", 400.0)}
    assert frame.clashes() == []


def test_keys_strengthen_the_mitres():
    frame = pane("back", "keys: {count: 2, thickness: 3, depth: 15}")
    assert all(f.stage is Stage.GLUED for f in frame.features("window.top") if "key" in f.title)
    assert any("key" in f.title for f in frame.features("window.top"))


def test_a_backer_needs_a_deeper_rabbet():
    (problem,) = problems(FRAME % ("back", "2}\n      backer: {material: thin, thickness: 6"))
    assert problem.code == "panel-depth"
