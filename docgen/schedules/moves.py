"""What a difference in a named size moves: the formulas of sizes and places, worked once more with that size shifted.

Only what depends on the shifted size is worked again, so that all sizes of a piece take milliseconds.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from docgen.expressions import Expr, ExprFault
from docgen.piece.model import Part, Piece
from docgen.project.resolve import Key, face_of
from docgen.units import Kind, Number, Quantity, Units

STEP = Fraction(1, 100)
"""mm by which a size is shifted: small, so that no box turns inside out."""

NOTHING = 1e-9
NAMES = ("length", "width", "thickness")


@dataclass(frozen=True, slots=True)
class Move:
    """One size of a part that follows a named size: by `factor` times the difference."""

    path: str
    what: str  # "length", "width", "thickness"
    factor: Number
    stays: str = ""  # word of the face that stays where it is, "" when both move


def parts_named(exprs: Iterable[Expr]) -> Iterator[str]:
    """Yield the parts whose faces the formulas name."""
    for expr in exprs:
        for name in expr.names():
            key = face_of(name)
            if key is not None:
                yield key[0]


@dataclass(slots=True)
class Chain:
    """The formulas of a piece, ready to be worked with one size shifted."""

    piece: Piece
    sizes: Mapping[str, Quantity] = field(init=False)
    formulas: Mapping[str, Expr] = field(init=False)
    places: Mapping[Key, Expr] = field(init=False)
    needs: Mapping[str | Key, frozenset[str]] = field(init=False)  # face or size → every size that it hangs on

    def __post_init__(self) -> None:
        """Gather the formulas, and for each what it hangs on."""
        self.sizes = {name: value for name, value, _ in self.piece.sizes}
        self.formulas = dict(self.piece.rules.formulas)
        self.places = {
            (part.path, axis, side): expr
            for part in self.piece.rules.parts
            for axis, pair in enumerate(part.box)
            for side, expr in enumerate(pair)
        }
        memo: dict[str | Key, frozenset[str]] = {}
        for name in self.formulas:
            self._hangs(name, memo)
        for key in self.places:
            self._hangs(key, memo)
        self.needs = memo

    def _hangs(self, key: str | Key, memo: dict[str | Key, frozenset[str]]) -> frozenset[str]:
        if key not in memo:
            memo[key] = frozenset()  # a circle cannot come here: it was told when the file was read
            expr = self.formulas.get(key) if isinstance(key, str) else self.places.get(key)
            found = {key} if isinstance(key, str) else set()
            for name in expr.names() if expr is not None else ():
                found |= self._hangs(face_of(name) or name, memo)
            memo[key] = frozenset(found)
        return memo[key]

    def moves(self, name: str) -> tuple[Move, ...]:
        """Return the sizes of parts that move with a named size, in the order of the parts; none when they cannot be worked."""
        shifted = _Shifted(self, name)
        out: list[Move] = []
        try:
            for part in self.piece.parts:
                if len(part.box) == 3 and (part.path, 0, 0) in self.places:
                    out += self._of(part, shifted)
        except ExprFault:
            return ()
        return tuple(out)

    def _of(self, part: Part, shifted: _Shifted) -> Iterator[Move]:
        for word, other, axis in (("left", "right", 0), ("front", "back", 1), ("bottom", "top", 2)):
            keys: list[Key] = [(part.path, axis, side) for side in (0, 1)]
            if not any(shifted.name in self.needs[key] for key in keys):
                continue
            low, high = (shifted.place(key) - part.box[axis][key[2]] for key in keys)
            if abs(float(high - low)) > NOTHING:
                stays = word if abs(float(low)) < NOTHING else other if abs(float(high)) < NOTHING else ""
                yield Move(part.path, NAMES[part.face(word).axis], (high - low) / STEP, stays)


@dataclass(slots=True)
class _Shifted:
    """The chain with one size shifted by `STEP`; only what hangs on it is worked again."""

    chain: Chain
    name: str
    done: dict[str | Key, Quantity] = field(default_factory=dict)

    def place(self, key: Key) -> Number:
        """Return where a face stands, mm."""
        piece = self.chain.piece
        if self.name not in self.chain.needs.get(key, ()):
            return piece.part(key[0]).box[key[1]][key[2]]
        if key not in self.done:
            value = self.chain.places[key].evaluate(self._look)
            self.done[key] = Quantity(_mm(value, piece.units), Kind.LENGTH)
        return self.done[key].value

    def _look(self, name: str) -> Quantity:
        key = face_of(name)
        if key is not None:
            return Quantity(self.place(key), Kind.LENGTH)
        base = self.chain.sizes[name]
        if name == self.name:
            step = STEP if base.kind is Kind.LENGTH else STEP / self.chain.piece.units.mm
            return Quantity(base.value + step, base.kind)
        if self.name not in self.chain.needs.get(name, ()):
            return base
        if name not in self.done:
            self.done[name] = self.chain.formulas[name].evaluate(self._look)
        return self.done[name]


def _mm(value: Quantity, units: Units) -> Number:
    return value.value * units.mm if value.kind is Kind.NUMBER else value.value


def gathered(moves: Sequence[Move]) -> tuple[tuple[Number, str, tuple[str, ...]], ...]:
    """Return the moves with the parts that move alike together."""
    out: dict[tuple[float, str], tuple[Number, list[str]]] = {}
    for move in moves:
        _, paths = out.setdefault((round(float(move.factor), 6), move.what), (move.factor, []))
        paths.append(move.path)
    return tuple((factor, what, tuple(paths)) for (_, what), (factor, paths) in out.items())


def staying(moves: Sequence[Move]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return which face of the parts that get thicker stays where it is."""
    out: dict[str, list[str]] = {}
    for move in moves:
        if move.what == "thickness" and move.stays:
            out.setdefault(move.stays, []).append(move.path)
    return tuple((word, tuple(paths)) for word, paths in out.items())
