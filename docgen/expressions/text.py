"""From text to expressions: ``case_top + 1/16``, ``1 1/2 in``, ``left side.right - 12 mm``.

Grammar (`number` may carry a unit; a name may hold spaces and dots)::

    sum     = product {("+" | "-") product}
    product = signed {("*" | "/") signed}
    signed  = {"+" | "-"} atom
    atom    = number [unit] | name | function "(" sum {"," sum} ")" | "(" sum ")"

Fractions written without spaces are one number: ``3/8 in`` is three eighths of an inch.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

from docgen.expressions.expr import Expr, ExprFault
from docgen.places import Span
from docgen.units import KG_PER, MM_PER, Kind, Quantity, Units

FUNCTIONS = {"sin": 1, "cos": 1, "tan": 1, "asin": 1, "acos": 1, "atan": 1, "sqrt": 1, "abs": 1, "min": 0, "max": 0}
"""Name → how many values it takes; 0 stands for one or more."""

_UNIT: dict[str, tuple[Kind, Fraction]] = {
    **{sign: (Kind.LENGTH, mm) for sign, mm in MM_PER.items()},
    **{sign: (Kind.MASS, kg) for sign, kg in KG_PER.items()},
    **dict.fromkeys(('"', "″"), (Kind.LENGTH, MM_PER["in"])),
    **dict.fromkeys(("'", "′"), (Kind.LENGTH, MM_PER["ft"])),
    **{sign: (Kind.ANGLE, Fraction(1)) for sign in ("deg", "°")},
}
RESERVED = frozenset(FUNCTIONS) | {sign for sign in _UNIT if sign.isalpha()}
"""Words that no size may be called."""

MOST_CHARACTERS = 400
MOST_DIGITS = 30
MOST_DEPTH = 40
_UNITS_SAID = "units are mm, cm, m, in, ft, deg, kg, g and lb"
_SIGNS = {"×": "*", "·": "*", "÷": "/", "−": "-", "–": "-", "⁄": "/"}

_TOKEN = re.compile(
    r"""(?P<space>\s+)
    | (?P<mixed>[0-9]+\s+[0-9]+[/⁄][0-9]+(?![0-9.]))
    | (?P<fraction>[0-9]+[/⁄][0-9]+(?![0-9.]))
    | (?P<decimal>[0-9]*\.[0-9]+)
    | (?P<whole>[0-9]+)
    | (?P<name>[^\W\d]\w*(?:[ ]+\w+)*(?:\.(?:[^\W\d]\w*(?:[ ]+\w+)*|[0-9]+(?!\w)))*)
    | (?P<sign>[-+*/(),×·÷−–⁄])
    """,
    re.VERBOSE,
)
_BEHIND = re.compile(r"\s*(?:(mm|cm|m|in|ft|deg|kg|g|lb)(?!\w)|([°\"″'′]))")


@dataclass(frozen=True, slots=True)
class _Token:
    kind: str  # "number", "name", "sign" or "end"
    text: str
    start: int
    end: int
    value: Fraction = Fraction(0)
    unit: str = ""


def parse(text: str, span: Span, units: Units) -> Expr:
    """Return the expression that `text`, written at `span`, holds; bare numbers read in `units`.

    ExprFault with the very characters at fault when it is none.
    """
    text = unicodedata.normalize("NFC", text)
    if not text.strip():
        raise ExprFault("missing-value", "a number or a formula is missing here", span)
    if len(text) > MOST_CHARACTERS:
        raise ExprFault(
            "too-long",
            f"a formula of {len(text)} characters; the most is {MOST_CHARACTERS}",
            span,
            "name its steps under sizes",
        )
    place = _Place(text, span)
    return _Parser(_tokens(text, place), place, units).whole()


@dataclass(frozen=True, slots=True)
class _Place:
    """The text and where it stands; tells the span of some of its characters."""

    text: str
    span: Span

    def part(self, start: int, end: int) -> Span:
        """Return the span of the characters from `start` to `end`; of all when the text was not written on one line."""
        quotes = self.span.length - len(self.text)
        if quotes not in (0, 2):
            return self.span
        return Span(self.span.file, self.span.line, self.span.column + quotes // 2 + start, max(1, end - start))

    def fault(self, code: str, message: str, start: int, end: int, hint: str = "") -> ExprFault:
        """Return the fault at some of the characters."""
        return ExprFault(code, message, self.part(start, end), hint)


def _tokens(text: str, place: _Place) -> list[_Token]:
    out: list[_Token] = []
    at = 0
    while at < len(text):
        found = _TOKEN.match(text, at)
        if found is None:
            raise place.fault("bad-character", f"{text[at]!r} has no meaning in a formula", at, at + 1)
        kind, at = str(found.lastgroup), found.end()
        if kind == "name":
            out.append(_Token("name", " ".join(found[0].split()), found.start(), at))
        elif kind == "sign":
            out.append(_Token("sign", _SIGNS.get(found[0], found[0]), found.start(), at))
        elif kind != "space":
            out.append(_number(found, place, after=out[-1].text if out else ""))
            at = out[-1].end
    out.append(_Token("end", "", len(text), len(text)))
    return out


def _number(found: re.Match[str], place: _Place, *, after: str) -> _Token:
    """Return the number with the unit behind it."""
    start, end, text = found.start(), found.end(), found[0].replace("⁄", "/")
    if sum(c.isdigit() for c in text) > MOST_DIGITS:
        raise place.fault("number-too-large", f"a number of more than {MOST_DIGITS} digits", start, end)
    if found.lastgroup == "fraction" and after == "/":
        hint = "put brackets round what belongs together"
        raise place.fault("two-readings", f"after a division {text} could be read in two ways", start, end, hint)
    *whole, last = text.split()
    over, _, under = last.partition("/")
    if under and int(under) == 0:
        raise place.fault("division-by-zero", "the divisor is 0", start, end)
    if whole and int(over) >= int(under):
        raise place.fault("bad-number", f"{text} is no mixed number: {last} is not below 1", start, end)
    value = Fraction(last) + (Fraction(whole[0]) if whole else 0)
    behind = _BEHIND.match(place.text, end)
    if behind is None:
        return _Token("number", text, start, end, value)
    return _Token("number", text, start, behind.end(), value, behind[1] or behind[2])


class _Parser:
    """Recursive descent over the tokens; goes no deeper than MOST_DEPTH."""

    def __init__(self, tokens: list[_Token], place: _Place, units: Units) -> None:
        self._tokens, self._place, self._units = tokens, place, units
        self._at = 0
        self._depth = 0

    def whole(self) -> Expr:
        """Return the expression that all tokens make."""
        out = self._sum()
        if self._now.kind != "end":
            raise self._unexpected()
        return out

    @property
    def _now(self) -> _Token:
        return self._tokens[self._at]

    def _step(self) -> _Token:
        token = self._now
        self._at += 1
        return token

    def _takes(self, *signs: str) -> _Token | None:
        return self._step() if self._now.kind == "sign" and self._now.text in signs else None

    def _sum(self) -> Expr:
        start, left = self._now.start, self._product()
        while sign := self._takes("+", "-"):
            right = self._product()
            left = self._node(sign.text, (left, right), start)
        return left

    def _product(self) -> Expr:
        start, left = self._now.start, self._signed()
        while sign := self._takes("*", "/"):
            right = self._signed()
            left = self._node(sign.text, (left, right), start)
        return left

    def _signed(self) -> Expr:
        start, turned = self._now.start, False
        while sign := self._takes("+", "-"):
            turned ^= sign.text == "-"
        inner = self._atom()
        return self._node("neg", (inner,), start) if turned else inner

    def _atom(self) -> Expr:
        token = self._step()
        if token.kind == "number":
            return self._measured(token)
        if token.kind == "name":
            if self._now.kind == "sign" and self._now.text == "(":
                return self._call(token)
            return Expr("name", path=token.text, span=self._span(token.start), units=self._units)
        if token.kind == "sign" and token.text == "(":
            self._deeper(token)
            inner = self._sum()
            self._close(token)
            return inner
        self._at -= 1
        raise self._unexpected()

    def _measured(self, token: _Token) -> Expr:
        """Return a number with its unit; feet and inches behind each other are one length."""
        kind, factor = _UNIT[token.unit] if token.unit else (Kind.NUMBER, Fraction(1))
        value = token.value * factor
        if token.unit in ("ft", "'", "′") and self._now.kind == "number" and self._now.unit in ("in", '"', "″"):
            value += self._step().value * MM_PER["in"]
        return Expr("value", quantity=Quantity(value, kind), span=self._span(token.start), units=self._units)

    def _call(self, name: _Token) -> Expr:
        if name.text not in FUNCTIONS:
            hint = f"the functions are {', '.join(FUNCTIONS)}; for a product write ×"
            raise self._place.fault("unknown-function", f"'{name.text}' is no function", name.start, name.end, hint)
        bracket = self._step()
        self._deeper(bracket)
        values = [self._sum()]
        while self._takes(","):
            values.append(self._sum())
        self._close(bracket)
        if FUNCTIONS[name.text] not in (0, len(values)):
            message = f"{name.text} takes one value, here it has {len(values)}"
            raise self._place.fault("bad-formula", message, name.start, self._tokens[self._at - 1].end)
        return self._node(name.text, tuple(values), name.start)

    def _deeper(self, token: _Token) -> None:
        self._depth += 1
        if self._depth > MOST_DEPTH:
            raise self._place.fault(
                "too-deep", f"more than {MOST_DEPTH} brackets inside each other", token.start, token.end
            )

    def _close(self, opened: _Token) -> None:
        self._depth -= 1
        if self._takes(")"):
            return
        if self._now.kind == "end":
            raise self._place.fault("bad-formula", "this bracket is never closed", opened.start, opened.end)
        raise self._unexpected()

    def _unexpected(self) -> ExprFault:
        """Return the fault of a token that fits nowhere, with what may have been meant."""
        token, before = self._now, self._tokens[self._at - 1] if self._at else None
        if token.kind == "end":
            return self._place.fault(
                "bad-formula", "the formula ends where a value should follow", token.start - 1, token.end
            )
        if before is not None and before.kind == "number" and not before.unit and token.kind == "name":
            hint = f"{_UNITS_SAID}; for a product write {before.text} × {token.text}"
            return self._place.fault("unknown-unit", f"'{token.text}' is no unit", token.start, token.end, hint)
        hint = "decimals are written with a point" if token.text == "," else ""
        if before is not None and before.kind in ("number", "name") and token.kind != "sign":
            hint = "a sign is missing: + - × ÷"
        return self._place.fault("bad-formula", f"'{token.text}' does not fit here", token.start, token.end, hint)

    def _node(self, op: str, args: tuple[Expr, ...], start: int) -> Expr:
        return Expr(op, args, span=self._span(start), units=self._units)

    def _span(self, start: int) -> Span:
        return self._place.part(start, self._tokens[self._at - 1].end)
