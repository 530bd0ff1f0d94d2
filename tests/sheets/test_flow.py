import pytest

from docgen.drawing import lettering
from docgen.drawing.columns import Column
from docgen.drawing.records import Text
from docgen.drawing.tables import Row
from docgen.sheets.flow import LESS_AIR, NARROW, Flow, drawn_together, length, valued
from tests.sheets.lists import context, said


def flow(layout: str = "a4", *, wide: bool = False) -> Flow:
    return Flow(context(layout), key="k", kind="safety", title="Pages", wide=wide)


def test_text_goes_on_over_pages_and_none_is_lost() -> None:
    pages = flow()
    words = [f"word{i}" for i in range(6000)]
    pages.text(" ".join(words))
    sheets = pages.sheets()
    assert len(sheets) > 2
    assert [w for w in said(sheets).split() if w.startswith("word")] == words
    for sheet in sheets:
        for record in sheet.records:
            assert isinstance(record, Text)
            box = lettering.box(record, pages.context.metrics)
            assert box.y - box.half_h >= pages.area.y - 1e-6 and box.x + box.half_w <= pages.area.right + 1e-6


def test_pages_that_go_on_say_so() -> None:
    pages = flow()
    pages.table([Column("n")], [Row((str(i),)) for i in range(100)])
    sheets = pages.sheets()
    assert [s.key for s in sheets] == ["k", "k/2", "k/3"]
    assert all("Pages, continued" in said((s,)) for s in sheets[1:])
    assert "continued" not in said(sheets[:1])


@pytest.mark.parametrize(("layout", "count"), [("a3", 1), ("a2", 2), ("arch-d", 3), ("a0", 4)])
def test_a_large_paper_is_filled_column_by_column_and_only_then_the_next_page(layout: str, count: int) -> None:
    """No line is longer than the tables are made for, none of the rows is lost, and columns stay apart."""
    pages = flow(layout)
    assert len(pages.columns) == count
    rows = [str(i) for i in range(700)]
    pages.text("before " * 300)
    pages.table([Column("n"), Column("what", grow=1.0)], [Row((f"n{i}", "word " * 20)) for i in rows])
    sheets = pages.sheets()
    assert [w[1:] for w in said(sheets).split() if w.startswith("n") and w[1:].isdigit()] == rows
    for sheet in sheets:
        texts = [r for r in sheet.records if isinstance(r, Text)]
        boxes = [lettering.box(r, pages.context.metrics) for r in texts]
        held = [
            {
                i
                for i, c in enumerate(pages.columns)
                if c.x - 1e-6 <= b.x - b.half_w and b.x + b.half_w <= c.right + 1e-6
            }
            for b in boxes
        ]
        assert all(len(h) == 1 for h in held)
        assert all(pages.area.y - 1e-6 <= b.y - b.half_h and b.y + b.half_h <= pages.area.top + 1e-6 for b in boxes)
    first = [lettering.box(r, pages.context.metrics).x for r in sheets[0].records if isinstance(r, Text)]
    assert len({i for x in first for i, c in enumerate(pages.columns) if c.x <= x <= c.right}) == count


def test_a_heading_stays_with_what_follows() -> None:
    pages = flow()
    pages.take(pages.rest.height - 25.0)
    pages.heading("Next", keep=20.0)
    pages.text("follows")
    first, second = pages.sheets()
    assert "Next" in said((second,)) and "Next" not in said((first,))


def test_wide_sheets_lie_on_their_side() -> None:
    assert flow("a4", wide=True).sheets()[0].size == (297.0, 210.0)
    assert flow("a4-landscape", wide=True).sheets()[0].size == (297.0, 210.0)


def test_each_point_has_its_sign() -> None:
    pages = flow()
    pages.points(["one " * 60, "two"])
    assert said(pages.sheets()).count("–") == 2


