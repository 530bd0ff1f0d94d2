"""Assemblies: what they say, placed and cut."""
