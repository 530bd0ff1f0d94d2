"""The sheets of the lists: everything in the rows stands on paper, and nothing lies on anything."""

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from docgen.checks.finding import Finding, Grade
from docgen.drawing.records import Picture
from docgen.schedules.putting_together import TRY
from docgen.schedules.rows import MeasuredRow, Schedules, SetupRow, SetupRun, WorkRow
from docgen.schedules.work_order import READ
from docgen.sheets import chain, cutting, drilling, findings, hardware, safety, setups, work
from docgen.sheets.context import Context, Maker
from docgen.sheets.flow import stacked
from docgen.units import Kind, Quantity, Units
from tests.sheets.lists import CHART, LISTS, context, faults, flat, piece, said
from tests.support.steps import example

MAKERS: dict[str, Maker] = {
    "chain": chain.make,
    "cutting": cutting.make,
    "drilling": drilling.make,
    "findings": findings.make,
    "hardware": hardware.make,
    "safety": safety.make,
    "setups": setups.make,
    "work": work.make,
}
EMPTY = Schedules((), (), (), (), (), (), (), ())


def many(given: Context, times: int) -> Context:
    lists = given.lists
    return replace(
        given,
        lists=replace(
            lists,
            cutting=lists.cutting * times,
            chart=lists.chart * times,
            setups=lists.setups * times,
            hardware=lists.hardware * times,
            cautions=lists.cautions * times,
            work=lists.work * times,
            jigs=lists.jigs * times,
            chain=replace(lists.chain, holds=lists.chain.holds * times, sizes=lists.chain.sizes * times),
        ),
        findings=given.findings * times,
    )


@pytest.mark.parametrize("layout", ["letter", "a4-landscape"])
@pytest.mark.parametrize("word", MAKERS)
def test_nothing_lies_on_anything(word: str, layout: str, tmp_path: Path) -> None:
    given = many(context(layout), 30)
    sheets = MAKERS[word](given, {})
    assert len(sheets) > 1
    assert [str(f) for f in faults(sheets, given, tmp_path)] == []


@pytest.mark.parametrize("word", [w for w in MAKERS if w not in ("safety", "findings")])
def test_an_empty_list_makes_no_sheet(word: str) -> None:
    assert MAKERS[word](context(lists=EMPTY), {}) == ()


def test_the_chart_names_all_that_the_drill_press_needs() -> None:
    text = flat(drilling.make(context(), {}))
    for wanted in (
        "A", "left side; mirrored:", "bottom end", "front edge", "8.970 ≈ 8 31⁄32", "17⁄64", "through", "⌴ ⌀5⁄8 ↧1⁄8",
        "clearance", "tap drill", "#7", "1/4-20 UNC", "3⁄4 full", "75 %", "11⁄16", "7⁄8", "long point",
        "⌵ ⌀3⁄8 × 82°", "A ↤", "marked or drilled through left side, not measured", "meets stand.front leg",
    ):  # fmt: skip
        assert wanted in text, wanted


def warned(code: str) -> Context:
    """Return a context with one finding, and one step, the last."""
    given = context()
    last = WorkRow(1, "Putting together", "Try it.", (), "findings", "", key=TRY)
    return replace(
        given,
        lists=replace(EMPTY, work=(last,)),
        findings=(Finding(Grade.CARE, code, ("left side",), "So it is.", "a rule", "common practice"),),
    )


def test_the_last_step_stops_where_something_does_not_stay_up_or_tips() -> None:
    slips = flat(work.make(warned("pivot-slips"), {}))
    assert "↹ Try it. STOP: what turns does not stay up by itself" in slips and "Prop it" in slips
    tips = flat(work.make(warned("tips-easily"), {}))
    assert (
        "fix it as the findings say, by the straps or brackets of the hardware list" in tips
        and "May go wrong: a piece that is not fixed tips" in tips
    )
    firm = flat(work.make(warned("stability"), {}))
    assert "STOP" not in firm and "tips" not in firm and "↹ Try" not in firm


def test_the_first_step_stops_where_the_findings_want_something_settled_before_wood_is_cut() -> None:
    def first(code: str, grade: Grade) -> str:
        given = warned(code)
        work_ = (replace(given.lists.work[0], key=READ, what="Read."),)
        findings = (replace(given.findings[0], grade=grade, advice="do this"),)
        return flat(work.make(replace(given, lists=replace(EMPTY, work=work_), findings=findings), {}))

    opens = first("nothing-to-open-by", Grade.NOTE)
    assert "↹ Read. Settle now, by the findings: so it is: do this." in opens
    assert "May go wrong: a piece that is not fixed" not in opens
    assert "by the findings: each finding under “Care” (1)." in first("sag", Grade.CARE)
    assert "Settle" not in first("sag", Grade.NOTE) and "↹ Read" not in first("sag", Grade.NOTE)


