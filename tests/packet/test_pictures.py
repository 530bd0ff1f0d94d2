import io
from pathlib import Path

import numpy as np
import pypdf
import pypdfium2
import pytest

from docgen.drawing.records import Picture, Sheet
from docgen.layout.read import read_layout
from docgen.packet import pictures
from docgen.packet.write import write
from tests.packet.sample import piece

SHAPES = """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20" width="40" height="20">
<rect x="0" y="0" width="20" height="10" fill="black"/>
<g transform="translate(20 10)"><circle cx="10" cy="5" r="4" fill="none" stroke="black"/></g>
<path d="M2 12 L8 12 Q 12 14 8 18 C 6 19 4 19 2 18 Z" fill="#808080"/>
<ellipse cx="30" cy="5" rx="6" ry="3" fill="none" stroke="black"/><rect x="22" y="12" width="4" height="4" rx="1"/>
<polygon points="12,12 18,12 15,18"/><polyline points="12,19 18,19" stroke="black" fill="none"/>
<line x1="0" y1="19.5" x2="10" y2="19.5" stroke="black" stroke-dasharray="2 1"/></svg>"""


def page(svg: str, folder: Path, monkeypatch: pytest.MonkeyPatch) -> bytes:
    path = folder / "shapes.svg"
    path.write_text(svg, encoding="utf-8")
    monkeypatch.setattr(pictures, "data_path", lambda kind, name: folder / name)
    pictures._drawing.cache_clear()
    layout = read_layout("a4")
    sheet = Sheet("a", "safety", "A", layout.size, (Picture("shapes", (50.0, 100.0, 100.0, 100.0)),))
    data = write([sheet], layout=layout, piece=piece(), fingerprint="f")
    pictures._drawing.cache_clear()
    return data


def test_a_picture_fills_its_box_in_proportion(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    data = page(SHAPES, tmp_path, monkeypatch)
    pixels = 200 / 25.4
    grey = pypdfium2.PdfDocument(data)[0].render(scale=200 / 72, grayscale=True).to_numpy()
    ink = np.asarray(grey).reshape(grey.shape[0], grey.shape[1], -1)[:, :, 0]

    def at(x: float, y: float) -> int:
        return int(ink[round(ink.shape[0] - y * pixels), round(x * pixels)])

    # 40 × 20 in a box of 100 × 100: 2.5 times, 50 high, from y = 125 to 175; the black half lies above left.
    assert at(52, 173) == 0 and at(98, 152) == 0
    assert at(52, 177) == 255 and at(102, 173) == 255
    assert 100 < at(60, 137) < 160
    assert at(115, 140) == 0


def test_a_picture_brings_no_font(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    fonts = pypdf.PdfReader(io.BytesIO(page(SHAPES, tmp_path, monkeypatch))).pages[0]["/Resources"]["/Font"]
    assert all("SourceSansPro" in f.get_object()["/BaseFont"] for f in fonts.values())


def test_text_in_a_picture_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    svg = SHAPES.replace("</svg>", '<text x="1" y="1">no</text></svg>')
    with pytest.raises(pictures.PictureFault, match="lines and areas only"):
        page(svg, tmp_path, monkeypatch)
