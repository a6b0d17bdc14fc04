"""The one thing said first of a drill: the strongest that is worth acting on."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any

import numpy as np

from ..evidence.claims import Told, first, said
from ..evidence.claims.wait import stays
from ..rules import Chart, Mark, Walk
from ..store.replay.trials import MARKS, Point, Trials
from .answers import PASS
from .standing import rung_words
from .waits import Wait
from .why import explained


def said_first(
    chart: Chart,
    walk: Walk,
    points: Sequence[Point],
    trials: Trials,
    standing: dict[str, Any],
    parts: Sequence[dict[str, Any] | None],
) -> dict[str, Any]:
    """What to say first of a drill: of the parts of its story, of a long stay at one rung, else
    where the fencer stands.

    Args:
        chart, walk, points, trials: of the drill.
        standing: from `standing.standing`.
        parts: what the marks show, each with ``claim``, ``words`` and ``acts``, or None.
    """
    some = [Told(part["claim"], part["words"], part["acts"]) for part in parts if part]
    some.append(_stay(chart, walk, points, trials))
    return said(first(some, Told(standing["claim"], standing["words"])))


def _stay(chart: Chart, walk: Walk, points: Sequence[Point], trials: Trials) -> Told | None:
    """Lessons since the last new rung, with the cues given at the rung now at work."""
    if walk.met is not None and chart.places[walk.met].climb is None:
        return None
    same = 0
    for point in reversed(points):
        if point.walk.met != walk.met:
            break
        same += 1
    here = (trials.place == walk.work) & (trials.lesson >= len(trials.lessons) - same)
    at = sorted(set(trials.lesson[here].tolist()))
    wait = Wait(
        [trials.lessons[k] for k in at],
        [int(here.sum())],
        Counter({Mark(MARKS[k]): int((trials.mark[here] == k).sum()) for k in range(len(MARKS))}),
        int(np.sum(trials.outcome[here] == PASS)),
    )
    reason, advice = explained(chart, walk.work, wait, None)
    return stays(len(at), rung_words(chart, walk.work), reason, advice)
