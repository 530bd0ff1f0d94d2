"""Which faces of its parts a story stick is laid on, and what its sides are called."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from docgen.drawing.sticks.pieces import ROUND
from docgen.piece.turnings import radius_at
from docgen.schedules.mark_notes import ALONG
from docgen.schedules.rows import Stick
from docgen.sheets.context import Context

FEW = 2  # names that are told whole on a strip
LENGTHWISE = " lengthwise"  # behind a face: the side of runs along the part


def called_by(context: Context) -> dict[str, str]:
    """Return what each part is called on paper, by its path."""
    return {p.path: p.called for p in context.piece.parts}


def shared_name(context: Context, stick: Stick) -> tuple[str, ...]:
    """Return "4 × drawer side" and "drawer side": the words that the names of a stick's parts share; () if it is one.

    Nor where their last words differ, which tell what they are.
    """
    names = called_by(context)
    every = [names[p].split() for p in (*stick.parts, *stick.mirrored)]
    if len(every) < 2 or len({words[-1] for words in every}) > 1:
        return ()
    same = set.intersection(*map(set, every))
    shared = " ".join(word for word in every[0] if word in same)
    return (f"{len(every)} × {shared}", shared)


def face_words(context: Context, stick: Stick) -> tuple[str, ...]:
    """Return what the side of each mark is called: "right face", "front edge", "face A" where it is not the same on all parts, `ROUND`.

    Runs along the part are "face A lengthwise" where one stops at a mark at which something across says the contrary of
    the wood: on one line, each would say that what the other cuts away stays.
    """
    letters = {profile: letter for letter, profile in _letters(context, stick).items()}
    out = [f"face {letters[p]}" if p in letters else p[0] for p in _profiles(context, stick)]
    runs = [any(note.startswith(ALONG) for note, _ in notes) for notes in stick.notes]
    wood: dict[tuple[str, float, bool], set[int]] = {}
    for word, mark, run in zip(out, stick.marks, runs, strict=True):
        wood.setdefault((word, round(float(mark.position), 3), run), set()).add(mark.wood)
    apart = {
        word
        for (word, at, run), some in wood.items()
        if not run and {-w for w in some if abs(w) == 1} & wood.get((word, at, True), set())
    }
    return tuple(f"{w}{LENGTHWISE}" if run and w in apart else w for w, run in zip(out, runs, strict=True))


def on_face(word: str) -> str:
    """Return the face of a side: that of "face A lengthwise" is "face A"."""
    return word.removesuffix(LENGTHWISE)


def lettered(context: Context, stick: Stick) -> dict[str, tuple[tuple[tuple[str, ...], str], ...]]:
    """Return by its letter where each face of a stick lies: parts, and the name of the side on them.

    Empty where all parts that the stick serves carry the marks on the same faces.
    """
    return {
        letter: tuple((parts, word) for (parts, _), word in zip(stick.faces, profile, strict=True))
        for letter, profile in _letters(context, stick).items()
    }


def _letters(context: Context, stick: Stick) -> dict[str, tuple[str, ...]]:
    """Return the faces that are not the same on all parts, the word on each group of them, by letters: A has the most marks."""
    counts = Counter(p for p in _profiles(context, stick) if len(set(p)) > 1)
    return {chr(ord("A") + n): profile for n, (profile, _) in enumerate(counts.most_common())}


def _profiles(context: Context, stick: Stick) -> list[tuple[str, ...]]:
    """Return for each mark the name of its side on each group of parts, as part sheets and set-ups call it.

    One word where it goes round a turned part.
    """
    part = context.piece.part(stick.parts[0])
    words = [_sides(context, paths[0], words) for paths, words in stick.faces] or [
        tuple(part.plain_side(m.face) for m in stick.marks)
    ]
    return [
        (ROUND,) if radius_at(part, float(mark.position)) is not None else tuple(w[i] for w in words)
        for i, mark in enumerate(stick.marks)
    ]


def _sides(context: Context, path: str, words: Sequence[str]) -> tuple[str, ...]:
    part = context.piece.part(path)
    return tuple(part.plain_side(part.face(word)) for word in words)


def on_each(lies: Sequence[tuple[tuple[str, ...], str]], names: Mapping[str, str]) -> str:
    """Return "right face on front left, back left; left face on …": of many names without the last word that all share."""
    called = [names[p] for parts, _ in lies for p in parts]
    last = {name.rpartition(" ")[2] for name in called}
    ending = f" {last.pop()}" if len(last) == 1 and len(called) > FEW else ""
    return _by_word(lies, {p: name.removesuffix(ending) for p, name in names.items()})


def short_on_each(lies: Sequence[tuple[tuple[str, ...], str]], names: Mapping[str, str]) -> str:
    """Return the same by the words that tell the parts apart alone: "right face on left; left face on right"."""
    words = {p: names[p].split() for parts, _ in lies for p in parts}
    same = set.intersection(*map(set, words.values()))
    return _by_word(lies, {p: " ".join(w for w in some if w not in same) or names[p] for p, some in words.items()})


def _by_word(lies: Sequence[tuple[tuple[str, ...], str]], names: Mapping[str, str]) -> str:
    by_word: dict[str, list[str]] = {}
    for parts, word in lies:
        by_word.setdefault(word, []).extend(names[p] for p in parts)
    return "; ".join(f"{word} on {', '.join(some)}" for word, some in by_word.items())
