"""What may go wrong at a step of the work, told by the machine and by what is set there. Common practice."""

from __future__ import annotations

from fractions import Fraction

from docgen.schedules.rows import SetupRow, Values
from docgen.trade.cutters import PILOT

MILL = "milled to size in one go it cups overnight; boards not milled together differ in thickness"
GLUE = "the glue skins over before the last clamp; what is out of true by then stays so"
DRIVEN_GLUE = "the glue grips before the last end is home: have all at hand, and drive one after the other"
MEASURED_PART = "cut by the drawing and not by the opening, it is too large or leaves a gap"

UNLED = "leans: sight along the drill from two sides"

BY_MACHINE = {
    "table saw": "chips behind the stop, or the wrong end at it: mark the waste on each part",
    "mitre saw": "chips behind the stop, or the wrong end at it: mark the waste on each part",
    "band saw": "sawn over the line: stay on the waste side of it, and work down to it",
    "router": "cut on the wrong side of the line: shade the waste",
    "router table": "fed with the turn of the cutter it is torn from the hands",
    "drill press": "drilled from the wrong face, or the stop slips: mark the face, try the depth again",
    "hand drill": "leans: keep the drill block against the face",
    "tap": "the tap bottoms and strips the thread: mark its depth",
    "hand saw": "sawn on the wrong side of the line, or past it on the far face: watch both lines",
    "jigsaw": "the blade bends in a tight curve: stay outside the line, and work down to it",
    "lathe": "turned under the size at a step: stop above it, and try the calliper often",
    "plane": "planed out of square: try the square often",
}
ROUND = frozenset(("radius", "round-over bit, radius"))
BIG = Fraction(254, 10)
"""Cutters wider than this are told as large, mm: 1 in. Common practice."""

OVER_CRADLE = (
    "the frame tips over the bare blade, or a hand lies where the blade leaves the cradle: clamp it, hands high, stop the saw before "
    "you lift; guard back on"
)
RUNS_OFF = "a large cutter that is fed with its turn, or takes all at once, runs off with the work: against its turn, in passes"
OTHER = "not tried on an offcut first"

STOPPED = "cut on the wrong side of the line, or past the stop: shade the waste, clamp the stop"
THROUGH = "drilled from the wrong face, or broken out where it comes through: mark the face, press it on waste"
BY_VALUE = {
    "thickness, fat": "thinned from the wrong face, or to the final thickness at once: it is fitted later",
    "tongue thickness": "thinned from the wrong face: mark on each part the face that the cutter takes from",
    "in from the edge": "routed past the knifed line: stop short of it, and pare to it with the chisel",
    "strip that it clears": "routed into the walls, which lean: stay within the strip, and finish them from it",
}
"""By a word in the names of what is set; the first that fits."""


def cutter_across(values: Values) -> float:
    """Return the diameter of a router's cutter, mm: the one named, or that of the bit that a radius asks for; 0 where none is told."""
    told = {n: float(v) for n, v, _ in values if not isinstance(v, str)}
    radius = next((v for n, v in told.items() if n == "radius" or n.endswith("bit, radius")), None)
    return told.get("cutter, diameter") or (0.0 if radius is None else 2 * radius + float(PILOT))


def risk(setup: SetupRow) -> str:
    """Return what may go wrong at a set-up."""
    names = " ".join(name for name, _, _ in setup.values)
    large = cutter_across(setup.values) > float(BIG) + 1e-6
    if "blade over the cradle" in names:
        return OVER_CRADLE
    special = next((text for word, text in BY_VALUE.items() if word in names), "")
    if special:
        return special
    if "flush cutter" in names:
        return "the bearing runs off the template, or the tape lets go: see that it rides on the edge all along, and press the tape"
    if "bearing" in names:
        clean = "the bearing follows a drop of glue or runs into a gap: clean the inside first, fill what is open"
        return f"{clean}; {RUNS_OFF}" if large else clean
    if ROUND & {name for name, _, _ in setup.values} and setup.machine.startswith("router"):
        sharp = "rounded where parts meet: mark the arrises that stay sharp"
        return f"{RUNS_OFF}; {sharp}" if large else sharp
    if "into the thickness" in names or "along the face" in names:
        return "cut into the wrong arris: mark face and edge of the waste on every part"
    if "straight bit" not in names and setup.machine == "router":
        return (
            "too much in one bite, or fed against the grain: it tears; take small bites, from long grain to end grain"
        )
    if setup.machine == "router" and _stopped(setup):
        return STOPPED
    if setup.machine == "drill press" and [v for n, v, _ in setup.values if n == "depth"] == ["through"]:
        return THROUGH
    if setup.machine == "hand drill" and "block" not in setup.note:
        return UNLED
    return BY_MACHINE.get(setup.machine, OTHER)


def _stopped(setup: SetupRow) -> bool:
    """Return whether a cut ends at a stop: at a mark of its own, between two stops, or after the travel that is told."""
    told = [*(n for n, _, _ in setup.values if n == "travel"), *(run.feed for run in setup.runs)]
    places = [name for run in setup.runs for name, _, _ in run.places]
    return any("stop" in text or text == "travel" for text in (*told, *places))
