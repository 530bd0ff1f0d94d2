"""Text → tree with places; the nearest word; problems and how they are told. The only importer of yaml."""

from docgen.reading.problems import Problem, Problems, sorted_problems, tell
from docgen.reading.source import decoded, read_source
from docgen.reading.tree import Entry, Mapping, Node, Scalar, Sequence, placed, read_tree, read_value
from docgen.reading.words import did_you_mean, nearest

__all__ = [
    "Entry",
    "Mapping",
    "Node",
    "Problem",
    "Problems",
    "Scalar",
    "Sequence",
    "decoded",
    "did_you_mean",
    "nearest",
    "placed",
    "read_source",
    "read_tree",
    "read_value",
    "sorted_problems",
    "tell",
]
