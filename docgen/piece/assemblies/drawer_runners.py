"""The wooden runners of a drawer: two strips on the case, and the joint that grooves the drawer's sides for them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from docgen.piece.assemblies.terms import Box, around, from_high, from_low, given, half, side, usual
from docgen.piece.bench import Draft, Lazy
from docgen.piece.joints.runners import RUNNER
from docgen.project.fields import Choice, Field, Length, MaterialName
from docgen.trade.runners import BEHIND, CLEARANCE, PLAY

STRIP = ("material", "height", "depth", "up", "setback", "length", "stop")
"""The fields that say the strips themselves; the others are the joint's."""


def said(draft: Draft, values: Lazy, common: Mapping[str, Any], box: Box, opening: Box, *, inset: bool) -> None:
    """Say the strips beside the drawer's `box` and their joint; they stand out from the case into the grooves, less the play.

    The strip's end stops an `inset` drawer, its front one that laps over the case, where nothing else is said.
    """
    play, clearance = values["play"] or usual(PLAY, draft), values["clearance"] or usual(CLEARANCE, draft)
    (across, deep, _), high = opening, values["height"]
    wide = clearance + values["depth"] - play
    begins = deep[0] + values["setback"]
    ends = deep[1] - usual(BEHIND, draft) if values["length"] is None else begins + values["length"]
    low = values["up"] or around(half(box[2][0] + box[2][1]), high)[0]
    strips = []
    for hand, span in (("left", from_low(across[0], wide)), ("right", from_high(across[1], wide))):
        strips.append(f"{draft.name}.{hand} runner")
        draft.part(
            strips[-1],
            material=values["material"],
            grain="deep",
            box=(span, (begins, ends), from_low(low, high)),
            called=side(draft.name, hand, "runner"),
        )
    rest = {name: value for name, value in given(values).items() if name not in STRIP}
    stop = values["stop"] or ("runner" if inset else "front")
    draft.say("joints", "runners", strips=strips, stop=stop, **common, **rest)


RUNNERS = (
    Field("material", MaterialName(), "what the strips are made of: a hard wood", required=True),
    Field("height", Length(above=0), "of the strips; the grooves are wider by the play", required=True),
    Field("depth", Length(above=0), "of the grooves, into the drawer's sides", required=True),
    Field("setback", Length(least=0), "from the back of the front to the strips", required=True),
    Field("up", Length(), "height of the strips' lower edge; absent: they lie in the middle of the drawer's sides"),
    Field("length", Length(above=0), "of the strips; absent: to 3 mm or 1/8 in before the back of the opening"),
    Field("stop", Choice(("runner", "front")), "what stops the drawer; absent: the runners stop an inset front"),
    *RUNNER,
)
"""The fields of a drawer's runners."""
