"""The club on one page, from what is stored."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from ..rules import Chart
from ..store import season as stored
from ..store.charts import chart_of
from ..store.fold import effective
from ..store.lived import seen_by, walked
from ..store.season import Taught
from ..store.trials import carried
from . import coaches as of_coaches
from . import seasons, stuck
from .beside import paired
from .due import due
from .load import load
from .waits import least_chance, waits

# Who has not moved in this time is looked at from then on.
STUCK_DAYS = 84
# Sets marked by two, the newest, that are compared.
COMPARED = 120


@dataclass(frozen=True)
class Asked:
    """What is asked for.

    Attributes:
        club_id: the club.
        today: the day it is where the question comes from.
        weeks: how many weeks the tables reach back.
        coach: tables about coaches tell of this one only; None for all.
    """

    club_id: int
    today: date
    weeks: int
    coach: str | None


def overview(asked: Asked) -> dict[str, Any]:
    """Every table of the page; a fixed number of queries, however old the club is."""
    club_id, today = asked.club_id, asked.today
    fencers, coaches = stored.fencers_now(club_id), stored.coach_names(club_id)
    drills = stored.drills_now(club_id)
    charts = {drill: chart_of(version.chart_id) for drill, version in drills.items()}
    weeks = seasons.weeks_up_to(today, asked.weeks)
    # a phone to the east may be a day ahead
    last = str(today + timedelta(days=1))
    first = min(weeks[0], str(today - timedelta(days=STUCK_DAYS)))
    lessons = stored.lessons_between(club_id, weeks[0], last)
    recent = stored.taught_between(club_id, first, last)
    taught = [each for each in recent if each.day >= weeks[0]]
    near = stored.beside_between(club_id, weeks[0], last)
    worked = defaultdict(list)
    for fencer, drill, walk, day in stored.standings_of(club_id):
        if drill in drills:
            chart = charts[drill]
            worked[fencer].append(
                (drills[drill].document["name"], chart, carried(chart, walk), day)
            )
    since = str(today - timedelta(days=STUCK_DAYS))
    own = [each for each in lessons if asked.coach in (None, each.coach_id)]
    return {
        "day": today.isoformat(),
        "weeks": asked.weeks,
        "due": due(fencers, worked, stored.next_bookings(club_id, today.isoformat()), today),
        "stuck": _stuck(
            club_id, [each for each in recent if each.day >= since], drills, charts, fencers
        ),
        "load": load(
            own,
            [each for each in taught if asked.coach in (None, each.coach)],
            {each.lesson: each.at for each in near if each.type == "lesson_closed"},
            coaches,
        ),
        "agreement": _agreement(asked, taught, near, coaches),
        "orders": _orders(asked, taught, charts, coaches),
        "season": seasons.season(fencers, lessons, taught, charts, weeks),
    }


def _stuck(
    club_id: int,
    recent: list[Taught],
    drills: dict[str, Any],
    charts: dict[str, Chart],
    fencers: dict[str, str],
) -> dict[str, Any]:
    pairs = defaultdict(list)
    for each in recent:
        if each.fencer in fencers and each.drill in charts:
            pairs[each.fencer, each.drill].append(each)
    least = {
        pair: least_chance(charts[pair[1]], some)
        for pair, some in pairs.items()
        if not _at_the_top(charts[pair[1]], some[-1])
    }
    candidates = [pair for pair in sorted(least, key=lambda p: (least[p], p)) if least[pair] <= 0.1]
    candidates = candidates[: stuck.MOST]
    theirs = [each for pair in candidates for each in pairs[pair]]
    events = _events(club_id, theirs)
    first = stored.first_charts(club_id)
    names = {version.document["slug"]: version.document["name"] for version in drills.values()}
    rows = []
    for fencer, drill in candidates:
        chart, document = charts[drill], drills[drill].document
        steps = [
            (
                each.lesson,
                walked(
                    events.get(each.lesson, []),
                    drill,
                    each.coach,
                    first[drill],
                    stored.walk_of(each.before),
                    each.day,
                ),
            )
            for each in pairs[fencer, drill]
        ]
        who = {
            "fencer": fencer, "name": fencers[fencer], "drill": drill, "title": document["name"],
            "kind": chart.kind.value, "paired": names.get(document.get("paired") or ""),
        }  # fmt: skip
        rows.append((who, chart, waits(chart, steps)))
    return stuck.stuck(rows, len(least))


def _at_the_top(chart: Chart, each: Taught) -> bool:
    met = carried(chart, each.after).met
    return met is not None and chart.places[met].climb is None


def _agreement(
    asked: Asked, taught: list[Taught], near: list[Any], coaches: dict[str, str]
) -> list[dict[str, Any]]:
    others = defaultdict(set)
    for each in near:
        if each.type == "cue_marked":
            others[each.lesson, each.drill].add(each.coach)
    seen = [
        (each, observer)
        for each in reversed(taught)
        for observer in sorted(others[each.lesson, each.drill])
        if asked.coach in (None, each.coach, observer)
    ][:COMPARED]
    events = _events(asked.club_id, [each for each, _ in seen])
    first = stored.first_charts(asked.club_id)
    sets = []
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
    return of_coaches.agreement(sets, coaches)


def _orders(
    asked: Asked, taught: list[Taught], charts: dict[str, Chart], coaches: dict[str, str]
) -> list[dict[str, Any]]:
    latest: dict[str, list[Taught]] = defaultdict(list)
    for each in reversed(taught):
        mixed = each.drill in charts and len(charts[each.drill].meaning) > 1
        if (
            mixed
            and asked.coach in (None, each.coach)
            and len(latest[each.coach]) < of_coaches.ORDERS
        ):
            latest[each.coach].append(each)
    events = _events(asked.club_id, [each for some in latest.values() for each in some])
    given = {
        coach: [
            [
                event.payload["given"] == "attack"
                for event in effective(events.get(each.lesson, []), each.drill, coach)
                if event.type == "cue_marked"
            ]
            for each in some
        ]
        for coach, some in latest.items()
        if some
    }
    return of_coaches.orders(given, coaches)


def _events(club_id: int, taught: list[Taught]) -> dict[str, list[Any]]:
    return stored.events_of(
        club_id, [each.lesson for each in taught], [each.drill for each in taught]
    )
