"""Solids and their topology, hidden lines, sections, flat outlines with true arcs."""
