"""A fencer's goals by competitions: what has held, how many lessons are left, when to re-check."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from ...evidence.claims import goal as claims
from ...evidence.claims import said
from ...planning.goal import SETTINGS, Ahead, Goal, ahead
from ...rules import Chart, Walk, fresh
from ...store.db.engine import db
from ...store.db.models import Competition
from ...store.fencers.competitions import competitions_of
from ...store.fencers.edit import fencer_in
from ...store.fencers.goals import drills_for, goals_of, lesson_days
from ...store.log.charts import chart_of
from ...store.replay.bouts import documents_of
from ...store.replay.season import drills_now
from ...store.replay.settings import Held, Setting, apart, held_by_rung
from ...store.replay.worked import worked_by
from ..drill_text import drill_text
from ..standing import rung_words
from .where import Around, another, setting_words


def goals_told(club_id: int, fencer_id: str, today: date) -> dict[str, Any]:
    """A fencer's goals, the next competition first; and what another may be set on, and by."""
    fencer = fencer_in(db.session(), club_id, fencer_id)
    return {
        "goals": goals_in_words(club_id, fencer_id, today),
        "open": [_named(drill, document) for drill, document in drills_for(fencer)],
        "competitions": [
            {"id": each.id, "name": each.name, "day": each.day}
            for each in competitions_of(club_id, today.isoformat())
            if each.day > today.isoformat()
        ],
        "of": SETTINGS,
    }


def goals_in_words(club_id: int, fencer_id: str, today: date) -> list[dict[str, Any]]:
    """Each goal with what has held, the lessons left, and when to re-check."""
    goals = goals_of(club_id, fencer_id)
    if not goals:
        return []
    known = {each.drill_id: (each.chart, each.walk) for each in worked_by(club_id, fencer_id, True)}
    versions = drills_now(club_id)
    documents = documents_of(club_id, [goal.drill_id for goal, _ in goals])
    around, lessons = Around.of(club_id, today), lesson_days(club_id, fencer_id)
    rows = []
    for goal, competition in goals:
        drill = goal.drill_id
        if drill not in known and drill not in versions:
            continue  # put away before it was ever worked
        chart, walk = known.get(drill) or _never(versions[drill].chart_id)
        # of a competition that is over: as it stood then
        until = min(competition.day, today.isoformat())
        held = held_by_rung(club_id, fencer_id, drill, chart, until)
        rows.append(
            {
                "drill": _named(drill, documents[drill]),
                "competition": {
                    "id": competition.id,
                    "name": competition.name,
                    "day": competition.day,
                },
                **_told(chart, walk, held, competition, lessons, around, today),
            }
        )
    return rows


def goals_for_plan(club_id: int, fencer_id: str, day: date) -> dict[str, Goal]:
    """Goals still ahead on a day, by drill, as the planner of a lesson needs them."""
    ahead_of = [
        (goal.drill_id, competition)
        for goal, competition in goals_of(club_id, fencer_id)
        if competition.day > day.isoformat()
    ]
    if not ahead_of:
        return {}
    charts = {each.drill_id: each.chart for each in worked_by(club_id, fencer_id)}
    found = {}
    for drill, competition in ahead_of:
        held = held_by_rung(club_id, fencer_id, drill, charts[drill]) if drill in charts else {}
        settings = held_in(charts[drill], held)[1] if drill in charts else []
        by = date.fromisoformat(competition.day)
        found[drill] = Goal(competition.name, by, len(settings))
    return found


def held_in(chart: Chart, held: Mapping[int, Sequence[Held]]) -> tuple[int | None, list[Setting]]:
    """The settings in which the drill has held, and the highest rung that held in all of them.

    What held at a higher rung has held at those below: the cue was the harder one. So a fencer who
    climbs does not lose the settings of the rung before.
    """
    best: tuple[int | None, list[Setting]] = None, []
    for place in sorted(held, key=lambda each: -chart.places[each].height):
        above = [one for each in held if _reaches(chart, each, place) for one in held[each]]
        found = apart([one.setting for one in sorted(above, key=lambda one: one.day)])
        if len(found) >= SETTINGS:
            return place, found
        if len(found) > len(best[1]):
            best = place, found
    return best


def _reaches(chart: Chart, place: int, low: int) -> bool:
    """Whether a place lies at or above another on every ladder."""
    here, there = chart.places[place], chart.places[low]
    return (here.read or 0) >= (there.read or 0) and (here.heat or 0) >= (there.heat or 0)


def _told(
    chart: Chart,
    walk: Walk,
    held: Mapping[int, Sequence[Held]],
    competition: Competition,
    lessons: Sequence[date],
    around: Around,
    today: date,
) -> dict[str, Any]:
    name, day = competition.name, competition.day
    is_over = day < today.isoformat()
    place, settings = held_in(chart, held)
    words = [setting_words(each, settings, around.names) for each in settings]
    reached = place is not None and len(settings) >= SETTINGS
    told: dict[str, Any] = {"settings": len(settings), "reached": reached, "over": is_over}
    nothing = {"room": None, "advice": None, "elsewhere": None, "left": None, "needs": 0}
    if is_over:
        return {**told, **nothing, **said(claims.over(name, day, len(settings), SETTINGS))}
    if reached and place is not None:
        stands = claims.reached(name, day, rung_words(chart, place), words)
    else:
        stands = claims.misses(name, day, words, SETTINGS, walk.met is not None)
    if day == today.isoformat():
        return {**told, **nothing, **said(stands)}
    way = ahead(chart, walk, len(settings), lessons, today, date.fromisoformat(day))
    return {
        **told,
        **said(stands),
        "room": said(claims.room(way.every, way.left, way.needs)),
        "advice": _advice(way, today, day),
        "elsewhere": None if reached or not settings else another(settings[-1], around),
        "left": way.left,
        "needs": way.needs,
    }


def _advice(way: Ahead, today: date, by: str) -> dict[str, Any] | None:
    if way.spaced is None:
        return None
    due = None if way.due is None else way.due.isoformat()
    return said(claims.advice(way.spaced.isoformat(), today.isoformat(), due, by))


def _never(chart_id: str) -> tuple[Chart, Walk]:
    chart = chart_of(chart_id)
    return chart, fresh(chart)


def _named(drill: str, document: Mapping[str, Any]) -> dict[str, Any]:
    return {"id": drill, "name": drill_text(document, "name"), "kind": document["kind"]}
