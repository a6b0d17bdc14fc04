"""Cues that two people marked, and how well the club marks by them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from datetime import date, timedelta
from typing import Any

from ..evidence.marking import Marking, marking_of
from ..store.replay import season as stored
from ..store.replay.lived import seen_by, walked
from ..store.replay.season import Taught
from .observers import paired

Set = tuple[tuple[str, str], list[tuple[str, str]], int]

# Sets marked by two, the newest, that are compared.
COMPARED = 120
# How far back the club's own marking is looked at.
DAYS = 365
RIGHT = ("correct", "correct+tense")


def marked_by_two(
    club_id: int, taught: Sequence[Taught], near: Sequence[Any], coach: str | None
) -> list[Set]:
    """The newest sets that were marked by two.

    Args:
        club_id: the club.
        taught: lessons on drills, oldest first.
        near: marks made beside those of the lesson's coach, from `season.other_events_between`.
        coach: sets of this coach or observer only; None for all.

    Returns:
        ((coach, observer), the marks of both for each cue both marked, how many marks of either
        found no partner) of each set.
    """
    others = defaultdict(set)
    for each in near:
        if each.type == "cue_marked":
            others[each.lesson, each.drill].add(each.coach)
    seen = [
        (each, observer)
        for each in reversed(taught)
        for observer in sorted(others[each.lesson, each.drill])
        if coach in (None, each.coach, observer)
    ][:COMPARED]
    events = events_of(club_id, [each for each, _ in seen])
    first = stored.first_charts(club_id)
    sets: list[Set] = []
    for each, observer in seen:
        of_lesson = events.get(each.lesson, [])
        before = stored.walk_of(each.before)
        steps = walked(of_lesson, each.drill, each.coach, first[each.drill], before, each.day)
        cues = [step for step in steps if step.type == "cue_marked"]
        marks = seen_by(of_lesson, each.drill, observer)
        pairs, _ = paired(cues, marks)
        both = [(step.mark.value, mark.mark.value) for step, mark in pairs if step.mark]
        alone = len(cues) + len(marks) - 2 * len(both)
        sets.append(((each.coach, observer), both, alone))
    return sets


def marking(club_id: int, today: date) -> Marking | None:
    """How well the club marks, from the sets of a year that two people marked; None from few."""
    first, last = str(today - timedelta(days=DAYS)), str(today + timedelta(days=1))
    near = stored.other_events_between(club_id, first, last)
    if not any(each.type == "cue_marked" for each in near):
        return None
    taught = stored.taught_between(club_id, first, last)
    counts = {(a, b): 0 for a in (False, True) for b in (False, True)}
    for _, both, _ in marked_by_two(club_id, taught, near, None):
        for ours, theirs in both:
            counts[ours in RIGHT, theirs in RIGHT] += 1
    return marking_of(
        counts[False, False], counts[False, True], counts[True, False], counts[True, True]
    )


def events_of(club_id: int, taught: Sequence[Taught]) -> dict[str, list[Any]]:
    """Events of these lessons on these drills, by lesson."""
    return stored.events_of(
        club_id, [each.lesson for each in taught], [each.drill for each in taught]
    )
