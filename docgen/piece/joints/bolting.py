"""Lengths and depths of a machine screw that goes through one part into threads tapped in another. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.trade.drills import point_length
from docgen.trade.fasteners import LEAST_ENGAGEMENT, bolt_length, stock_lengths
from docgen.trade.threads import Thread, drill_depth
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class Screwing:
    """One screw worked out.

    `full_threads` is the depth of full thread, `drilled` the depth of the full diameter (None: through), `behind`
    the wood beyond the drill's point (None: through). `short` is how much of the wanted engagement is missing.
    """

    length: Number
    grip: Number
    washer: Number
    engagement: Number
    wanted: Number
    short: Number
    full_threads: Number
    drilled: Number | None
    behind: Number | None


def work_out(
    thread: Thread,
    *,
    grip: Number,
    washer: Number,
    tapped: Number,
    wanted: Number | None = None,
    through: bool = False,
    length: Number | None = None,
) -> Screwing:
    """Return the shortest stock screw through `washer` and `grip` with the wanted engagement, and the hole for it.

    `tapped` is the thickness of the wood that is tapped; `wanted` is 2 diameters unless said. A blind hole gets
    full threads one pitch deeper than the screw reaches, so that it cannot bottom (common practice), and is drilled
    deeper by the plug tap's lead; in a through hole the screw ends inside. `length` is a length that is at hand.
    """
    wish = LEAST_ENGAGEMENT * thread.major if wanted is None else wanted
    stock = stock_lengths(thread.system) if length is None else (length,)
    bolt = bolt_length(washer=washer, grip=grip, engagement=wish, stock=stock, threads=tapped if through else None)
    if through:
        return Screwing(bolt.length, grip, washer, bolt.engagement, wish, bolt.short, tapped, None, None)
    threads = bolt.engagement + thread.pitch
    drilled = drill_depth(threads, thread.pitch)
    behind = tapped - drilled - point_length(thread.tap_drill.diameter)
    return Screwing(bolt.length, grip, washer, bolt.engagement, wish, bolt.short, threads, drilled, behind)
