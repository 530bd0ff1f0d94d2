"""Parts that run alike at a set-up, told in one: their faces, their ways by each hand, their arrises."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from docgen.piece.model import Piece
from docgen.schedules.feeds import by_each
from docgen.schedules.holds import listed
from docgen.schedules.rows import Values

ARRIS = {"arris": "arrises", "cut into": "cut into", "at the": "at the"}
"""The places that name an arris or an end, and what several of them are called."""

INTO = "in"
"""The place that names the face or the end into which a cut goes."""

Run = tuple[tuple[str, ...], Values, str, dict[str, None]]
"""Parts that run alike at a set-up, their places, how they are fed, what is cut."""

Alike = tuple[tuple[str, ...], str, str]
"""Parts, the face into which a cut goes, how they are fed."""


def faced(piece: Piece, runs: Iterable[Run]) -> Iterator[Run]:
    """Yield runs; those of the same cut that differ in nothing but its face as one that tells each part's: left and right.

    The way of the cutter turns round with the face: where it does, and each way is that of a single part, it is told by parts.
    """
    runs = list(runs)
    singly = {_cut(run): True for run in runs}
    for run in runs:
        singly[_cut(run)] &= len(run[0]) == 1
    found: dict[tuple[Values, str, tuple[str, ...]], list[Alike]] = {}
    titled: dict[tuple[str, ...], dict[str, None]] = {}  # by the same titles sorted, as the first of the runs has them
    for paths, places, fed, titles in runs:
        face = next((str(value) for name, value, _ in places if name == INTO), "")
        rest, told = _cut((paths, places, fed, titles))
        titled.setdefault(told, titles)
        by_part = face and fed and singly[rest, told]
        found.setdefault((rest, "" if by_part else fed, told), []).append((paths, face, fed))
    for (rest, _, told), alike in found.items():
        every = tuple(dict.fromkeys(p for paths, _, _ in alike for p in paths))
        yield every, (*_faces(piece, alike), *rest), _ways(piece, alike), titled[told]


def _cut(run: Run) -> tuple[Values, tuple[str, ...]]:
    """Return what is the same for both hands: the places but for the face, the titles."""
    _, places, _, titles = run
    return tuple(p for p in places if p[0] != INTO), tuple(sorted(titles))


def _ways(piece: Piece, alike: Sequence[Alike]) -> str:
    """Return how parts are fed, for each hand where they are not fed alike."""
    ways: dict[str, dict[str, None]] = {}
    for paths, _, fed in alike:
        ways.setdefault(fed, {}).update(dict.fromkeys(paths))
    if len(ways) == 1:
        return next(iter(ways))
    return by_each([(listed(piece, tuple(which)), fed) for fed, which in ways.items()])


def _faces(piece: Piece, alike: Sequence[Alike]) -> Values:
    """Return into which face of which part a cut goes; the parts are named where they are not all cut into the same."""
    faces: dict[str, dict[str, None]] = {}
    for paths, face, _ in alike:
        faces.setdefault(face, {}).update(dict.fromkeys(paths))
    if set(faces) == {""}:
        return ()
    of: dict[tuple[str, ...], list[str]] = {}  # by the parts, the faces that each of them is cut into
    for face, cut in faces.items():
        of.setdefault(tuple(cut), []).append(face)
    told = [
        " and ".join([several[0], *(face.removeprefix("the ") for face in several[1:])])
        + (f" ({listed(piece, which)})" if len(of) > 1 else "")
        for which, several in of.items()
    ]
    return ((INTO, ", ".join(told), "text"),)


def arrises(runs: dict[tuple[tuple[str, ...], Values, str], dict[str, None]]) -> Iterator[Run]:
    """Yield runs; those on the same parts that differ in nothing but the arris as one with all of them."""
    found: dict[tuple[tuple[str, ...], Values, str, tuple[str, ...]], list[tuple[str, str]]] = {}
    for (paths, places, fed), titles in runs.items():
        at = [(name, str(value)) for name, value, _ in places if name in ARRIS]
        rest = tuple(p for p in places if p[0] not in ARRIS)
        found.setdefault((paths, rest, fed, tuple(titles)), []).extend(at)
    for (paths, rest, fed, told), at in found.items():
        name = "" if not at else at[0][0] if len(at) == 1 else ARRIS[at[0][0]]
        first = ((name, "; ".join(value for _, value in at), "text"),) if at else ()
        yield paths, (*first, *rest), fed, dict.fromkeys(told)


LEADING = ("for", "into", "to", "against", "with", "of", "in")
"""Words before which titles that are told in one are common."""


def together(titles: Sequence[str]) -> str:
    """Return titles in one, the words that all begin with said once: "mortise for left leg, right leg"."""
    words = [title.split() for title in titles]
    same = 0
    while len(titles) > 1 and all(len(w) > same + 1 and w[same] == words[0][same] for w in words):
        same += 1
    # What is told of stays whole: "tenon into front left leg, front right leg".
    same = max((k for k in range(1, same + 1) if words[0][k - 1] in LEADING), default=same)
    rest = [" ".join(w[same:]) for w in words]
    between = "; " if any("," in r for r in rest) else ", "
    return " ".join([*words[0][:same], between.join(rest)]) if titles else ""
