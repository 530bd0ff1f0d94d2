"""Arithmetic over named sizes: expressions that know their place in the file, and are evaluated when names are known."""

from docgen.expressions.arithmetic import KindFault, as_angle, as_length, as_mass, as_plain
from docgen.expressions.expr import (
    Expr,
    ExprFault,
    Lookup,
    acos,
    asin,
    atan,
    cos,
    sin,
    sqrt,
    tan,
)
from docgen.expressions.expr import greatest as max
from docgen.expressions.expr import least as min
from docgen.expressions.expr import size_of as abs
from docgen.expressions.text import FUNCTIONS, RESERVED, parse

__all__ = [
    "FUNCTIONS",
    "RESERVED",
    "Expr",
    "ExprFault",
    "KindFault",
    "Lookup",
    "abs",
    "acos",
    "as_angle",
    "as_length",
    "as_mass",
    "as_plain",
    "asin",
    "atan",
    "cos",
    "max",
    "min",
    "parse",
    "sin",
    "sqrt",
    "tan",
]
