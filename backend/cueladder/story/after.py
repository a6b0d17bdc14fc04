"""Summary of a lesson: what held, what broke, where the next lesson starts."""

from __future__ import annotations

from typing import Any

from ..evidence.claims import order, said
from ..evidence.words import cues
from ..rules import Chart, Mark, Move, Outcome, Walk, enter, keeps
from ..rules.said import Said, joined, later, opening, say, say_day, say_n
from ..store.log.charts import chart_of
from ..store.replay.lived import Lived, Step
from .observers import observed
from .plain import data, later_day, rungs_listed
from .standing import cue_words, place_words, rung_words, short_words

HELD = ("held", "sure", "climb", "top")
FEWEST_IN_ORDER = 3


def after(lived: Lived, day: str) -> dict[str, Any]:
    """Summarise one drill of one lesson.

    Args:
        lived: the drill's steps, at least one.
        day: day of the lesson.
    """
    # what a search gives to find the start is not counted
    given = [step for step in lived.steps if step.type == "cue_marked" and step.phase != "find"]
    rungs = _rungs(given)
    end = lived.steps[-1].after
    held = [rung for rung in rungs if rung["held"]]
    broke = [rung for rung in rungs if rung["broke"]]
    chart = chart_of(end.chart)
    start = next_start(chart, end, day)
    return {
        "cues": len(given),
        "rungs": rungs,
        "held": [rung["rung"] for rung in held],
        "broke": [rung["rung"] for rung in broke],
        "next": start,
        "order": _order(given),
        "observers": {coach: observed(given, seen) for coach, seen in lived.others.items()},
        "words": joined([_came_to(lived.steps, len(given), held, broke), start["words"]]),
    }


def next_start(chart: Chart, walk: Walk, day: str) -> dict[str, Any]:
    """Where the next lesson starts, depending on its day.

    Returns:
        ``starts``: rows ``{until, place, ...}`` by the chart's re-entry table, ``until`` None in
        the last; ``recheck``: whether a re-check comes first; ``due``: the last day on which it
        still starts at the rung last met, None where it never starts lower; ``words``.
    """
    rows: list[dict[str, Any]] = []
    entered: list[Walk] = []
    after_days = 0
    for most, _ in chart.reentry:
        after_days = after_days + 1 if most is None else most
        there = enter(chart, walk, later_day(day, after_days))
        until = None if most is None else later_day(day, most)
        row = {"until": until, "cue": cue_words(chart, there.place), **_place(chart, there.place)}
        if rows and rows[-1]["place"] == there.place:
            rows.pop()
            entered.pop()
        rows.append(row)
        entered.append(there)
    days = keeps(chart, walk)
    due = None if days is None else later_day(day, days)
    first = enter(chart, walk, later_day(day, chart.reentry[0][0] or 1))
    later = say("After %(day)s it starts lower.", day=say_day(due)) if due else ""
    words = joined([_starts(chart, first), later])
    return {"starts": rows, "recheck": first.phase == "check", "due": due, "words": words}


def _starts(chart: Chart, first: Walk) -> Said:
    """How the next lesson begins, within the first row's days."""
    at: dict[str, object] = {
        "rung": rung_words(chart, first.place),
        "cue": cue_words(chart, first.place),
    }
    if first.phase == "check" and first.work != first.place:
        return say(
            "Next time it starts with a short re-check at %(rung)s (%(cue)s), then goes on with "
            "%(then)s.",
            then=rung_words(chart, first.work),
            **at,
        )
    if first.phase == "check":
        return say("Next time it starts with a short re-check at %(rung)s (%(cue)s).", **at)
    if any(first.counters):
        return say("Next time it goes on with %(rung)s (%(cue)s), where the count waits.", **at)
    return say("Next time it goes on with %(rung)s (%(cue)s).", **at)


def _place(chart: Chart, place: int) -> dict[str, Any]:
    found = place_words(chart, place)
    assert found is not None
    return found


