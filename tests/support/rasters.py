"""Pages of a PDF file as pictures, made by three programs that share nothing with ours or with each other."""

from __future__ import annotations

import io
import math
import shutil
import subprocess
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path

import numpy as np
import numpy.typing as npt
import pypdfium2

Dark = npt.NDArray[np.float32]
Spot = tuple[float, float]
Box = tuple[float, float, float, float]

COMMANDS = {"poppler": "pdftoppm", "ghostscript": "gs"}
PROGRAMS = ("pdfium", *(name for name, command in COMMANDS.items() if shutil.which(command)))
"""PDFium comes with the tests; the others are used where the machine has them, as CI makes sure it does."""

MM = 72 / 25.4
INKED = 0.5  # what is darker is ink
SLACK = 1.6  # pixels
NEAR = 6.0  # pixels
EDGE = 6  # quarter pixels at the sides of a run that may be grey


def raster(data: bytes, page: int, dpi: int, program: str, box: Box | None = None) -> tuple[Dark, float, float]:
    """Return how dark the pixels of a page (counted from 0) are, 0 white to 1 black, within `box` (mm from the lower left).

    With it come the column of the page that the picture begins with, and the row, counted from the page's foot up, of
    its upper side: a point at (x, y) mm lies at column ``x · dots − left`` and row ``top − y · dots``.
    """
    source = pypdfium2.PdfDocument(io.BytesIO(data))[page]
    size = tuple(s * 25.4 / 72 for s in source.get_size())
    x0, y0, x1, y1 = box or (0.0, 0.0, *size)
    dots = dpi / 25.4
    left, top = int(max(0.0, x0) * dots), math.ceil(min(size[1], y1) * dots)
    if program == "pdfium":
        # Cut at whole pixels of the page: the picture's pixels are then those of the whole page.
        crop = (left / dpi * 72, max(0.0, y0) * MM, max(0.0, size[0] - x1) * MM, (size[1] * dots - top) / dpi * 72)
        picture = source.render(scale=dpi / 72, grayscale=True, optimize_mode="print", crop=crop).to_numpy()
        grey = np.asarray(picture).reshape(picture.shape[0], -1)[:, : picture.shape[1]]
        return 1 - grey.astype(np.float32) / 255, left, top
    with tempfile.TemporaryDirectory() as folder:
        written = Path(folder, "in.pdf")
        written.write_bytes(data)
        whole = _picture(written, page + 1, dpi, program)
    tall = whole.shape[0]
    part = whole[max(0, tall - top) : tall - int(max(0.0, y0) * dots), left : math.ceil(x1 * dots)]
    return 1 - part.astype(np.float32) / 255, left, min(top, tall)


def _picture(source: Path, number: int, dpi: int, program: str) -> npt.NDArray[np.uint8]:
    out = source.with_name("out.pgm")
    if program == "poppler":
        where = ["-r", str(dpi), "-f", str(number), "-l", str(number), "-singlefile", "-gray"]
        command = ["pdftoppm", *where, str(source), str(out.with_suffix(""))]
    else:
        how = ["-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=pgmraw", "-dGraphicsAlphaBits=4", f"-r{dpi}"]
        pages = [f"-dFirstPage={number}", f"-dLastPage={number}", f"-sOutputFile={out}"]
        command = ["gs", *how, *pages, str(source)]
    subprocess.run(command, check=True, capture_output=True)
    return _pgm(out.read_bytes())


def _pgm(data: bytes) -> npt.NDArray[np.uint8]:
    """Return the pixels of a binary grey map: a header of four words, comments allowed, then the bytes."""
    words: list[bytes] = []
    at = 0
    while len(words) < 4:
        end = at
        if data[at : at + 1] == b"#":
            at = data.index(b"\n", at) + 1
            continue
        while data[end : end + 1].strip():
            end += 1
        if end > at:
            words.append(data[at:end])
        at = end + 1
    wide, tall = int(words[1]), int(words[2])
    return np.frombuffer(data, dtype=np.uint8, count=wide * tall, offset=at).reshape(tall, wide)


def off_line(dark: Dark, at: Spot, normal: Spot, wide: float, reach: float = 20.0) -> float | None:
    """Return how many pixels the middle of the line nearest to `at` lies off it along `normal`, None without one.

    `at` is (column, row) with pixel centres at halves. A line is an inked run `wide` pixels across, within SLACK: where
    others run into it the run is wider, and its middle tells nothing. What lies farther off than NEAR is another line.
    """
    steps = np.arange(-reach, reach + 0.01, 0.25)
    columns = np.floor(at[0] + steps * normal[0]).astype(int)
    rows = np.floor(at[1] + steps * normal[1]).astype(int)
    if columns.min() < 0 or rows.min() < 0 or columns.max() >= dark.shape[1] or rows.max() >= dark.shape[0]:
        return None
    here = dark[rows, columns]
    middles = []
    for a, b in _runs(here > INKED):
        if abs(float(steps[b] - steps[a]) - wide) <= SLACK and a > EDGE and b < len(steps) - EDGE:
            part = slice(a - EDGE, b + EDGE + 1)  # with the grey pixels at its sides
            middles.append(float((steps[part] * here[part]).sum() / here[part].sum()))
    return min((m for m in middles if abs(m) <= NEAR), key=abs, default=None)


def _runs(inked: Sequence[bool] | npt.NDArray[np.bool_]) -> Iterator[tuple[int, int]]:
    start = None
    for k, here in enumerate([*inked, False]):
        if here and start is None:
            start = k
        elif not here and start is not None:
            yield start, k - 1
            start = None


def unit_normal(a: Spot, b: Spot) -> Spot:
    """Return the unit vector square to the way from `a` to `b`."""
    long = math.dist(a, b)
    return ((a[1] - b[1]) / long, (b[0] - a[0]) / long)
