"""``python -m docgen`` is the command ``docgen``."""

from docgen.cli import run

run()
