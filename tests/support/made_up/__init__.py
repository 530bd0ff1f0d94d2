"""Made-up pieces of several parts, from seeds: what they say is text of a project file."""
