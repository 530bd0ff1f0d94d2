"""Set-ups that no sheet may ask for: a stacked dado set on a tilted arbor."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.piece.records import Setting

TITLE = "set-ups that are barred"
CODES = ("dado-set-tilted",)
LOOKS = looks.Looks(looks.machine("table saw"))

STACK = ("dado set", "dado stack", "stack width")
UPRIGHT = 1e-6


def check(subject: Subject) -> Iterator[Finding]:
    """Yield settings that put a stacked dado set on a tilted arbor."""
    for part in subject.piece.parts:
        for feature in part.features:
            for setting in feature.made.settings:
                tilt = tilted_stack(setting)
                if tilt > UPRIGHT:
                    yield Finding(
                        Grade.STOP,
                        "dado-set-tilted",
                        (part.path,),
                        f"{feature.title} of {part.path} asks for a stacked dado set on an arbor tilted by {tilt:.1f}°.",
                        "a stacked dado set runs on an upright arbor only",
                        "table saw makers' manuals (one forbids it in so many words); OSHA 29 CFR 1910.213",
                        where(feature.origin, part.origin),
                        (("tilt", tilt, "deg"),),
                        "cut it with a router along a guide on a wedge, or with one saw blade in passes",
                    )


def tilted_stack(setting: Setting) -> float:
    """Return by how many degrees from upright a setting tilts a stacked dado set; 0 when it does not."""
    said = " ".join((setting.what, *(name for name, _, _ in setting.values))).lower()
    if setting.machine != "table saw" or not any(word in said for word in STACK):
        return 0.0
    tilts = [
        float(value)
        for name, value, kind in setting.values
        if kind == "angle" and "blade" in name and "from upright" in name and not isinstance(value, str)
    ]
    return max(tilts, default=0.0)
