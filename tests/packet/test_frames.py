from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.drawing import lettering
from docgen.drawing.records import Line, Record, Sheet, Text
from docgen.layout.read import read_layout
from docgen.packet.fonts import PacketMetrics
from docgen.packet.frames import STOPPED, page_records
from tests.packet.sample import piece

METRICS = PacketMetrics()


def around(sheet: Sheet, name: str = "letter", *, stopped: bool = False, **changes: object) -> tuple[Record, ...]:
    layout = read_layout(name).for_size(sheet.size)
    return page_records(
        sheet, layout, piece(**changes), METRICS, page=3, pages=40, fingerprint="0a1b2-c3d4e", stopped=stopped
    )


def texts(records: tuple[Record, ...]) -> list[str]:
    return [r.text for r in records if isinstance(r, Text)]


def sheet(name: str = "letter", *, framed: bool = True, title: str = "Seat") -> Sheet:
    return Sheet("a", "parts", title, read_layout(name).size, (), "1 : 4", framed=framed)


def test_the_title_block_holds_the_fields() -> None:
    said = texts(around(sheet()))
    for text in ("Porch bench", "Seat", "PB-3", "A", "2026-03-02", "Reserve workshop", "1 : 4", "inches", "Letter"):
        assert text in said
    assert "sheet 3 of 40" in said and "0a1b2-c3d4e" in said


def test_an_absent_date_leaves_its_field_empty() -> None:
    assert "date of issue" in texts(around(sheet(), date=""))
    assert "2026-03-02" not in texts(around(sheet(), date=""))


def test_a_framed_sheet_keeps_its_drawing_area_free() -> None:
    for name in ("letter", "a4-landscape"):
        area = read_layout(name).area
        for record in around(sheet(name), name, stopped=True):
            if isinstance(record, Text):
                box = lettering.box(record, METRICS)
                low, high = box.y - box.half_h, box.y + box.half_h
                assert high < area.y or low > area.top


def test_an_unframed_sheet_is_named_in_its_foot_only() -> None:
    layout = read_layout("letter")
    records = around(sheet(framed=False), stopped=True)
    assert any(STOPPED in t for t in texts(records)) and any("sheet 3 of 40" in t for t in texts(records))
    for record in records:
        assert isinstance(record, Text)
        box = lettering.box(record, METRICS)
        assert box.y + box.half_h <= layout.open_area.y and box.y - box.half_h >= layout.unprintable - 0.2


def test_the_warning_lies_where_printers_print() -> None:
    layout = read_layout("letter")
    (warning,) = [r for r in around(sheet(), stopped=True) if isinstance(r, Text) and r.text.count(STOPPED.upper()) > 1]
    box = lettering.box(warning, METRICS)
    assert box.y + box.half_h <= layout.size[1] - layout.unprintable + 0.1
    assert box.y - box.half_h > layout.frame.top
    assert box.half_w * 2 < layout.frame.width


LONG = st.text(alphabet="abc WMжй.-", min_size=0, max_size=160)


@settings(max_examples=60, deadline=None)
@given(LONG, LONG, LONG, LONG, LONG, st.booleans(), st.booleans())
def test_no_text_leaves_its_cell(
    title: str, number: str, author: str, date: str, name: str, framed: bool, stopped: bool
) -> None:
    given_sheet = sheet(framed=framed, title=name)
    records = around(given_sheet, stopped=stopped, title=title, number=number, author=author, date=date)
    boxes = []
    for record in records:
        if isinstance(record, Text) and record.text.strip():
            box = lettering.box(record, METRICS)
            boxes.append((box.x - box.half_w, box.y - box.half_h, box.x + box.half_w, box.y + box.half_h))
    for i, a in enumerate(boxes):
        for b in boxes[i + 1 :]:
            over_x = min(a[2], b[2]) - max(a[0], b[0])
            over_y = min(a[3], b[3]) - max(a[1], b[1])
            assert over_x <= 0.01 or over_y <= 0.01
    uprights = [r for r in records if isinstance(r, Line) and r.a[0] == r.b[0]]
    for line in uprights:
        low, high = sorted((line.a[1], line.b[1]))
        for x0, y0, x1, y1 in boxes:
            assert not (x0 < line.a[0] < x1 and y0 < high and y1 > low and framed and low < 35)


def test_the_fields_of_iso_7200_are_there() -> None:
    """ISO 7200:2004, tables 1 to 3: mandatory fields by our names for them, and those that are usual beside."""
    said = texts(around(sheet(), owner="Reedbed reserve", approved="the warden"))
    for name in ("owner", "number", "revision", "date of issue", "page", "title", "sheet", "approved by", "creator"):
        assert name in said, name
    assert "document type" in said and "component drawing" in said
    assert "Reedbed reserve" in said and "the warden" in said
    assert "workshop sheet" in texts(around(Sheet("x", "setups", "Set-ups", sheet().size, ())))


def test_no_cell_of_the_title_block_runs_over() -> None:
    long = "the workshop of the nature reserve beyond the river"
    for name in ("letter", "a4", "a4-landscape", "arch-a", "a3"):
        layout = read_layout(name)
        records = around(sheet(name), name, owner=long, author=long, approved=long)
        uprights = sorted({r.a[0] for r in records if isinstance(r, Line) and r.a[0] == r.b[0]})
        for record in records:
            if isinstance(record, Text) and record.anchor == "left":
                box = lettering.box(record, METRICS)
                x0, x1 = box.x - box.half_w, box.x + box.half_w
                row = [r for r in records if isinstance(r, Line) and r.a[0] == r.b[0] and r.a[1] < box.y < r.b[1]]
                assert x1 <= layout.frame.right + 0.1
                assert not [r for r in row if x0 + 0.1 < r.a[0] < x1 - 0.1], record.text
        assert uprights
