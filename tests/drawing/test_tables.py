import re
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.drawing import lettering
from docgen.drawing.cells import TIE, tied, whole_part
from docgen.drawing.columns import Column, shared
from docgen.drawing.placing import PaperFault
from docgen.drawing.records import Line, Pen, Text
from docgen.drawing.tables import Placed, Row, Style, table
from docgen.layout.model import Rect
from tests.support.metrics import RoundMetrics

METRICS = RoundMetrics()
AREA = Rect(20, 30, 170, 200)


def texts(page: Placed) -> list[Text]:
    return [r for r in page.records if isinstance(r, Text)]


def boxes(page: Placed) -> list[tuple[float, float, float, float, str]]:
    out = []
    for t in texts(page):
        b = lettering.box(t, METRICS)
        out.append((b.x - b.half_w, b.y - b.half_h, b.x + b.half_w, b.y + b.half_h, t.text))
    return out


def faults(pages: tuple[Placed, ...], areas: list[Rect]) -> list[str]:
    """Texts on texts, texts on rules, texts outside their area."""
    found = []
    for page, area in zip(pages, areas, strict=True):
        inside = boxes(page)
        for a, b in combinations(inside, 2):
            if min(a[2], b[2]) - max(a[0], b[0]) > 1e-6 and min(a[3], b[3]) - max(a[1], b[1]) > 1e-6:
                found.append(f"{a[4]!r} on {b[4]!r}")
        for left, low, right, high, text in inside:
            if left < area.x - 1e-6 or right > area.right + 1e-6 or low < area.y - 1e-6 or high > area.top + 1e-6:
                found.append(f"{text!r} outside")
            for r in page.records:
                if isinstance(r, Line):
                    x0, x1 = sorted((r.a[0], r.b[0]))
                    y0, y1 = sorted((r.a[1], r.b[1]))
                    if x0 < right - 1e-6 and x1 > left + 1e-6 and y0 < high - 1e-6 and y1 > low + 1e-6:
                        found.append(f"a rule through {text!r}")
    return found


def squeezed(text: str) -> str:
    return re.sub(r"\s", "", text)


WORD = st.text(alphabet="abgjpqMW.0123456789", min_size=1, max_size=14)
FIGURE = st.sampled_from(["7⁄8", "11 7⁄8", "302", "11.871 ≈ 11 7⁄8", "≈302.4", "–", "through", "0", "1 1⁄2\n22"])
CELL = st.one_of(FIGURE, st.lists(WORD, max_size=12).map(" ".join), st.just("⌴ ⌀3⁄8 ↧1⁄8"))
ALIGN = st.sampled_from(["left", "middle", "right", "figures"])


@st.composite
def tables(draw: st.DrawFn) -> tuple[list[Column], list[Row]]:
    count = draw(st.integers(1, 7))
    columns = [
        Column(draw(WORD), draw(ALIGN), draw(st.sampled_from([0.0, 1.0])), draw(st.booleans()), draw(st.booleans()))
        for _ in range(count)
    ]
    rows = []
    for _ in range(draw(st.integers(0, 12))):
        kind = draw(st.integers(0, 5))
        if kind == 0:
            rows.append(Row(heading=draw(WORD)))
        else:
            under = draw(WORD) if kind == 1 else ""
            rows.append(Row(tuple(draw(CELL) for _ in range(count)), under))
    return columns, rows


@settings(max_examples=120, deadline=None)
@given(tables(), st.floats(60, 200), st.floats(30, 200))
def test_nothing_lies_on_anything_and_nothing_is_lost(
    given_table: tuple[list[Column], list[Row]], first: float, second: float
) -> None:
    columns, rows = given_table
    areas = (Rect(20, 100, 170, first), Rect(20, 60, 170, second + 40))
    pages = table(columns, rows, areas, METRICS)
    assert faults(pages, [areas[0], *[areas[1]] * (len(pages) - 1)]) == []
    shown = sorted(squeezed("".join(t.text for page in pages for t in texts(page))))
    heads = "".join(c.head for c in columns) * sum(1 for p in pages if p.records)
    wanted = heads + "".join("".join(row.cells) + row.under + row.heading for row in rows)
    assert shown == sorted(squeezed(wanted))


def test_figures_stand_with_their_units_under_one_another() -> None:
    rows = [Row((f,)) for f in ("7", "11 7⁄8", "302.4", "7⁄8")]
    (page,) = table([Column("length", "figures")], rows, (AREA, AREA), METRICS)
    ends = {t.text: t.at[0] + METRICS.width(whole_part(t.text), t.height) for t in texts(page) if t.text != "length"}
    assert ends["7"] == pytest.approx(ends["11 7⁄8"]) == pytest.approx(ends["302.4"])
    (fraction,) = [t for t in texts(page) if t.text == "7⁄8"]
    assert fraction.at[0] > ends["7"]


def test_a_stacked_fraction_makes_its_row_higher() -> None:
    (plain,) = table([Column("a")], [Row(("11",))], (AREA, AREA), METRICS)
    (stacked,) = table([Column("a")], [Row(("11 7⁄8",))], (AREA, AREA), METRICS)
    assert stacked.box.height > plain.box.height + 0.4


