"""``python -m docgen`` is the command ``docgen``."""

from docgen.cli import main

main(prog_name="docgen")
