import io
import os
import subprocess
import sys
import time
from pathlib import Path

import pdfplumber
import pypdf
import pytest

import docgen
from docgen.drawing.records import Line, Sheet, Text
from docgen.layout.read import read_layout
from docgen.packet.write import write
from tests.packet import sample
from tests.packet.sample import FINGERPRINT, packet, piece

ROOT = Path(docgen.__file__).resolve().parents[1]


def reader(data: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(data))


def test_same_sheets_same_bytes() -> None:
    assert packet() == packet()


def test_neither_clock_nor_environment_shapes_the_bytes(tmp_path: Path) -> None:
    found = set()
    for i, changes in enumerate(
        (
            {"PYTHONHASHSEED": "1", "TZ": "Asia/Tokyo", "SOURCE_DATE_EPOCH": "86400"},
            {"PYTHONHASHSEED": "77", "TZ": "America/Lima", "LC_ALL": "de_DE.UTF-8", "HOME": str(tmp_path)},
            {"PYTHONHASHSEED": "0", "RL_invariant": "0", "RL_pageCompression": "0"},
        )
    ):
        folder = tmp_path / str(i)
        folder.mkdir()
        code = "import sys; from pathlib import Path; from tests.packet.sample import packet; Path('p').write_bytes(packet())"
        environment = {**os.environ, "PYTHONPATH": str(ROOT), **changes}
        subprocess.run([sys.executable, "-c", code], cwd=folder, env=environment, check=True)
        found.add((folder / "p").read_bytes())
        time.sleep(1.1 if i == 0 else 0)  # a second on the clock, should anyone read it
    assert found == {packet()}


def test_all_fonts_are_embedded_subsets() -> None:
    names = set()
    for page in reader(packet()).pages:
        for font in page["/Resources"]["/Font"].values():
            font = font.get_object()
            assert "/FontFile2" in font["/FontDescriptor"].get_object()
            assert "/ToUnicode" in font
            names.add(font["/BaseFont"])
    assert names and all("SourceSansPro" in n and n[7] == "+" for n in names)


def test_latin_greek_and_cyrillic_come_back_as_text() -> None:
    text = reader(packet()).pages[0].extract_text()
    assert "Скамья" in text and "ΔD = D·C·(M₂ − M₁)" in text and "łóżko" in text


def test_characters_without_a_glyph_become_boxes() -> None:
    layout = read_layout("a4")
    sheet = Sheet("a", "cover", "A", layout.size, (Text((50, 100), "桌 e\u0301\u0007 x"),))
    text = reader(write([sheet], layout=layout, piece=piece(), fingerprint="f")).pages[0].extract_text()
    assert "☐ é x" in text


def test_the_document_says_what_it_is_and_no_time() -> None:
    data = packet()
    about = reader(data).metadata
    assert about is not None
    assert about.title == "PB-3 Porch bench, revision A"
    assert about.author == "Reserve workshop"
    assert FINGERPRINT in str(about.subject)
    assert about.creation_date is None and about.modification_date is None
    assert b"CreationDate" not in data and b"ModDate" not in data
    assert "/Author" not in (reader(packet(author="")).metadata or {})


def test_viewers_are_asked_not_to_scale() -> None:
    root = reader(packet()).trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert root["/PageMode"] == "/UseOutlines"


def test_pages_are_labelled_as_the_title_block_counts() -> None:
    assert reader(packet()).page_labels == ["1", "2", "3", "4", "5"]
    assert "sheet 3 of 5" in reader(packet()).pages[2].extract_text()


def test_the_outline_is_a_tree_and_pages_that_go_on_share_a_line() -> None:
    told = reader(packet())

    def tree(items: list[object]) -> list[object]:
        return [tree(i) if isinstance(i, list) else i.title for i in items]  # type: ignore[attr-defined]

    assert tree(told.outline) == ["Cover", "Part sheets", ["Seat", "Leg"], "Foot"]
    leg = told.outline[2][1]  # type: ignore[index]
    assert told.get_destination_page_number(leg) == 2  # type: ignore[arg-type]


def test_links_lead_to_sheets_of_this_packet_only() -> None:
    annotations = [a.get_object() for a in reader(packet()).pages[0]["/Annots"]]
    assert len(annotations) == 1
    assert [round(float(v), 2) for v in annotations[0]["/Rect"]] == [113.39, 609.45, 283.46, 620.79]


def test_each_page_has_its_own_size() -> None:
    sizes = [(round(float(p.mediabox.width), 3), round(float(p.mediabox.height), 3)) for p in reader(packet()).pages]
    assert sizes == [(612, 792), (612, 792), (792, 612), (792, 612), (612, 792)]
    assert all(p.cropbox == p.mediabox for p in reader(packet()).pages)


def test_every_page_carries_the_fingerprint() -> None:
    assert all(FINGERPRINT in page.extract_text() for page in reader(packet()).pages)


def test_every_page_of_a_stopped_packet_says_so() -> None:
    assert all("NOT TO BE CUT FROM" in page.extract_text() for page in reader(packet(stopped=True)).pages)
    assert not any("NOT TO BE CUT FROM" in page.extract_text() for page in reader(packet()).pages)


def test_pens_are_written_as_the_layout_has_them() -> None:
    layout = read_layout("letter")
    with pdfplumber.open(io.BytesIO(packet())) as book:
        lines = book.pages[0].lines
    at = {round(line["y0"] / 72 * 25.4, 2): line for line in lines if abs(line["width"] - 100 / 25.4 * 72) < 0.01}
    for i, pen in enumerate(layout.pens):
        line = at[90.0 + 3 * i]
        assert line["linewidth"] == pytest.approx(layout.pens[pen].width / 25.4 * 72, abs=1e-3)


def test_a_packet_needs_sheets_with_keys_of_their_own() -> None:
    layout = read_layout("a4")
    with pytest.raises(ValueError, match="at least one"):
        write([], layout=layout, piece=piece(), fingerprint="f")
    twice = [Sheet("a", "cover", "A", layout.size, ())] * 2
    with pytest.raises(ValueError, match="'a'"):
        write(twice, layout=layout, piece=piece(), fingerprint="f")


def test_the_sample_script_writes_the_same(tmp_path: Path) -> None:
    target = tmp_path / "p.pdf"
    command = [sys.executable, "-m", "tests.packet.sample", str(target)]
    subprocess.run(command, cwd=ROOT, check=True)
    assert target.read_bytes() == sample.packet()


def test_forty_full_pages_are_written_in_no_time() -> None:
    layout = read_layout("letter")
    records = [Line((20 + i % 170, 50 + i % 190), (25 + i % 165, 60 + i % 180)) for i in range(1000)]
    words = [Text((30, 60 + i), f"figure {i} 1⁄2", 2.5) for i in range(150)]
    pages = [Sheet(f"s{n}", "parts", f"S{n}", layout.size, (*records, *words)) for n in range(40)]
    started = time.process_time()
    write(pages, layout=layout, piece=piece(), fingerprint="f")
    assert time.process_time() - started < 2.5  # 0.8 s on the machine this was measured on; slow machines get room