def test_findings_tell_angles_to_a_tenth_and_leave_out_figures_for_who_works_on_the_file() -> None:
    figures = (("tips open at", 6.2249, "deg"), ("tips shut at", 38.06, "deg"), ("off by", 0.0512, "deg"))
    given = warned("tips-easily")
    found = replace(given.findings[0], figures=figures, aside=("tips shut at",))
    text = flat(findings.make(replace(given, findings=(found,)), {}))
    assert "tips open at ≈6.2°" in text and "tips shut" not in text and "off by ≈0.05°" in text


def test_straps_stand_on_the_hardware_list_where_the_findings_ask_for_them() -> None:
    assert "strap or bracket against tipping" in flat(hardware.make(warned("tips-easily"), {}))
    assert hardware.make(warned("stability"), {}) == ()


def test_the_chart_explains_its_signs() -> None:
    assert "mark or drill through the mate" in said(drilling.make(context(), {}))
    plain = (replace(CHART[0], hole=replace(CHART[0].hole, mate="")),)
    assert "mark or drill" not in said(drilling.make(context(lists=replace(EMPTY, chart=plain)), {}))


def test_the_chart_lies_on_its_side() -> None:
    given = context("letter")
    assert {s.size for s in drilling.make(given, {})} == {given.layout.turned().size}
    lying = context("letter-landscape")
    assert {s.size for s in drilling.make(lying, {})} == {lying.layout.size}


def test_the_cutting_list_has_all_sizes_and_measures() -> None:
    text = flat(cutting.make(context(), {}))
    for wanted in (
        "case boards (black cherry), bought as 4/4", "bought as 6/4", "17 1⁄2", "18 1⁄2", "13⁄16", "blank case",
        "Blanks: do not crosscut to length", "1.92 bd ft", "1.58 ft²", "tongues 1⁄64 fat",
        "1 left, 1 right", "Stock to buy", "15.4", "25 %", "board feet",
    ):  # fmt: skip
        assert wanted in text, wanted


def test_measured_sizes_say_what_they_replace_and_where_they_go() -> None:
    given = context()
    path = given.piece.parts[0].path
    used, drawn = (Quantity(f, Kind.NUMBER) for f in (Fraction(161, 200), Fraction(13, 16)))
    row = MeasuredRow("board", "measured", used, drawn, "2026-05-20", ("lip",), (path,))
    told = flat(cutting.make(replace(given, lists=replace(given.lists, measured=(row,))), {}))
    assert "0.805" in told and "−0.0075" in told and "measured 2026-05-20" in told
    assert f"goes into {given.piece.parts[0].called}. sizes made of it: lip" in told
    assert "measured 2026" not in said(cutting.make(given, {}))


def test_rows_of_one_material_stand_together() -> None:
    text = said(cutting.make(context(), {}))
    assert text.index("drawer.front") < text.index("leg stock")


def test_set_ups_stand_by_machine_with_their_parts() -> None:
    text = flat(setups.make(context(), {}))
    assert text.index("Table saw") < text.index("mitre across the face") < text.index("Router")
    assert "1 mitre across the face: blade from square 45°" in text and "from the long point: stop 34 in" in text
    assert "mitre at the left, mitre at the right top" in text


def test_hardware_says_what_is_bought_after_which_measurement() -> None:
    text = flat(hardware.make(context(), {}))
    assert "thickness of case.left, left cheek" in text and "1/4-20 UNC" in text and "grip 3⁄4" in text


def test_the_safety_page_defers_and_shows_the_signs_there_are() -> None:
    sheets = safety.make(context(), {})
    pictures = [r.name for s in sheets for r in s.records if isinstance(r, Picture)]
    assert sorted(pictures) == ["symbols/eye-protection", "symbols/read-manual"]
    text = flat(sheets)
    assert "manual" in text and "law where you work" in text and "Asked for by dado in left side." in text


def test_a_packet_without_cautions_still_defers() -> None:
    assert "law where you work" in flat(safety.make(context(lists=EMPTY), {}))


def test_findings_say_grade_part_figures_rule_and_source() -> None:
    text = said(findings.make(context(), {}))
    for wanted in (
        "1 stop, 0 care, 1 note", "STOP: cannot be built as drawn", "Note: good to know", "shelf, top",
        "share 132 mm³", "lean 12°", "→ move the shelf down", "(common practice)",
    ):  # fmt: skip
        assert wanted in text, wanted
    assert "volume" not in text, "what the sentence says is not said again"
    assert "line 14" not in text, "places of the file are for the terminal"


