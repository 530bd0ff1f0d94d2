"""The nearest known word to one that is not known."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import SequenceMatcher

_LEAST = 0.62  # by trial: below it suggestions are guesses


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Return the known word that was most likely meant, None when none is near; ties go to the first.

    Case, spaces, hyphens and underscores do not count, nor does the order of several words.
    """
    wanted = _plain(word)
    best, best_score = None, _LEAST
    for candidate in known:
        score = _likeness(wanted, _plain(candidate))
        if score > best_score:
            best, best_score = candidate, score
    return best


def did_you_mean(word: str, known: Iterable[str], *, otherwise: str = "") -> str:
    """Return the hint that asks for the nearest word; `otherwise` when none is near."""
    found = nearest(word, known)
    return f"did you mean '{found}'?" if found is not None else otherwise


def _plain(word: str) -> str:
    return " ".join(word.casefold().replace("_", " ").replace("-", " ").split())


def _likeness(a: str, b: str) -> float:
    if not a or not b:
        return 0.0
    straight = _ratio(a, b)
    if " " in a or " " in b:
        turned = _ratio(" ".join(sorted(a.split())), " ".join(sorted(b.split())))
        return max(straight, turned - 0.02, _ratio(a.replace(" ", ""), b.replace(" ", "")) - 0.01)
    return straight


def _ratio(a: str, b: str) -> float:
    matcher = SequenceMatcher(None, a, b, autojunk=False)
    return matcher.ratio() if matcher.real_quick_ratio() > _LEAST and matcher.quick_ratio() > _LEAST else 0.0