@pytest.mark.parametrize(
    ("value", "kind", "text"),
    [(25.4, "length", "1 in"), (12.0, "angle", "12°"), (3, "count", "3"), ("drill 1/4", "text", "drill 1⁄4")],
)
def test_values_of_set_ups(value: float | str, kind: str, text: str) -> None:
    assert valued(context(), value, kind) == text


def test_absent_lengths() -> None:
    assert length(context(), None) == "–"


def test_a_heading_goes_on_with_a_table_whose_first_row_finds_no_room_under_it() -> None:
    pages = flow()
    pages.text("before")
    pages.take(pages.rest.height - 55.0)
    pages.heading("What follows", keep=30.0)
    pages.table([Column("n"), Column("what")], [Row(("one", "\n".join(["line"] * 12)))])
    first, second = pages.sheets()
    assert "What follows" not in said((first,))
    assert [w for w in ("What follows", "one", "line") if w in said((second,))] == ["What follows", "one", "line"]


def test_a_heading_of_an_earlier_page_stays_there() -> None:
    pages = flow()
    pages.text("before")
    pages.heading("Of the first page", keep=0.0)
    pages.turn_page()
    pages.text("kept")  # as many records on this page as there were under the heading on the one before
    pages.take(pages.rest.height - 20.0)
    pages.table([Column("n"), Column("what")], [Row(("one", "\n".join(["line"] * 12)))])
    first, second, third = pages.sheets()
    assert ["Of the first page" in said((s,)) for s in (first, second, third)] == [True, False, False]
    assert "kept" in said((second,))


def rows_of(count: int, air: float) -> Flow:
    pages = Flow(context("a4"), key="k", kind="safety", title="Pages", air=air)
    pages.table([Column("n")], [Row((f"n{i}",)) for i in range(count)])
    return pages


def on_one_page(air: float) -> int:
    return next(n for n in range(1, 200) if len(rows_of(n + 1, air).pages) == 2)


def test_a_few_rows_are_drawn_to_the_page_before_with_no_less_air_than_that_takes() -> None:
    full, (some, least) = on_one_page(1.0), LESS_AIR
    for more, air in ((0, 1.0), (1, some), (on_one_page(some) - full + 1, least)):
        flow = drawn_together(lambda air, n=full + more: rows_of(n, air))  # type: ignore[misc]
        assert (flow.air, len(flow.pages)) == (air, 1)
        assert [w for w in said(flow.sheets()).split() if w[1:].isdigit()] == [f"n{i}" for i in range(full + more)]


def test_a_well_filled_last_page_is_drawn_in_too_where_the_others_have_room_for_it() -> None:
    count = 2 * on_one_page(LESS_AIR[0])
    assert len(rows_of(count, 1.0).pages) == 3
    assert len(drawn_together(lambda air: rows_of(count, air)).pages) == 2


def test_what_saves_one_page_more_is_worth_the_less_air() -> None:
    def pages(count: int) -> list[int]:
        return [len(rows_of(count, air).pages) for air in (1.0, *LESS_AIR)]

    full = on_one_page(LESS_AIR[-1]) - 1  # of a page that goes on
    loose, some, least = next(p for p in (pages(full * n) for n in range(4, 20)) if p[0] > p[1] > p[2])
    flow = drawn_together(lambda air: rows_of(full * least, air))
    assert loose > some > len(flow.pages) and flow.air == LESS_AIR[-1]


def test_short_lines_stand_in_two_columns_on_an_upright_sheet() -> None:
    pages = Flow(context("a4"), key="k", kind="safety", title="Pages", column=NARROW)
    assert len(pages.columns) == 2 and min(c.width for c in pages.columns) >= NARROW
    assert len(Flow(context("a4"), key="k", kind="safety", title="Pages").columns) == 1


def test_pages_keep_their_air_where_less_of_it_saves_none() -> None:
    too_many = on_one_page(LESS_AIR[-1]) + 1
    well_filled = 2 * on_one_page(1.0) - 3
    for count in (too_many, well_filled):
        assert drawn_together(lambda air, n=count: rows_of(n, air)).air == 1.0  # type: ignore[misc]
