"""Each code that a layout or a choice of sheets can be refused with is explained and tried by a test."""

import re
from pathlib import Path

import docgen
from docgen.tables import data_text

ROOT = Path(docgen.__file__).resolve().parents[1]
SOURCES = (
    "docgen/layout/read.py",
    "docgen/layout/values.py",
    "docgen/sheets/order.py",
    "docgen/layout/printers.py",
    "docgen/layout/printer_book.py",
)
TESTS = ("tests/layout/test_read.py", "tests/sheets/test_order.py", "tests/layout/test_printers.py")
CODE = re.compile(r'"([a-z]+(?:-[a-z]+)+)"')
NO_CODES = {"letter-landscape"}


def codes(paths: tuple[str, ...]) -> set[str]:
    return {c for path in paths for c in CODE.findall((ROOT / path).read_text(encoding="utf-8"))} - NO_CODES


def test_each_code_is_explained() -> None:
    headings = set(re.findall(r"^## (\S+)$", data_text("shared", "problems.md"), re.MULTILINE))
    assert len(codes(SOURCES)) > 15
    assert codes(SOURCES) - headings == set()


def test_each_code_is_tried() -> None:
    assert codes(SOURCES) - codes(TESTS) == set()
