"""Frames, page numbers, outline, and writing the PDF."""
