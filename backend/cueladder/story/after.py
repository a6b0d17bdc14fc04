"""After a lesson on a drill: what held, what broke, where the next lesson starts."""

from __future__ import annotations

from typing import Any

from ..evidence.invariance import one_lesson
from ..evidence.serial import judge_order
from ..evidence.words import cues
from ..rules import Chart, Mark, Move, Outcome, Walk, keeps
from ..rules.said import Said, joined, later, opening, say, say_day, say_n
from ..store.charts import chart_of
from ..store.lived import Lived, Step
from .beside import beside
from .plain import data, later_day, rungs_listed
from .standing import cue_words, place_words, rung_words, short_words

HELD = ("held", "climb", "top")
FEWEST_IN_ORDER = 3


def after(lived: Lived, day: str) -> dict[str, Any]:
    """What one drill of one lesson came to.

    Args:
        lived: its steps, at least one.
        day: day of the lesson.
    """
    given = [step for step in lived.steps if step.type == "cue_marked"]
    rungs = _rungs(lived.steps)
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
        "heat": _heat(given),
        "observers": {coach: beside(given, seen) for coach, seen in lived.others.items()},
        "words": joined([_came_to(len(given), held, broke), start["words"]]),
    }


def next_start(chart: Chart, walk: Walk, day: str) -> dict[str, Any]:
    """Where the next lesson starts, by the day it is on.

    Returns:
        ``starts``: rows ``{until, place, ...}`` by the chart's re-entry table, ``until`` None in
        the last; ``recheck``: whether a re-check comes first; ``due``: the last day on which it
        still starts at the rung last met, None where it never starts lower; ``words``.
    """
    if walk.met is None:
        first = {"until": None, "cue": cue_words(chart, 0), **_place(chart, 0)}
        words = say("Next time it starts again with the first rung: %(cue)s.", cue=first["cue"])
        return {"starts": [first], "recheck": False, "due": None, "words": words}
    goal = chart.places[walk.met]
    rows: list[dict[str, Any]] = []
    for (most, _), k in zip(chart.reentry, goal.entry, strict=True):
        until = None if most is None else later_day(day, most)
        place = goal.descent[k]
        row = {"until": until, "cue": cue_words(chart, place), **_place(chart, place)}
        if rows and rows[-1]["place"] == place:
            rows.pop()
        rows.append(row)
    days = keeps(chart, walk)
    due = None if days is None else later_day(day, days)
    rung, cue = rung_words(chart, rows[0]["place"]), rows[0]["cue"]
    if due:
        words = say(
            "Next time it starts with a short re-check at %(rung)s (%(cue)s), if that is by "
            "%(day)s; later it starts lower.",
            rung=rung,
            cue=cue,
            day=say_day(due),
        )
    else:
        words = say(
            "Next time it starts with a short re-check at %(rung)s (%(cue)s).", rung=rung, cue=cue
        )
    return {"starts": rows, "recheck": True, "due": due, "words": words}


def _place(chart: Chart, place: int) -> dict[str, Any]:
    found = place_words(chart, place)
    assert found is not None
    return found


def _rungs(steps: tuple[Step, ...]) -> list[dict[str, Any]]:
    """Each rung given, in the order first given, with its counts and what was decided there."""
    rungs: dict[tuple[str, ...], dict[str, Any]] = {}
    for step in steps:
        if step.type != "cue_marked" or step.place is None or step.mark is None:
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
            },
        )
        rung["cues"] += 1
        rung["right"] += step.outcome is Outcome.PASS
        rung["tense"] += step.mark is Mark.TENSE
        rung["by_mark"][step.mark.value] += 1
        rung["held"] |= step.after.why in HELD and step.after.move is not Move.STAY
        rung["broke"] |= step.after.why == "failed" or step.after.move is Move.BACK
    for rung in rungs.values():
        rung["words"] = _rung_says(rung)
    return list(rungs.values())


def _rung_says(rung: dict[str, Any]) -> Said:
    message = later("%(rung)s (%(cue)s): %(right)s of %(cues)s.")
    if rung["held"] and rung["broke"]:
        message = later("%(rung)s (%(cue)s): %(right)s of %(cues)s; it broke once and then held.")
    elif rung["held"]:
        message = later("%(rung)s (%(cue)s): %(right)s of %(cues)s; it held.")
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


def _came_to(n: int, held: list[dict[str, Any]], broke: list[dict[str, Any]]) -> Said:
    parts = []
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
    said = joined(parts, "; ") if parts else say("still practising the same rung")
    return say("%(cues)s: %(said)s.", cues=cues(n), said=said)


def _order(given: list[Step]) -> dict[str, Any] | None:
    """Was the order guessable? Only where attacks and decoys are mixed."""
    if not given or len(chart_of(given[-1].chart).meaning) < 2 or len(given) < FEWEST_IN_ORDER:
        return None
    found = judge_order([bool(step.attack) for step in given])
    return {
        "guessable": found.guessable,
        "runs": data(found.runs),
        "guessing": data(found.guessing),
        "words": found.words,
    }


def _heat(given: list[Step]) -> dict[str, Any] | None:
    row = []
    for loud in (False, True):
        these = [step.outcome for step in given if step.loud is loud]
        row += [these.count(Outcome.PASS), len(these)]
    if not row[1] or not row[3]:
        return None
    return {"soft": row[:2], "loud": row[2:], **data(one_lesson(*row))}