@pytest.mark.parametrize(
    ("advice", "paper"),
    [
        (
            "say the joint, or what it is fixed with: fixed: {parts: […], with: glue, count: 1}; what is to come out needs none",
            "say the joint, or what it is fixed with; what is to come out needs none",
        ),
        (
            "state it for the material: stiffness: 11000, the modulus in MPa",
            "state it for the material, the modulus in MPa",
        ),
        ("let it run out at the left (a housing says through: left) where", "let it run out at the left where"),
        (
            "draw the hole for it: 25 mm, 2 of them (a knob will do)",
            "draw the hole for it: 25 mm, 2 of them (a knob will do)",
        ),
    ],
)
def test_what_is_typed_into_the_file_stays_off_the_paper(advice: str, paper: str) -> None:
    given = context()
    found = replace(given.findings[0], advice=advice)
    assert f"→ {paper}" in " ".join(said(findings.make(replace(given, findings=(found,)), {})).split())


def test_a_long_size_in_a_box_is_parted_before_a_times_sign() -> None:
    given = context()
    rows = given.lists.chain
    inches = [Fraction(254, 10) * v for v in (Fraction(3167, 64), Fraction(1031, 64), Fraction(79, 64))]
    box = replace(rows.boxes[0], size=tuple(inches))
    long = replace(given, lists=replace(given.lists, chain=replace(rows, boxes=(box, *rows.boxes[1:]))))
    assert "49 31⁄64 × 16 7⁄64\n× 1 15⁄64" in said(chain.make(long, {}))


def test_no_findings_is_told_with_the_checks_that_looked() -> None:
    text = said(findings.make(context(findings=()), {}))
    assert "No check found anything." in text
    assert len(text.split("Checks that looked\n")[1]) > 30


def test_a_check_without_a_subject_is_not_said_to_have_looked() -> None:
    text = said(findings.make(context(findings=()), {}))
    seen, unsaid = text.split("Checks that looked\n")[1].split("Not checked, since the file does not say enough\n")
    assert "parts in the same space" in seen and "slides: room" not in seen and "sag of shelves" not in seen
    assert "no load stated: sag of shelves under the stated loads" in unsaid and "panes" not in unsaid


def test_plain_fractions_are_stacked_and_names_are_not() -> None:
    assert stacked("1/4-20 UNC × 1 1/2, drill 17/64, 5/4 stock, 2026/03/02") == (
        "1/4-20 UNC × 1 1⁄2, drill 17⁄64, 5/4 stock, 2026/03/02"
    )


def test_every_list_has_a_key_and_numbered_pages() -> None:
    sheets = cutting.make(many(context(), 12), {})
    keys = [s.key for s in sheets]
    assert keys[:3] == ["cutting", "cutting/2", "cutting/3"] and len(set(keys)) == len(keys)
    assert LISTS.blanks[0].name in keys[-1]


def test_whole_millimetres_are_told_beside_inches_that_no_rule_shows() -> None:
    row = SetupRow(
        "router",
        "groove",
        (("bit", Fraction(6), "length"), ("depth", Fraction("25.4") / 4, "length")),
        (("side", "groove"),),
        "",
    )
    text = said(setups.make(context(lists=replace(EMPTY, setups=(row,))), {}))
    assert "(6 mm)" in text
    assert text.count(" mm)") == 1


def test_a_set_up_tells_its_parts_its_places_and_its_test_piece() -> None:
    places = (
        ("long point from the left end", Fraction("304.8"), "length"),
        ("short point from the left end", Fraction("279.4"), "length"),
        ("long point on", "the show face", "text"),
    )
    runs = (
        SetupRun(("left side", "right side"), "mitre", places, "far end against the stop"),
        SetupRun(("top",), "mitre"),
    )
    row = SetupRow("table saw", "bevel", (("blade", 45, "angle"),), (), "after glue-up; mind the lean", 7, "after glue-up",
                   runs, ("two offcuts", "no light"))  # fmt: skip
    text = flat(setups.make(context(lists=replace(EMPTY, setups=(row,))), {}))
    assert "7 bevel: blade 45°" in text and "Table saw, after glue-up" in text
    assert "left side; right side" in text
    assert "from the left end: long point 12, short point 11 in long point" in text
    assert "long point on the show face" in text and "far end against the stop" in text
    assert "Mind the lean." in text and "Test piece: two offcuts: no light." in text


def test_a_way_that_all_runs_share_is_told_once() -> None:
    runs = (SetupRun(("left side",), "a", (), "way"), SetupRun(("top",), "b", (), "way"))
    row = SetupRow("router", "rabbet", (), (), "", 1, "", runs)
    assert said(setups.make(context(lists=replace(EMPTY, setups=(row,))), {})).count("Way.") == 1


