import ast
import re
from pathlib import Path

from docgen.tables import data_text

ROOM = Path(__file__).parents[2] / "docgen" / "piece"
PLACE = {"Fault": 0, "Problem": 0, "need": 1, "fault": 2}
"""Where the code stands among the arguments of what tells a problem."""


def codes() -> set[str]:
    found = set()
    for path in sorted(ROOM.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call):
                name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
                at = PLACE.get(name)
                if at is not None and len(node.args) > at and isinstance(node.args[at], ast.Constant):
                    found.add(node.args[at].value)  # type: ignore[attr-defined]
    return found


def test_each_code_is_explained() -> None:
    headings = re.findall(r"^## (\S+)$", data_text("shared", "problems.md"), re.MULTILINE)
    assert len(codes()) > 50
    assert codes() - set(headings) == set()
