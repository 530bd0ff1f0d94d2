"""From wanted dimensions to records: lanes outside, candidates inside, leaders, margin; what is left is told.

Every step only adds to what stands and tests against all of it, so nothing is ever laid over a text, and each
step tries a finite number of candidates.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

import numpy as np

from docgen.drawing.boxes import Box
from docgen.drawing.dimensions.angles import angle_trials
from docgen.drawing.dimensions.field import Field, slanted
from docgen.drawing.dimensions.inside import inside_trials, moved_out_trials
from docgen.drawing.dimensions.label import Label, label
from docgen.drawing.dimensions.lanes import Lane, as_lane, place_lanes
from docgen.drawing.dimensions.leaders import NONE, leader_trials, margin_trials, near_trials
from docgen.drawing.dimensions.occupied import Occupied
from docgen.drawing.dimensions.running import groups, place_running, run_together
from docgen.drawing.dimensions.shade import Shade
from docgen.drawing.dimensions.sides import Bounds, Side
from docgen.drawing.dimensions.trial import Trial, cheapest, commit, possible, screened, stand
from docgen.drawing.dimensions.wanted import Angular, Arranged, Callout, Linear, Placed, Rules, Wanted
from docgen.drawing.metrics import Metrics
from docgen.drawing.records import Point

FAR = 45.0  # mm: with a longer leader a callout stands far off


class Engine:
    """Places the dimensions of one view; `at` is the paper place of the view's origin, `shade` what is hatched in it."""

    def __init__(
        self,
        lines: Iterable[tuple[Point, Point]],
        *,
        outline: Bounds,
        scale: float,
        at: Point,
        rules: Rules,
        metrics: Metrics,
        texts: Iterable[Box] = (),
        shade: Shade | None = None,
    ) -> None:
        self.occupied = Occupied()
        for a, b in lines:
            self.occupied.add_line(a, b, "view")
        for box in texts:
            self.occupied.add_box(box)
        self.field, self.rules, self.metrics = Field(outline, scale, at), rules, metrics
        self.shade = shade
        self.rings = NONE  # circles of holes, that no leader to another one may run through while there is another way
        self.placed: list[Placed] = []
        self.left: list[Wanted] = []

    @property
    def outline(self) -> Bounds:
        """The view's outline on paper."""
        return self.field.outline

    def paper(self, p: Point) -> Point:
        """Return the place on paper of a point in view mm."""
        return self.field.paper(p)

    def arrange(self, wanted: Iterable[Wanted]) -> Arranged:
        """Place everything that is wanted, in an order that depends on the wishes alone."""
        every = sorted(wanted, key=lambda w: w.key)
        linear = [w for w in every if isinstance(w, Linear)]
        deep = [w for w in linear if self.field.deep(w)]
        self._outside([w for w in linear if w not in deep])
        self._inside(deep)
        for w in every:
            if isinstance(w, Angular):
                self._angle(w)
        self._callouts([w for w in every if isinstance(w, Callout)])
        x0, y0, x1, y1 = self.occupied.bounds()
        ox0, oy0, ox1, oy1 = self.field.outline
        bounds = (min(x0, ox0), min(y0, oy0), max(x1, ox1), max(y1, oy1))
        return Arranged(tuple(self.placed), tuple(self.left), bounds)

    def _outside(self, wanted: list[Linear]) -> None:
        by_side: dict[str, list[Linear]] = {}
        for w in wanted:
            by_side.setdefault(self.field.side(w).name, []).append(w)
        shared = run_together(by_side, self.field, self.rules)
        for name in ("bottom", "top", "left", "right"):
            if name in by_side:
                for lane in self._one_side(self.field.sides[name], by_side[name], shared[name]):
                    self._on_leader(lane.wanted)

    def _on_leader(self, w: Linear) -> None:
        """Set a dimension with its text moved out on a leader, the last way before it is told in words."""
        text = label((w.text,), self.rules.height, self.metrics)
        trials = moved_out_trials(
            w,
            self.paper(w.a),
            self.paper(w.b),
            text,
            self.rules,
            lambda bare: stand(bare.lines, self.occupied),
        )
        best = cheapest(screened(trials, self.occupied, self.rules), self.occupied, self.rules)
        if best is None:
            self.left.append(w)
        else:
            self.placed.append(commit(best, w, "inside", self.occupied, self.rules))

    def _lane(self, w: Linear, side: Side) -> Lane:
        return as_lane(w, self.paper(w.a), self.paper(w.b), side, self.rules, self.metrics)

    def _one_side(self, side: Side, wanted: list[Linear], shared: frozenset[int] = frozenset()) -> list[Lane]:
        """Place short dimensions, then running rows, then what spans the whole; return what found no lane."""
        running, rest = groups([self._lane(w, side) for w in wanted], self.rules, shared)
        near = [lane for lane in rest if not lane.wanted.overall]
        last = [lane for lane in rest if lane.wanted.overall]
        ends = [u for lane in last for u in (lane.low, lane.high)]
        rows = [u for g in running for lane in g for u in (lane.low, lane.high)]
        placed, left, reach = place_lanes(side, near, sorted({*ends, *rows}), self.occupied, self.rules)
        self.placed += placed
        for group in running:
            row = place_running(side, group, ends, self.occupied, self.rules)
            if row is None:
                last += group
            else:
                self.placed += row
        placed, more, _ = place_lanes(side, last, [], self.occupied, self.rules, reach)
        self.placed += placed
        return left + more

    def _inside(self, wanted: list[Linear]) -> None:
        """Place dimensions within the view, shortest first; what does not fit there goes to a lane.

        A slanted one along an edge goes before those that may stand where they measure: drawn there, these would lie where
        its extension lines run. Slanted ones without a place are tried once more before all others, if that is better.
        """
        order = sorted(wanted, key=lambda w: (not self._along_edge(w), abs(_length(w)), w.key))
        before = (self.occupied.copy(), list(self.placed), list(self.left)) if any(map(slanted, order[1:])) else None
        missed = self._set_inside(order)
        if before is None or not missed:
            return
        once = self.occupied, self.placed, self.left
        self.occupied, self.placed, self.left = before
        again = self._set_inside([*missed, *(w for w in order if w not in missed)])
        if (len(self.left), len(again)) >= (len(once[2]), len(missed)):
            self.occupied, self.placed, self.left = once

    def _set_inside(self, order: Sequence[Linear]) -> list[Linear]:
        """Place dimensions one after the other; return the slanted ones that find no place within or close beside the view."""
        missed: list[Linear] = []
        for w in order:
            text = label((w.text,), self.rules.height, self.metrics)
            trials = inside_trials(w, self.paper(w.a), self.paper(w.b), text, self.occupied, self.rules, self.shade)
            best = cheapest(trials, self.occupied, self.rules)
            if best is not None:
                self.placed.append(commit(best, w, "inside", self.occupied, self.rules))
            elif slanted(w):
                missed.append(w)
                self._on_leader(w)
            else:
                for lane in self._one_side(self.field.side(w), [w]):
                    self._on_leader(lane.wanted)
        return missed

    def _along_edge(self, w: Linear) -> bool:
        """Return True for a slanted dimension that runs along a line of the view."""
        ends = (self.paper(w.a), self.paper(w.b))
        return slanted(w) and self.occupied.doubled(*ends, 0.1, ("view",))

    def _angle(self, w: Angular) -> None:
        text = label((w.text,), self.rules.height, self.metrics)
        apex, first, second = (self.paper(p) for p in (w.apex, w.first, w.second))
        best = cheapest(angle_trials(apex, first, second, text, self.occupied, self.rules), self.occupied, self.rules)
        how = "angle"
        if best is None:  # no room for an arc: the figure on a leader to the corner
            told = Callout(w.key, w.apex, 0.0, (w.text,), w.sizes)
            best = cheapest(leader_trials(told, apex, 0.0, text, self.occupied, self.rules), self.occupied, self.rules)
            how = "leader"
        if best is None:
            self.left.append(w)
        else:
            self.placed.append(commit(best, w, how, self.occupied, self.rules))

    def _callouts(self, wanted: list[Callout]) -> None:
        """Place the callouts; where one comes to stand far off, those first that may go to the fewest places, if that is better.

        A callout for nine holes down an edge finds another place more easily than one for five in a row does.
        """
        circles = {(*self.paper(p), w.radius * self.field.scale) for w in wanted if w.radius for p in (w.at, *w.others)}
        self.rings = np.array(sorted(circles)) if len(circles) > 1 else NONE
        before = self.occupied.copy() if len(wanted) > 1 else self.occupied
        placed, left, longs = self._told(wanted)
        if before is not self.occupied and (left or max(longs, default=0.0) > FAR):
            once, self.occupied = self.occupied, before
            again = self._told(sorted(wanted, key=lambda w: (len(w.others), w.key)))
            if (len(again[1]), sum(again[2])) < (len(left), sum(longs)):
                placed, left, _ = again
            else:
                self.occupied = once
        self.placed += placed
        self.left += left

    def _told(self, wanted: Iterable[Callout]) -> tuple[list[Placed], list[Callout], list[float]]:
        """Place callouts one after the other; return them, those without a place, and how long the leaders are, mm."""
        missed: list[tuple[Callout, Point, float, Label]] = []
        placed: list[Placed] = []
        longs: list[float] = []

        def stands(trial: Trial, w: Callout) -> None:
            placed.append(commit(trial, w, "leader", self.occupied, self.rules))
            longs.extend(math.dist(a, b) for a, b, _ in trial.lines)

        for w in wanted:
            text = label(w.lines, self.rules.height, self.metrics)
            at, radius = self.paper(w.at), w.radius * self.field.scale
            others = tuple(map(self.paper, w.others))
            best = None
            if w.near:
                best = cheapest(near_trials(at, radius, text, self.rules), self.occupied, self.rules)
            for rings in ((self.rings, NONE) if len(self.rings) else (NONE,)) if best is None else ():
                trials = leader_trials(w, at, radius, text, self.occupied, self.rules, others, rings)
                best = best or cheapest(trials, self.occupied, self.rules)
            if best is None:
                missed.append((w, at, radius, text))
            else:
                stands(best, w)
        for right in (True, False):
            for w, trial in margin_trials(missed, self.occupied, self.rules, right):
                if possible(trial, self.occupied, self.rules):
                    stands(trial, w)
                    missed = [m for m in missed if m[0] is not w]
        return placed, [m[0] for m in missed], longs


def _length(w: Linear) -> float:
    return (w.b[0] - w.a[0]) * w.along[0] + (w.b[1] - w.a[1]) * w.along[1]
