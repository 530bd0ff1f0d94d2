"""One file an operation: its cutter, sizes, marks, rows, settings, cautions, template."""