def test_no_line_ends_between_a_number_and_its_fraction() -> None:
    text = " ".join(["11 7⁄8"] * 30)
    (page,) = table([Column("a"), Column("b")], [Row((text, text))], (AREA, AREA), METRICS)
    assert all(t.text.endswith("7⁄8") and t.text.startswith("11") for t in texts(page) if "⁄" in t.text)


def test_lettering_shrinks_before_it_wraps_much_and_never_under_the_least() -> None:
    wide = tuple("measured over the long points of both" for _ in range(6))
    (page,) = table([Column("x")] * 6, [Row(wide)], (AREA, AREA), METRICS, Style(height=3.5, least=2.5))
    assert 2.5 <= page.height < 3.5
    (page,) = table([Column("x")], [Row(("short",))], (AREA, AREA), METRICS)
    assert page.height == 3.5


def test_a_long_table_goes_on_with_its_heads() -> None:
    rows = [Row((str(i), "oak")) for i in range(100)]
    low = Rect(20, 200, 170, 30)
    pages = table([Column("no."), Column("wood")], rows, (low, AREA), METRICS)
    assert len(pages) == 5
    assert all([t.text for t in texts(page)][:2] == ["no.", "wood"] for page in pages)
    assert [i for page in pages for i, _ in page.rows] == list(range(100))


def test_a_first_page_without_room_stays_empty() -> None:
    pages = table([Column("no.")], [Row(("1",))], (Rect(20, 200, 170, 8), AREA), METRICS)
    assert pages[0].records == () and [i for i, _ in pages[1].rows] == [0]


def test_a_heading_stays_with_its_row() -> None:
    rows = [*[Row(("x",))] * 5, Row(heading="cherry"), Row(("y",))]
    (whole,) = table([Column("n")], rows, (AREA, AREA), METRICS)
    heading = dict(whole.rows)[5]
    just = Rect(20, heading.y - 0.1, 170, AREA.top - heading.y + 0.1)
    first, second = table([Column("n")], rows, (just, AREA), METRICS)
    assert [i for i, _ in first.rows] == [0, 1, 2, 3, 4]
    assert [i for i, _ in second.rows] == [5, 6]


def test_coordinates_stand_level() -> None:
    columns = [Column("end", "figures", paired=True), Column("edge", "figures", paired=True), Column("note")]
    row = Row(("bottom end\n5\n1 7⁄8", "front edge\n8 31⁄32\n8", "a long remark that wraps over several lines " * 4))
    (page,) = table(columns, [row], (AREA, AREA), METRICS)
    y = {t.text: t.at[1] for t in texts(page)}
    assert y["5"] == y["8 31⁄32"] and y["1 7⁄8"] == y["8"]


def test_rules_stand_at_the_ends_of_the_rows() -> None:
    (page,) = table([Column("n")], [Row(("1",)), Row(("2",))], (AREA, AREA), METRICS)
    levels = [r.a[1] for r in page.records if isinstance(r, Line) and r.a[1] == r.b[1]]
    assert all(any(abs(box.y - y) < 1e-9 for y in levels) for _, box in page.rows)
    assert sum(isinstance(r, Line) and r.pen is Pen.FRAME for r in page.records) == 1


def test_rules_between_columns_end_clear_of_a_remark_below_the_cells() -> None:
    rows = [Row(("1", "saw"), under="May go wrong: " + "a long remark across all columns " * 6), Row(("2", "plane"))]
    (page,) = table([Column("n"), Column("what to do")], rows, (AREA, AREA), METRICS)
    remark = [b for b in boxes(page) if "remark" in b[4]]
    upright = [r for r in page.records if isinstance(r, Line) and r.a[0] == r.b[0]]
    assert len(remark) > 1 and len(upright) == 2  # beside the first row with the head, and beside the second
    low, high = min(b[1] for b in remark), max(b[3] for b in remark)
    for rule in upright:
        assert min(rule.a[1], rule.b[1]) > high + 0.5 or max(rule.a[1], rule.b[1]) < low - 0.5


def test_cells_and_columns_agree() -> None:
    with pytest.raises(ValueError, match="2 cells in 1 columns"):
        table([Column("a")], [Row(("1", "2"))], (AREA, AREA), METRICS)


def test_an_area_without_room_for_a_line_is_refused() -> None:
    tiny = Rect(0, 0, 100, 2)
    with pytest.raises(PaperFault, match="of a table"):
        table([Column("")], [Row(("1",))], (tiny, tiny), METRICS)


@settings(max_examples=200, deadline=None)
@given(
    st.lists(st.tuples(st.floats(1, 50), st.floats(0, 100), st.sampled_from([0.0, 1.0, 2.0])), min_size=1, max_size=9),
    st.floats(20, 300),
)
def test_widths_fill_no_more_than_there_is(columns: list[tuple[float, float, float]], room: float) -> None:
    needs = [(least, least + more) for least, more, _ in columns]
    widths = shared(needs, room, [g for _, _, g in columns])
    assert sum(widths) <= room + 1e-6
    if sum(least for least, _ in needs) <= room:
        assert all(w >= least - 1e-9 for w, (least, _) in zip(widths, needs, strict=True))


def test_no_line_ends_within_a_number_or_before_its_unit() -> None:
    told = tied("No. 12 × 3, 18 000 turns, 10 lbf (43 N), 1 1⁄2 in, to 400 and 18").replace(TIE, "~")
    assert told == "No.~12~×~3, 18~000 turns, 10~lbf (43~N), 1~1⁄2~in, to 400 and 18"
