from dataclasses import replace

from docgen.layout.read import read_layout
from docgen.packet.fingerprint import fingerprint

LAYOUT = read_layout("letter")


def test_same_input_same_mark() -> None:
    assert fingerprint(b"piece", LAYOUT, ("a",)) == fingerprint(b"piece", LAYOUT, ("a",))
    text = fingerprint(b"piece", LAYOUT)
    assert len(text) == 11 and text[5] == "-" and set(text) <= set("0123456789abcdef-")


def test_everything_that_shapes_the_packet_shapes_the_mark() -> None:
    marks = [
        fingerprint(b"piece", LAYOUT),
        fingerprint(b"piece ", LAYOUT),
        fingerprint(b"piece", replace(LAYOUT, overlap=16.0)),
        fingerprint(b"piece", read_layout("a4")),
        fingerprint(b"piece", LAYOUT, ("width=3",)),
        fingerprint(b"piece", LAYOUT, ("width=", "3")),
        fingerprint(b"piece", LAYOUT, included={"a.yaml": b"x"}),
        fingerprint(b"piece", LAYOUT, included={"b.yaml": b"x"}),
        fingerprint(b"piece", LAYOUT, version="9.9"),
    ]
    assert len(set(marks)) == len(marks)


def test_bytes_cannot_move_from_one_part_to_the_next() -> None:
    assert fingerprint(b"p", LAYOUT, included={"a": b"bc"}) != fingerprint(b"p", LAYOUT, included={"ab": b"c"})
