"""What all operations say alike."""

import inspect
from pathlib import Path

from docgen.piece import operations


def test_no_operation_tells_a_place_from_a_heel() -> None:
    """A helper knows a short point; "heel" is nowhere explained on paper."""
    for file in Path(inspect.getfile(operations)).parent.glob("*.py"):
        quoted = [
            line for line in file.read_text(encoding="utf-8").splitlines() if '"' in line and "from the heel" in line
        ]
        assert not [line for line in quoted if not line.strip().startswith('"""')], file.name
