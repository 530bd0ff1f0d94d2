"""The CSV files of the package bd-warehouse (Apache-2.0), read as data; the package itself is never imported."""

import csv
import importlib.metadata
from fractions import Fraction
from pathlib import Path

from docgen.trade.names import INCH, number


def rows(name: str) -> list[dict[str, str]]:
    """Return the rows of one data file, headings and cells stripped."""
    for file in importlib.metadata.files("bd-warehouse") or ():
        if str(file) == f"bd_warehouse/data/{name}.csv":
            with Path(str(file.locate())).open(encoding="utf-8", newline="") as text:
                return [{k.strip(): v.strip() for k, v in r.items()} for r in csv.DictReader(text)]
    raise FileNotFoundError(name)


def drill(name: str) -> Fraction:
    """Return the diameter in mm of a drill by its name, number and letter drills from the dataset's own table."""
    for r in rows("drill_sizes"):
        if r["Size"] == name:
            return number(r["Diameter"]) * INCH
    return number(name) * INCH
