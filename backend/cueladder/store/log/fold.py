"""The fold: from events to where a fencer stands on a drill. Pure; the phone does the same.

Lessons go in the order of (day, opened at, lesson id), events in a lesson in the order of
(counter, device, id). What was voided is left out, and so are the marks of anyone but the lesson's
own coach: a second person observes. A correction counts at the place of what it corrects (see
`corrected`). The result does not depend on the order of arrival.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Protocol

from ...rules import (
    Chart,
    Given,
    Mark,
    Walk,
    enter,
    fresh,
    rebase,
    rest,
    seek,
    set_place,
    step,
    stop,
)
from .corrected import corrected

WALKED = ("cue_marked", "rung_set", "drill_rested", "start_sought", "stop_called")

Charts = Callable[[str], Chart]
MARKS = {mark.value: mark for mark in Mark}
GIVEN = {given.value: given for given in Given}


class Logged(Protocol):
    """What the fold reads of an event."""

    id: str
    type: str
    device_id: str
    n: int
    coach_id: str
    drill_id: str | None
    payload: Mapping[str, Any]


@dataclass(frozen=True)
class Folded:
    """A drill after a lesson: the walk (None before anything happened) and the marks counted."""

    walk: Walk | None
    trials: int


def effective(events: Iterable[Logged], drill_id: str, coach_id: str) -> list[Logged]:
    """What counts of a lesson's events for one drill, in order."""
    own = [event for event in events if event.coach_id == coach_id]
    voided = {event.payload["mark"] for event in own if event.type == "mark_voided"}
    kept = [event for event in own if event.drill_id == drill_id and event.type in WALKED]
    return corrected(sorted(kept, key=in_lesson), voided)


def in_lesson(event: Logged) -> tuple[int, str, str]:
    """The order of events within a lesson."""
    return (event.n, event.device_id, event.id)


def fold_lesson(
    charts: Charts, first_chart: str, walk: Walk | None, day: str, events: list[Logged]
) -> Folded:
    """Walk one lesson on one drill.

    Args:
        charts: finds a chart by id.
        first_chart: chart of the drill's first version, for an event that names none: a
            ``drill_rested`` of an older phone.
        walk: where the drill stood, or None where it was never worked.
        day: ISO day of the lesson.
        events: from `effective`.
    """
    trials = 0
    for event in events:
        # entering again on the same day changes nothing
        walk = arrive(charts, first_chart, walk, day, event)
        chart = charts(walk.chart)
        if event.type == "cue_marked":
            walk = step(chart, walk, GIVEN[event.payload["given"]], mark_of(event.payload))
            trials += 1
        elif event.type == "rung_set":
            walk = set_place(chart, walk, event.payload["place"])
        elif event.type == "start_sought":
            walk = seek(chart, walk)
        elif event.type == "stop_called":
            walk = stop(chart, walk)
        else:
            walk = rest(chart, walk)
    return Folded(walk, trials)


def arrive(charts: Charts, first_chart: str, walk: Walk | None, day: str, event: Logged) -> Walk:
    """The walk that an event meets: on the event's chart, in the lesson of that day.

    Args: as for `fold_lesson`.
    """
    named = event.payload.get("chart")
    if walk is None:
        walk = fresh(charts(named or first_chart))
    elif named is not None and named != walk.chart:
        walk = rebase(charts(walk.chart), charts(named), walk)
    return enter(charts(walk.chart), walk, day)


def fold_history(
    charts: Charts,
    first_chart: str,
    drill_id: str,
    lessons: Iterable[tuple[str, str, str, str, list[Logged]]],
) -> Walk | None:
    """Fold everything one fencer did on one drill.

    Args:
        charts, first_chart: as in `fold_lesson`.
        drill_id: the drill.
        lessons: (day, opened at as from `sortable`, lesson id, coach id, events), in any order.
    """
    walk: Walk | None = None
    for day, _, _, coach_id, events in sorted(lessons, key=lambda lesson: lesson[:3]):
        kept = effective(events, drill_id, coach_id)
        walk = fold_lesson(charts, first_chart, walk, day, kept).walk
    return walk


def mark_of(payload: Mapping[str, Any]) -> Mark:
    """The mark of a ``cue_marked``: tense is a way of being correct."""
    if payload["tense"] and payload["mark"] == "correct":
        return Mark.TENSE
    return MARKS[payload["mark"]]
