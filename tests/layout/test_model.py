from docgen.layout.model import Rect
from docgen.layout.read import read_layout


def test_turning_takes_the_filing_edge_along() -> None:
    layout = read_layout("letter")
    lying = layout.turned()
    assert lying.size == (layout.size[1], layout.size[0])
    # A lying page is filed with its top where the others have their left.
    assert lying.margin[3] == layout.margin[0]
    assert lying.turned().turned().turned() == layout


def test_the_layout_of_a_sheet_follows_its_size() -> None:
    layout = read_layout("a4")
    assert layout.for_size((210.0, 297.0)) is layout
    assert layout.for_size((297.0, 210.0)) == layout.turned()
    assert layout.for_size((100.0, 500.0)).size == (100.0, 500.0)


def test_the_area_lies_in_the_frame_above_the_title_block() -> None:
    layout = read_layout("a4")
    assert layout.frame == Rect(20.0, 10.0, 180.0, 277.0)
    assert layout.area.y == 10.0 + layout.title_block + 3.0
    assert layout.open_area.y == layout.unprintable + layout.foot
