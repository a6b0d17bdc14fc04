"""Figures by lesson, each with its range; lessons with too few cues are left out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from ..evidence.detection import detect
from ..evidence.guards import LEAST_TRIALS, too_few_lessons
from ..evidence.invariance import one_lesson
from ..rules import Chart
from ..rules.said import Said, joined, say, say_n, say_number
from ..store.replay.trials import Trials, gaps_of
from .answers import LEAST_GAPS, PASS, hits_and_alarms
from .plain import data

Row = dict[str, Any]


def apart(chart: Chart, trials: Trials) -> dict[str, Any] | None:
    """d′ and c of each lesson with 10 attacks and 10 decoys or more; None in other drills.

    Returns:
        ``rows`` ``{day, value, low, high, c, hits, attacks, false_alarms, decoys}``, ``left_out``
        and ``words``.
    """
    if len(chart.counters) < 2:
        return None
    rows: list[Row] = []
    for k, day in enumerate(trials.days):
        hits, attacks, alarms, decoys = hits_and_alarms(trials, trials.lesson == k)
        if min(attacks, decoys) < LEAST_TRIALS:
            continue
        found = data(detect(hits, attacks, alarms, decoys))
        rows.append(
            {
                "day": day, "value": found["sensitivity"], "low": found["low"],
                "high": found["high"], "c": found["criterion"], "hits": hits,
                "attacks": attacks, "false_alarms": alarms, "decoys": decoys,
            }
        )  # fmt: skip
    return _told(trials, rows, _each(rows))


def heat(trials: Trials) -> dict[str, Any] | None:
    """Loud minus soft, share right, of each lesson with 10 of both; None without both kinds.

    On the mildest rung loud is no louder than soft, so it is left out.

    Returns:
        ``rows`` ``{day, value, low, high, soft: [right, all], loud: [right, all]}``, ``left_out``
        and ``words``.
    """
    louder = trials.loud[trials.heat > 0]
    if not (louder == 0).any() or not (louder == 1).any():
        return None
    rows: list[Row] = []
    for k, day in enumerate(trials.days):
        pair = []
        for loud in (0, 1):
            here = (trials.lesson == k) & (trials.loud == loud) & (trials.heat > 0)
            these = trials.outcome[here]
            pair.append([int((these == PASS).sum()), int(these.size)])
        if min(pair[0][1], pair[1][1]) < LEAST_TRIALS:
            continue
        found = data(one_lesson(*pair[0], *pair[1]))
        rows.append(
            {
                "day": day, "value": found["difference"], "low": found["low"],
                "high": found["high"], "soft": pair[0], "loud": pair[1],
            }
        )  # fmt: skip
    return _told(trials, rows, _each(rows))


def pace(trials: Trials) -> dict[str, Any]:
    """Seconds from cue to cue in each lesson: median and interquartile range.

    Returns:
        ``rows`` ``{day, value, low, high, gaps}``, ``left_out`` and ``words``.
    """
    rows: list[Row] = []
    for k, day in enumerate(trials.days):
        gaps = gaps_of(_lesson(trials, k))
        if gaps.size < LEAST_GAPS:
            continue
        low, middle, high = np.quantile(gaps, [0.25, 0.5, 0.75]).tolist()
        rows.append({"day": day, "value": middle, "low": low, "high": high, "gaps": gaps.size})
    few = too_few_lessons(len(rows))
    words = few or say(
        "About %(last)s seconds a cue in the last lesson, %(first)s in the first of these.",
        last=say_number(rows[-1]["value"]),
        first=say_number(rows[0]["value"]),
    )
    return _told(trials, rows, words)


def comfort(rows: Sequence[Row]) -> dict[str, Any]:
    """Self-rated comfort before and after each lesson, 0 to 10.

    Args:
        rows: from `store.replay.comfort.comfort_of`.
    """
    both = [r["after"] - r["before"] for r in rows if None not in (r["before"], r["after"])]
    words = too_few_lessons(len(both))
    if words is None:
        up, down = sum(d > 0 for d in both), sum(d < 0 for d in both)
        words = say(
            "In %(lessons)s lessons: more comfortable after than before in %(up)s, less in "
            "%(down)s, the same in %(same)s.",
            lessons=len(both),
            up=up,
            down=down,
            same=len(both) - up - down,
        )
    return {"rows": list(rows), "left_out": 0, "words": words}


def _told(trials: Trials, rows: list[Row], words: Said) -> dict[str, Any]:
    left = len(trials.days) - len(rows)
    if left and rows:
        out = say_n(
            "%(n)s lesson with too few cues is left out.",
            "%(n)s lessons with too few cues are left out.",
            left,
        )
        words = joined([words, out])
    return {"rows": rows, "left_out": left, "words": words}


def _each(rows: list[Row]) -> Said:
    """The ladder keeps cues as hard as the fencer can take: lessons show no trend."""
    if not rows:
        return say("No lesson with enough cues yet.")
    return say(
        "Each lesson by itself: the cues get harder as the fencer gets better, so lessons are not"
        " compared."
    )


def _lesson(trials: Trials, k: int) -> Trials:
    here = trials.lesson == k
    arrays = {
        name: value[here]
        for name, value in trials.__dict__.items()
        if isinstance(value, np.ndarray)
    }
    return Trials(**{**trials.__dict__, **arrays})
