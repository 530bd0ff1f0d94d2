import re
from dataclasses import replace

from docgen.checks import run, tell
from docgen.checks.finding import Finding, Grade
from docgen.checks.rays import Mesh, first_wood
from docgen.geometry.make import box
from docgen.geometry.solids import blank, cut
from docgen.piece.kinds import kinds
from docgen.piece.solids import Solids
from docgen.places import Span
from docgen.schedules.make import schedules
from docgen.tables import data_text
from tests.support.pieces import INCH, part, piece


def test_findings_are_sorted_by_gravity_code_and_part() -> None:
    of = piece(
        part("b", ((0, 20), (0, 300), (0, 700))),
        part("a", ((10, 30), (0, 300), (0, 700)), number=2),
        part("far", ((1000, 1020), (0, 300), (0, 700)), number=3),
    )
    solids = Solids(of)
    same = kinds(of, solids)
    lists = schedules(of, solids, same)
    found = run.findings(of, solids, same, lists)
    order = [("stop", "care", "note").index(f.grade) for f in found]
    assert order == sorted(order)
    assert found[0].code == "parts-overlap" and "stray-part" in {f.code for f in found}
    assert found == run.findings(of, solids, same, lists)


def test_each_check_is_found_and_named() -> None:
    assert len(run.names()) == len(set(run.names())) >= 16
    assert len(run.codes()) == len(set(run.codes()))


def test_each_code_has_a_section_in_the_problems_page() -> None:
    sections = set(re.findall(r"^## ([\w-]+)$", data_text("shared", "problems.md"), re.MULTILINE))
    assert [code for code in run.codes() if code not in sections] == []


def test_every_finding_states_rule_and_source() -> None:
    of = piece(part("slab", ((0, 900), (0, 100), (0, 1000))))
    solids = Solids(of)
    for f in run.findings(of, solids, kinds(of, solids), schedules(of, solids, kinds(of, solids))):
        assert f.rule and f.source and f.message.endswith((".", "!"))


def test_wood_along_rays() -> None:
    solid = cut(blank((0, 0, 0), (100, 50, 20)), [box((40.0, -1.0, -1.0), (60.0, 51.0, 21.0))])
    mesh = Mesh.of(solid)
    stretches = mesh.wood((-10.0, 25.0, 10.0), (1.0, 0.0, 0.0))
    assert [(round(a, 6), round(b, 6)) for a, b in stretches] == [(10, 50), (70, 110)]
    inside = mesh.wood((20.0, 25.0, 10.0), (2.0, 0.0, 0.0))
    assert [(round(a, 6), round(b, 6)) for a, b in inside] == [(0, 20), (40, 80)]
    along_an_edge = mesh.wood((-10.0, 25.0, 0.0), (1.0, 0.0, 0.0))
    assert len(along_an_edge) in (0, 2)
    assert first_wood(mesh, (-10.0, 25.0, 30.0), (1.0, 0.0, 0.0)) is None


def finding(path: str, message: str, figure: float = 1.0) -> Finding:
    return Finding(Grade.CARE, "trench-deep", (path,), message, "rule", "source", None, (("left", figure, "mm"),))


def test_what_is_said_of_several_parts_alike_is_said_once() -> None:
    (one,) = run.merged(
        [finding("left side", "Too deep in left side."), finding("right side", "Too deep in right side.")]
    )
    assert (one.parts, one.message) == (("left side", "right side"), "Too deep in left side and right side.")
    other = finding("right side", "Too deep in right side.", 2.0)
    assert len(run.merged([finding("left side", "Too deep in left side."), other])) == 2


def test_what_is_said_of_one_part_at_two_places_stays_two() -> None:
    one = finding("left side", "Too deep in left side.")
    assert len(run.merged([one, replace(one, where=Span("a.yaml", 1, 1))])) == 2
    other = replace(finding("right side", "Too deep in right side."), where=Span("a.yaml", 4, 1))
    (both,) = run.merged([one, other])
    assert both.parts == ("left side", "right side")


def test_figures_that_the_sentence_says_are_not_said_again() -> None:
    def left(message: str, value: float, unit: str) -> int:
        f = replace(finding("left side", message), figures=(("left", value, unit),))
        return len(tell.untold(f, INCH))

    assert left("It leaves 3/16 in.", 3 / 16 * 25.4, "mm") == 0
    assert left("It leaves 2 3/16 in.", 2.1875 * 25.4, "mm") == 0
    assert left("It leaves 0.19 ≈ 3/16 in.", 0.1875 * 25.4, "mm") == 0
    assert left("It weighs 24.5 kg.", 24.49, "kg") == 0
    assert left("It weighs 24.5 kg.", 25.1, "kg") == 1
    assert left("It leaves 3 in.", 3.0, "mm") == 1
    assert left("It weighs 3.0 kg, a push of 11 N tips it.", 3.047, "kg") == 0  # rounded as the sentence tells it
    assert left("It weighs 3.0 kg, a push of 11 N tips it.", 11.22, "N") == 0
    assert left("Holes 0.9 of their diameters from an edge.", 0.88, "") == 0
    assert left("It takes two of 3.", 3.4, "N") == 1
    assert left("It pulls most at 5° from rest.", 4.58, "deg") == 0
    assert left("It weighs 14.6 kg.", 14.56, "deg") == 1  # the number of another figure
    assert left("It weighs 14.6 kg.", 14.56, "kg") == 0
    assert left("It keeps 3 in a row.", 3 * 25.4, "mm") == 0
    assert left("It shares 12 mm³.", 12 * 25.4, "mm") == 1


def test_findings_as_text() -> None:
    said = tell.tell_findings([finding("left side", "Too deep in left side.")], INCH)
    assert said.splitlines() == [
        "care: Too deep in left side. [trench-deep]",
        "  figures: left 0.039 ≈ 3/64 − 0.008 in",
        "  rule: rule (source)",
        "1 care",
    ]
    assert tell.tell_findings([], INCH) == "no findings"
    named = tell.tell_findings([finding("case.left", "Too deep.")], INCH, {"case.left": "case, left side"})
    assert named.splitlines()[0] == "care: case, left side: Too deep. [trench-deep]"