def _rungs(steps: list[Step]) -> list[dict[str, Any]]:
    """Each rung given, in the order first given, with its counts and how it ended there.

    A rung that broke and then held has ``held``; one that held and then broke ``broke``.
    """
    rungs: dict[tuple[str, ...], dict[str, Any]] = {}
    for step in steps:
        if step.place is None or step.mark is None:
            continue
        chart = chart_of(step.chart)
        cue = cue_words(chart, step.place)
        rung = rungs.setdefault(
            (cue,),
            {
                **_place(chart, step.place),
                "rung": short_words(chart, step.place),
                "cue": cue,
                "cues": 0,
                "right": 0,
                "tense": 0,
                "by_mark": {mark.value: 0 for mark in Mark},
                "held": False,
                "broke": False,
                "stumbled": False,
                "failed": False,
            },
        )
        rung["cues"] += 1
        rung["right"] += step.outcome is Outcome.PASS
        rung["tense"] += step.mark is Mark.TENSE
        rung["by_mark"][step.mark.value] += 1
        failed = step.after.why == "failed"
        if step.after.why in HELD and step.after.move is not Move.STAY:
            rung |= {"held": True, "broke": False, "stumbled": rung["broke"]}
        elif failed or step.after.move is Move.BACK:
            rung |= {"held": False, "broke": True, "failed": failed}
    for rung in rungs.values():
        rung["words"] = _rung_says(rung)
    return list(rungs.values())


def _rung_says(rung: dict[str, Any]) -> Said:
    message = later("%(rung)s (%(cue)s): %(right)s of %(cues)s.")
    if rung["held"] and rung["stumbled"]:
        message = later("%(rung)s (%(cue)s): %(right)s of %(cues)s; it broke once and then held.")
    elif rung["held"]:
        message = later("%(rung)s (%(cue)s): %(right)s of %(cues)s; it held.")
    elif rung["failed"]:
        message = later(
            "%(rung)s (%(cue)s): %(right)s of %(cues)s; it did not hold and is being practised "
            "again."
        )
    elif rung["broke"]:
        message = later(
            "%(rung)s (%(cue)s): %(right)s of %(cues)s; too hard for now, so one step back."
        )
    return say(
        message,
        rung=opening(rung["rung"]),
        cue=rung["cue"],
        right=rung["right"],
        cues=rung["cues"],
    )


def _came_to(
    steps: tuple[Step, ...], n: int, held: list[dict[str, Any]], broke: list[dict[str, Any]]
) -> Said:
    parts = []
    failed = [rung for rung in broke if rung["failed"]]
    broke = [rung for rung in broke if not rung["failed"]]
    if held:
        parts.append(say_n("%(rungs)s held", "%(rungs)s held", len(held), rungs=rungs_listed(held)))
    if broke:
        parts.append(
            say_n(
                "%(rungs)s was still too hard",
                "%(rungs)s were still too hard",
                len(broke),
                rungs=rungs_listed(broke),
            )
        )
    if failed:
        parts.append(
            say_n(
                "%(rungs)s did not hold and is being practised again",
                "%(rungs)s did not hold and are being practised again",
                len(failed),
                rungs=rungs_listed(failed),
            )
        )
    said = joined(parts, "; ") if parts else _no_decision(steps)
    return say("%(cues)s: %(said)s.", cues=cues(n), said=said)


def _no_decision(steps: tuple[Step, ...]) -> Said:
    """What is said where no rung held or broke."""
    for step in reversed(steps):
        chart, place = chart_of(step.after.chart), step.after.work
        if step.after.why == "placed":
            return say("the start was found at %(rung)s", rung=short_words(chart, place))
        if step.type == "rung_set":
            return say("the coach set %(rung)s", rung=short_words(chart, place))
    return say("still practising the same rung")


def _order(given: list[Step]) -> dict[str, Any] | None:
    """Whether the order was guessable; None unless attacks and decoys were mixed."""
    if not given or len(chart_of(given[-1].chart).meaning) < 2 or len(given) < FEWEST_IN_ORDER:
        return None
    told, found = order.order_of([bool(step.attack) for step in given])
    return {
        "guessable": found.guessable,
        "runs": data(found.runs),
        "guessing": data(found.guessing),
        **said(told),
    }
