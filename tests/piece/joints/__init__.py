"""Joints, made between parts whose places were worked by hand."""
