"""Lesson plans from stored data."""

from __future__ import annotations

from datetime import date
from typing import Any

from ..planning import Goal, Plan, Record, plan
from ..planning import Standing as Planned
from ..rules import Chart, Outcome, fresh
from ..rules.mark import OUTCOMES
from ..store.db.models import Drill, DrillVersion, Fencer
from ..store.drills.versions import drills_of
from ..store.fencers.draws import held_back
from ..store.log.charts import chart_of
from ..store.replay.stops import stops_between
from ..store.replay.trials import Trials, gaps_of, trials_of
from ..store.replay.worked import worked_by
from .beyond.goals import goals_for_plan
from .beyond.where import Around, where_held
from .drill_text import drill_text
from .standing import cue_words, rung_words

# How many of the latest lessons are read: recent answers predict the next lesson better.
LESSONS = 12
PASS, HOLD = OUTCOMES.index(Outcome.PASS), OUTCOMES.index(Outcome.HOLD)


def plan_for(fencer: Fencer, minutes: float, day: date) -> dict[str, Any]:
    """Plan a lesson with the club's drills that suit the fencer's weapon.

    Returns:
        The plan as data; each block also says ``rung`` and ``cue`` of the place it starts at.

    Raises:
        RuleError: minutes out of range.
    """
    club_id = fencer.club_id
    drills = [(drill, version) for drill, version in drills_of(club_id) if not drill.archived]
    ids = {drill.slug: drill.id for drill, _ in drills}
    charts: dict[str, Chart] = {}
    goals = goals_for_plan(club_id, fencer.id, day)
    standings = []
    for each in worked_by(club_id, fencer.id):
        charts[each.drill_id] = each.chart
        trials = trials_of(club_id, fencer.id, each.drill_id, each.chart, LESSONS)
        standings.append(
            Planned(
                drill=each.drill_id,
                name=drill_text(each.document, "name"),
                chart=each.chart,
                walk=each.walk,
                record=record(each.chart, trials),
                seconds=tuple(gaps_of(trials).tolist()),
                paired=ids.get(each.document.get("paired") or ""),
                goal=goals.get(each.drill_id),
            )
        )
    waits = held_back(club_id, fencer.id, day)
    if _stopped(club_id, fencer.id, day):  # nothing intense for the rest of the day
        standings = [each for each in standings if each.chart.ladders["heat"] is None]
        waits |= {drill.id for drill, version in drills if version.document["heat"] is not None}
    starters = [
        _starter(each, ids, goals)
        for each in drills
        if _suits(each[1], fencer) and each[0].id not in waits
    ]
    charts |= {each.drill: each.chart for each in starters if each.drill not in charts}
    told = _told(plan(minutes, standings, day.isoformat(), starters), charts)
    around = Around.of(club_id, day)
    walks = {each.drill: each.walk for each in standings}
    for block in told["blocks"]:
        drill = block["drill"]
        held = drill in walks and where_held(
            club_id, fencer.id, drill, charts[drill], walks[drill], around
        )
        block["elsewhere"] = held["next"] if held else None
    return told


def _stopped(club_id: int, fencer: str, day: date) -> bool:
    """Whether the fencer called stop on that day."""
    today = stops_between(club_id, day.isoformat(), day.isoformat(), None)
    return any(stop.fencer == fencer for stop in today)


def record(chart: Chart, trials: Trials) -> dict[int, tuple[Record, ...]]:
    """Passes, holds and misses of each counter at each place."""
    counters = len(chart.counters)
    counter = (1 - trials.attack) if counters > 1 else trials.attack * 0
    found = {}
    for place in sorted({int(p) for p in trials.place if p >= 0}):
        rows = []
        for k in range(counters):
            here = trials.outcome[(trials.place == place) & (counter == k)]
            passes, holds = int((here == PASS).sum()), int((here == HOLD).sum())
            rows.append(Record(passes, holds, int(here.size) - passes - holds))
        found[place] = tuple(rows)
    return found


def _suits(version: DrillVersion, fencer: Fencer) -> bool:
    return fencer.weapon in version.document["weapon"]


def _starter(
    each: tuple[Drill, DrillVersion], ids: dict[str, str], goals: dict[str, Goal]
) -> Planned:
    drill, version = each
    chart = chart_of(version.chart_id)
    paired = ids.get(version.document.get("paired") or "")
    name = drill_text(version.document, "name")
    return Planned(
        drill=drill.id,
        name=name,
        chart=chart,
        walk=fresh(chart),
        paired=paired,
        goal=goals.get(drill.id),
    )


def _told(made: Plan, charts: dict[str, Chart]) -> dict[str, Any]:
    told = made.to_json()
    for block in told["blocks"]:
        chart, place = charts[block["drill"]], block["place"]
        block |= {"rung": rung_words(chart, place), "cue": cue_words(chart, place)}
    return told
