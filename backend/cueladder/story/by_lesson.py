"""Figures lesson by lesson, each with its range; lessons of too few cues are left out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from ..evidence.detection import detect
from ..evidence.guards import LEAST_TRIALS, too_few_lessons
from ..evidence.invariance import one_lesson
from ..rules import Chart, Mark
from ..rules.said import Said, joined, say, say_n, say_number
from ..store.trials import MARKS, Trials, gaps_of
from .answers import LEAST_GAPS, PASS
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
    late, reacted = MARKS.index(Mark.LATE), MARKS.index(Mark.DECOY)
    rows: list[Row] = []
    for k, day in enumerate(trials.days):
        here = trials.lesson == k
        attacks, decoys = here & (trials.attack == 1), here & (trials.attack == 0)
        counts = [int(attacks.sum()), int(decoys.sum())]
        if min(counts) < LEAST_TRIALS:
            continue
        hits = int((attacks & (trials.mark != late)).sum())
        alarms = int((decoys & (trials.mark == reacted)).sum())
        found = data(detect(hits, counts[0], alarms, counts[1]))
        rows.append(
            {
                "day": day, "value": found["sensitivity"], "low": found["low"],
                "high": found["high"], "c": found["criterion"], "hits": hits,
                "attacks": counts[0], "false_alarms": alarms, "decoys": counts[1],
            }
        )  # fmt: skip
    words = _change(
        rows,
        say("Told apart better in the last lesson than in the first of these."),
        say("Told apart less well in the last lesson than in the first of these."),
        say(
            "Told apart about as well in the last lesson as in the first of these, as far as so "
            "few cues can tell."
        ),
    )
    return _told(trials, rows, words)


def heat(trials: Trials) -> dict[str, Any] | None:
    """Loud minus soft, share right, of each lesson with 10 of both; None without both kinds.

    Returns:
        ``rows`` ``{day, value, low, high, soft: [right, all], loud: [right, all]}``, ``left_out``
        and ``words``.
    """
    if not (trials.loud == 0).any() or not (trials.loud == 1).any():
        return None
    rows: list[Row] = []
    for k, day in enumerate(trials.days):
        pair = []
        for loud in (0, 1):
            these = trials.outcome[(trials.lesson == k) & (trials.loud == loud)]
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
    words = _change(
        rows,
        say("Loud cues cost less in the last lesson than in the first of these."),
        say("Loud cues cost more in the last lesson than in the first of these."),
        say(
            "Loud cues cost about as much in the last lesson as in the first of these, as far as "
            "so few cues can tell."
        ),
    )
    return _told(trials, rows, words)


def pace(trials: Trials) -> dict[str, Any]:
    """Seconds from cue to cue of each lesson: the middle, and the middle half.

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
    """Comfort before and after, 0 to 10, as the fencer said it.

    Args:
        rows: from `store.comfort.comfort_of`.
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


def _change(rows: list[Row], better: Said, worse: Said, same: Said) -> Said:
    """First against last of the lessons, called a change only where their ranges do not touch."""
    few = too_few_lessons(len(rows))
    if few is not None:
        return few
    first, last = rows[0], rows[-1]
    if last["low"] > first["high"]:
        return better
    return worse if last["high"] < first["low"] else same


def _lesson(trials: Trials, k: int) -> Trials:
    here = trials.lesson == k
    arrays = {
        name: value[here]
        for name, value in trials.__dict__.items()
        if isinstance(value, np.ndarray)
    }
    return Trials(**{**trials.__dict__, **arrays})
