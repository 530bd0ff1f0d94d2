"""A project file that is made up room by room, its sizes thrown with a seed."""

from __future__ import annotations

import random
from collections.abc import Sequence
from fractions import Fraction

INCH = Fraction(254, 10)
WOODS = ("white oak", "black cherry", "white ash", "sugar maple", "eastern white pine", "black walnut")
TITLES = (
    "Trial {}",
    "{} for the hide at the reed bed",
    "Small {}",
    "{} of the reserve's workshop, as it stands in the porch",
)
ROOMS = ("sizes", "materials", "assemblies", "parts", "groups", "mirrors")
LISTS = ("joints", "operations", "holes", "edges")
LONGER = (" of the reading room", " under the window", " that shows", " of the third bay from the door", " number two")
NOTES = (
    "Let the boards lie in the shop for two weeks before they are milled.",
    "Rub the whole piece with oil and wax, two coats, the first thinned; keep it off the faces that are glued.",
)


class Sketch:
    """One made-up piece: rooms of the file that the makers fill, and dice for its sizes (mm)."""

    def __init__(self, seed: int) -> None:
        self.dice = random.Random(seed)
        self.inch = self.chance(0.5)
        self.odd = self.chance(0.15)  # sizes that do not print evenly
        self.rooms: dict[str, dict[str, str]] = {room: {} for room in ROOMS}
        self.lists: dict[str, list[str]] = {room: [] for room in LISTS}
        self.head: dict[str, str] = {}
        self.tail: list[str] = []
        self.title = "piece"

    def chance(self, of: float) -> bool:
        return self.dice.random() < of

    def pick(self, *these: str) -> str:
        return self.dice.choice(these)

    def count(self, low: int, high: int) -> int:
        return self.dice.randint(low, max(low, high))

    def some(self, low: float, high: float) -> Fraction:
        """Return a length in mm between two, on a step that suits it."""
        value = self.dice.uniform(low, max(low, high))
        if self.inch:
            steps = 32 if self.odd else 16 if value < 60 else 8 if value < 300 else 4
            return Fraction(max(1, round(value / 25.4 * steps)), steps) * INCH
        if self.odd:
            return Fraction(max(1, round(value * 10)), 10)
        step = Fraction(1, 2) if value < 12 else 1 if value < 150 else 5
        return max(Fraction(1), round(value / step)) * Fraction(step)

    def say(self, value: Fraction) -> str:
        """Return a length as it is written in the file."""
        if not self.inch:
            return f"{float(value):g}"
        whole, rest = divmod(value / INCH, 1)
        return f"{whole} {rest}" if rest and whole else str(rest or whole)

    def length(self, low: float, high: float) -> str:
        """Return a length between two as it is written."""
        return self.say(self.some(low, high))

    def size(self, name: str, low: float, high: float) -> float:
        """Name a size, and return it in mm for the choice of others."""
        value = self.some(low, high)
        self.rooms["sizes"][name] = self.say(value)
        return float(value)

    def formula(self, name: str, text: str) -> None:
        self.rooms["sizes"][name] = text

    def wood(self, name: str, thickness: str) -> None:
        bought = self.pick("", ", bought: 4/4", ", bought: 8/4")
        self.rooms["materials"][name] = f"{{species: {self.pick(*WOODS)}, thickness: {thickness}{bought}}}"

    def sheet(self, name: str, thickness: str, what: str = '"plywood, birch"') -> None:
        self.rooms["materials"][name] = f"{{sheet: {what}, thickness: {thickness}}}"

    def part(self, name: str, of: str, grain: str, box: Sequence[str], more: str = "") -> None:
        """Add a part: its box as from–to across, deep and up."""
        spans = ", ".join(f"{axis}: [{span}]" for axis, span in zip(("across", "deep", "up"), box, strict=True))
        self.rooms["parts"][name] = f"{{of: {of}, grain: {grain}, box: {{{spans}}}{', ' + more if more else ''}}}"

    def add(self, room: str, text: str) -> None:
        """Add a statement to one of the lists."""
        self.lists[room].append(text)

    def text(self) -> str:
        """Return the project file."""
        title = self.pick(*TITLES).format(self.title)
        head = {
            "docgen": "1",
            "piece": title[0].upper() + title[1:],
            "units": "inch" if self.inch else "mm",
            "projection": self.pick("first angle", "third angle"),
        }
        if self.chance(0.5):
            head |= {"number": "T-7", "revision": "B", "date": "2026-05-11"}
        lines = [f"{k}: {v}" for k, v in (head | self.head).items()]
        for room, fields in self.rooms.items():
            lines += [f"{room}:", *(f"  {k}: {v}" for k, v in fields.items())] if fields else []
        for room, said in self.lists.items():
            lines += [f"{room}:", *(f"  - {s}" for s in said)] if said else []
        return self._longer("\n".join([*lines, *self.tail]) + "\n")

    def spice(self) -> None:
        """Say some of what any file may say beside the piece itself."""
        if self.chance(0.3):
            self.head["notes"] = f"[{self.pick(*NOTES)!r}]"
        if self.chance(0.3):
            dry = self.count(4, 9)
            self.tail.append(
                f"conditions: {{moisture: {{from: {dry}, to: {dry + self.count(2, 7)}}}, shelf load: {self.count(2, 30)} kg}}"
            )
        if self.chance(0.3):
            self.tail.append(
                "shop: {saw depth: 80 mm, planer: 310 mm, jointer: 155 mm, clamp: 900 mm, clamps: 6, placing: 0.2 mm}"
            )
        if self.rooms["parts"] and self.chance(0.25):
            named = self.pick(*self.rooms["parts"])
            repeated = "repeat:" in self.rooms["parts"][named]
            self.tail.append(f"templates: [{{part: {named}{'.1' if repeated else ''}}}]")
        if "board" in self.rooms["sizes"] and self.chance(0.2):
            self.tail.append(f"measured: {{board: {{value: {self.rooms['sizes']['board']} + 0.3 mm, on: 2026-04-02}}}}")

    def _longer(self, text: str) -> str:
        """Return the text with longer names for some parts, now and then."""
        for name in sorted(self.rooms["parts"], key=len, reverse=True):
            if " " in name and self.chance(0.08):
                text = text.replace(name, name + self.pick(*LONGER))
        return text