def test_the_chain_shows_boxes_hold_points_and_what_a_size_moves() -> None:
    text = flat(chain.make(context(), {}))
    assert "2× side" in text and "17 1⁄2 × 14 × 1" in text and "length: 40 + 2 × 1⁄4, from side to side" in text
    assert "This hangs on no other part: top." in text
    assert "H1" in text and "thickness of boards, milled" in text
    assert "length of shelf −2 ×" in text and "measured, 2026-03-02" in text and "housing" in text


def test_a_chain_for_which_no_page_has_room_is_listed() -> None:
    given = context("letter")
    rows = given.lists.chain
    boxes = tuple(replace(rows.boxes[0], title=f"part {n}", column=n) for n in range(9))
    arrows = tuple((n, n + 1) for n in range(8))
    long = replace(given, lists=replace(given.lists, chain=replace(rows, boxes=boxes, arrows=arrows)))
    text = flat(chain.make(long, {}))
    assert all(f"part {n}" in text for n in range(9))
    assert text.startswith("What a part is fitted to") and "An arrow" not in text
    assert flat(chain.make(given, {})).startswith("An arrow")


@pytest.mark.parametrize("layout", sorted(path.stem for path in Path("layouts").glob("*.yaml")))
def test_every_part_with_an_arrow_stands_in_the_chain_on_every_paper(layout: str) -> None:
    of, lists = example("sketching-desk")
    text = flat(chain.make(replace(context(layout), piece=of, lists=lists), {}))
    assert lists.chain.arrows and not [b.title for b in lists.chain.boxes if b.title not in text]
    assert "An arrow" in text


def test_steps_tell_their_parts_and_once_what_may_go_wrong() -> None:
    text = said(work.make(context(), {}))
    assert text.count("May go wrong: cupped.") == 1
    assert "all parts" in text and "left side; shelf" in text.replace("\n", " ")
    assert text.index("Stock") < text.index("Gluing up")


def test_jigs_stand_behind_the_set_ups() -> None:
    text = flat(setups.make(context(), {}))
    assert text.index("dado, flat-bottomed") < text.index("Jigs, test pieces") < text.index("strips 1⁄32 in thick")


def test_inch_packets_weigh_in_pounds_and_push_in_pounds_force() -> None:
    given = context("letter")
    assert given.piece.units.system == "inch"
    assert " lb" in flat(cutting.make(given, {})) and " kg" not in flat(cutting.make(given, {}))
    heavy = Finding(Grade.CARE, "piece-heavy", (), "So it is.", "a rule", "a source", figures=(("push", 444.8, "N"),))
    assert "push 100 lbf (445 N)" in flat(findings.make(replace(given, findings=(heavy,)), {}))


def test_the_chain_says_of_which_sizes_its_table_says_nothing() -> None:
    given = context()
    told = flat(
        chain.make(
            replace(given, lists=replace(given.lists, chain=replace(given.lists.chain, untold=("apex", "lean")))), {}
        )
    )
    assert "Not in this table" in told and "apex, lean." in told
    assert "Not in this table" not in flat(chain.make(given, {}))


def test_the_cutting_list_takes_smaller_figures_where_that_saves_a_page() -> None:
    saved = 0
    for times in range(1, 9):
        given = many(context("letter"), times)
        large, small = (
            len(cutting._set(given, height).sheets()) for height in (given.layout.heights.figure, cutting.LESS)
        )
        pages = [s for s in cutting.make(given, {}) if s.title == "Cutting list"]
        assert len(pages) <= min(large, small)  # less air may save one more
        saved += large > small
    assert saved


def test_a_small_weight_is_told_with_as_many_decimals_as_tell_it() -> None:
    for kg, told in ((4.34, "4.3 kg"), (0.09, "0.09 kg"), (0.004, "0.004 kg"), (None, "–")):
        assert cutting._weight(context(of=replace(piece(), units=Units())), kg, 1) == told


def test_the_weight_beside_what_is_bought_is_called_that_of_the_finished_parts() -> None:
    from_columns = [column.head for column in cutting.STOCK]
    assert "finished parts weigh" in from_columns and "weight" not in from_columns


def test_numbers_that_are_left_out_are_told_whose_they_are() -> None:
    given = context()
    rows = [replace(given.lists.cutting[0], number=n) for n in (1, 2, 3)]
    for numbers, told in (((0, 1, 2), False), ((0, 2), True)):
        lists = replace(EMPTY, cutting=tuple(rows[i] for i in numbers))
        assert ("numbers left out are the others'" in flat(cutting.make(replace(given, lists=lists), {}))) is told
