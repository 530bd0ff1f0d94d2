"""Lengths of screws and bolts, stock lengths, heads and washers, wood screws. Lengths in mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from docgen.tables import rows
from docgen.trade.drills import Drill, of_shop
from docgen.trade.drills import find as find_drill
from docgen.trade.names import INCH, UnknownName, number
from docgen.units import Number

LEAST_ENGAGEMENT = 2
"""Diameters of full thread that a screw in wood should have. Common practice."""

HEAD = 2
"""A wood screw's head is about twice as wide as its shank. Common practice."""

COUNTERSINK = 82
"""Degrees of a flat-headed wood screw's countersink. Source: ASME B18.6.1, from memory."""


@dataclass(frozen=True, slots=True)
class Bolt:
    """A length chosen from stock; all mm.

    `needed` is washer + grip + wanted engagement, `engagement` what the chosen `length` gives, `short` by how
    much that is under the wanted one, `bottoms` by how much the end is deeper than the threads allow (0: fits).
    """

    length: Number
    needed: Number
    engagement: Number
    short: Number
    bottoms: Number


def bolt_length(
    *, washer: Number, grip: Number, engagement: Number, stock: Sequence[Number], threads: Number | None = None
) -> Bolt:
    """Return the stock length for a screw through `washer` and `grip` that wants `engagement` in tapped wood.

    The shortest length with the whole engagement is taken; where `threads` (full threads in the hole) are given
    and it would bottom, the longest that does not bottom. Where every length bottoms, the shortest one, which
    says by how much. Common practice. ValueError for an empty stock.
    """
    needed = washer + grip + engagement
    lengths = sorted(stock)
    if not lengths:
        raise ValueError("no stock lengths to choose from")
    length = next((s for s in lengths if s >= needed), lengths[-1])
    if threads is not None and length - washer - grip > threads:
        fitting = [s for s in lengths if s - washer - grip <= threads]
        length = fitting[-1] if fitting else lengths[0]
    got = length - washer - grip
    zero = Fraction(0)
    return Bolt(
        length,
        needed,
        got,
        max(engagement - got, zero),
        zero if threads is None else max(got - threads, zero),
    )


@cache
def stock_lengths(system: str, kind: str = "machine screw") -> tuple[Fraction, ...]:
    """Return the lengths in stock, mm, rising; `system` is unified, metric (machine screws) or inch (wood screws).

    Common practice of suppliers, in the steps of ASME B18.3 and ISO 888; the sources stand in the table.
    """
    for r in rows("stock_lengths"):
        if (r["system"], r["kind"]) == (system, kind):
            per = INCH if r["unit"] == "in" else Fraction(1)
            return tuple(number(x) * per for x in r["lengths"].split(";"))
    raise UnknownName(
        "stock of screws", f"{system} {kind}", (f"{r['system']} {r['kind']}" for r in rows("stock_lengths"))
    )


@cache
def head(kind: str, size: str) -> tuple[Fraction, Fraction]:
    """Return (diameter, height) in mm of a "button head", "socket head" or "washer" for a thread's `size`.

    Sources: ISO 7380-1, ISO 4762, ISO 7089, ASME B18.3, B18.22.1; each row says how far it was verified.
    """
    for r in rows("heads"):
        if (r["kind"], r["size"]) == (kind, size):
            per = INCH if r["unit"] == "in" else Fraction(1)
            return Fraction(r["diameter"]) * per, Fraction(r["height"]) * per
    raise UnknownName("head", f"{kind} {size}", (f"{r['kind']} {r['size']}" for r in rows("heads")))


@dataclass(frozen=True, slots=True)
class WoodScrew:
    """A wood screw of one gauge; diameters in mm. Root and pilots are None where no figure stands."""

    gauge: int
    shank: Fraction
    root: Fraction | None
    pilot_softwood: Drill | None
    pilot_hardwood: Drill | None
    clearance: Drill


@cache
def wood_screw(gauge: int, system: str = "inch") -> WoodScrew:
    """Return the wood screw of `gauge` (0 to 24), its drills those of a shop of that system.

    Shank 0.060 + 0.013 · gauge in (ASME B18.6.1); pilots common practice, one chart of several that differ;
    clearance the first 64th that passes the shank.
    """
    for r in rows("wood_screws"):
        if int(r["gauge"]) == gauge:
            return WoodScrew(
                gauge,
                Fraction(r["shank"]) * INCH,
                Fraction(r["root"]) * INCH if r["root"] else None,
                of_shop(find_drill(r["pilot_softwood"]), system) if r["pilot_softwood"] else None,
                of_shop(find_drill(r["pilot_hardwood"]), system) if r["pilot_hardwood"] else None,
                of_shop(find_drill(r["clearance"]), system, least=True),
            )
    raise UnknownName("wood screw", f"No. {gauge}", (f"No. {r['gauge']}" for r in rows("wood_screws")))


def piloted(gauge: int, system: str = "inch", wood: str = "hardwood") -> tuple[WoodScrew, Drill]:
    """Return the wood screw of `gauge` and the drill of its pilot hole in `wood`; UnknownName where no table has one.

    `wood` is hardwood or softwood. Never its clearance drill: a screw holds nothing in a hole that its shank slips through.
    """
    screw = wood_screw(gauge, system)
    pilot = screw.pilot_softwood if wood == "softwood" else screw.pilot_hardwood
    if pilot is None:
        known = (f"No. {r['gauge']}" for r in rows("wood_screws") if r[f"pilot_{wood}"])
        raise UnknownName("pilot drill of a wood screw", f"No. {gauge}", known)
    return screw, pilot
