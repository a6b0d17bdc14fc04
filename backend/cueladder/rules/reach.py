"""Whether a rule can be met at all, by a fencer who never errs."""

from __future__ import annotations

from datetime import date, timedelta

from .chart import Chart
from .errors import RuleError
from .mark import OUTCOMES, Given, Mark, Outcome
from .said import Said, say
from .walk import Walk, enter, fresh, step

_MONDAY, _WEEK = date(2024, 1, 1), timedelta(days=7)


def check_reach(chart: Chart) -> None:
    """Raise a RuleError on ``rule`` where a fencer who never errs cannot meet it on every rung.

    The fencer has a lesson a week, with the drill's usual cues and its cap.
    """
    if (why := why_never_met(chart)) is not None:
        raise RuleError("rule", why)


def why_never_met(chart: Chart) -> Said | None:
    """Why the rule cannot be met, or None where it can."""
    walk, day = fresh(chart), _MONDAY
    while True:
        before = walk
        walk = clean_lesson(chart, walk, day.isoformat(), chart.usual)
        if walk.met is not None and chart.places[walk.met].climb is None:
            return None
        if (walk.work, walk.counters, len(walk.rungs)) == (
            before.work,
            before.counters,
            len(before.rungs),
        ):
            return _reason(chart)
        day += _WEEK


def clean_lesson(chart: Chart, walk: Walk, day: str, cues: int) -> Walk:
    """The walk after a lesson of so many clean answers, what can be given in turn."""
    walk = enter(chart, walk, day)
    given = list(chart.meaning) if len(chart.counters) > 1 else [Given(next(iter(chart.meaning)))]
    for k in range(cues):
        if walk.phase == "close":
            break
        walk = step(chart, walk, given[k % len(given)], Mark.CORRECT)
    return walk


def clean_needed(chart: Chart) -> int:
    """Clean answers from a fresh count to the next rung, both halves together."""
    state = cues = 0
    while state != chart.table.ready:
        state, cues = chart.table.rows[state][OUTCOMES.index(Outcome.PASS)][0], cues + 1
    return cues * len(chart.counters)


def _reason(chart: Chart) -> Said:
    need = clean_needed(chart)
    if need > chart.cap:
        return say(
            "takes %(need)s clean answers in one lesson, but the drill is stopped after %(cap)s "
            "cues on one rung: ask for fewer, or stop it later",
            need=need,
            cap=chart.cap,
        )
    return say(
        "takes %(need)s clean answers in one lesson, but a lesson usually gives this drill "
        "%(usual)s cues: ask for fewer, or give more",
        need=need,
        usual=chart.usual,
    )
