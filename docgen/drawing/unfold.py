"""How the faces of a part are laid side by side on paper: principal view, neighbours, third or first angle."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.geometry.lines import View
from docgen.geometry.shapes import Vec
from docgen.piece.records import Face

ROUND = (Face(2, 1), Face(1, 1), Face(2, 0), Face(1, 0))
"""The long sides, each with the next one at its upper edge where the length runs to the right."""


@dataclass(frozen=True, slots=True)
class Station:
    """One view of a sheet: the face that looks at the reader and its place from the principal view.

    `column` counts to the right, `row` upward; the principal view stands at (0, 0).
    """

    face: Face
    view: View
    column: int
    row: int


def normal(face: Face) -> Vec:
    """Return the outward unit vector of a face, part axes."""
    sign = 1.0 if face.side else -1.0
    return (sign * (face.axis == 0), sign * (face.axis == 1), sign * (face.axis == 2))


def _negative(v: Vec) -> Vec:
    return (-v[0] or 0.0, -v[1] or 0.0, -v[2] or 0.0)


def principal(face: Face, upright: bool) -> View:
    """Return the view of `face` with the length to the right, or up when `upright` (its lower axis for an end)."""
    toward = normal(face)
    long: Vec = (1.0, 0.0, 0.0) if face.axis != 0 else (0.0, 1.0, 0.0)
    other = (
        toward[1] * long[2] - toward[2] * long[1] or 0.0,
        toward[2] * long[0] - toward[0] * long[2] or 0.0,
        toward[0] * long[1] - toward[1] * long[0] or 0.0,
    )
    return View(_negative(other), long) if upright else View(long, other)


def stations(face: Face, others: tuple[Face, ...], *, upright: bool, third: bool) -> tuple[Station, ...]:
    """Return the principal view of `face` and the views of `others` in their places.

    In third angle a view lies on the side from which it looks, in first angle opposite. The face behind is shown
    turned over about the part's length, in line with it: beyond the side about which it unrolls, if that is drawn.
    """
    front = principal(face, upright)
    out = [Station(face, front, 0, 0)]
    sign = 1 if third else -1
    normals = [normal(other) for other in others]
    right, up = front.right, front.up
    beyond = right if upright else _negative(up)  # the side next to the face behind
    if beyond not in normals and _negative(beyond) in normals:
        beyond = _negative(beyond)
    for other in others:
        n = normal(other)
        if n == front.right:
            out.append(Station(other, View(_negative(front.toward), front.up), sign, 0))
        elif n == _negative(front.right):
            out.append(Station(other, View(front.toward, front.up), -sign, 0))
        elif n == front.up:
            out.append(Station(other, View(front.right, _negative(front.toward)), 0, sign))
        elif n == _negative(front.up):
            out.append(Station(other, View(front.right, front.toward), 0, -sign))
        elif upright:
            out.append(Station(other, View(_negative(right), up), 2 * sign if beyond == right else -2 * sign, 0))
        else:
            out.append(Station(other, View(right, _negative(up)), 0, 2 * sign if beyond == up else -2 * sign))
    return tuple(out)


def stacked(
    spans: tuple[float, float, float], faces: tuple[Face, ...], *, beside: bool, third: bool
) -> tuple[Station, ...]:
    """Return views that stand without the principal one, each lying: `beside` one another, or under one another.

    Long sides follow one another as the part rolls, so that two that meet have their common edge between them; ends stand
    behind them. Ends alone have the same side up. `spans` is how far the part reaches along its axes, mm.
    """
    ends = all(face.axis == 0 for face in faces)
    out: list[Station] = []
    for n, face in enumerate((*_rolled(faces, third), *(f for f in faces if f.axis == 0))):
        view = principal(face, face.axis == 0 and spans[2] > spans[1])
        if ends and out and view.up != out[0].view.up:
            view = View(_negative(view.right), _negative(view.up))
        out.append(Station(face, view, n if beside else 0, 0 if beside else -n))
    return tuple(out)


def _rolled(faces: tuple[Face, ...], third: bool) -> list[Face]:
    """Return the long sides from the uppermost view to the lowest; where not all follow one another, the first one begins a row."""
    begin = next((n for n, f in enumerate(ROUND) if f in faces and ROUND[n - 1] not in faces), 0)
    upward = [f for f in (*ROUND[begin:], *ROUND[:begin]) if f in faces]
    return upward[::-1] if third else upward
