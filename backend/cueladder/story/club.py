"""The tables of the club overview, from what is stored."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from ..rules import Chart
from ..rules.said import say
from ..store.log.charts import chart_of
from ..store.log.fold import effective
from ..store.replay import season as stored
from ..store.replay.lived import walked
from ..store.replay.season import Taught
from ..store.replay.stops import stops_between
from ..store.replay.trials import carried
from . import coaches as of_coaches
from . import seasons, stuck
from .by_two import events_of, marked_by_two
from .drill_text import drill_text
from .due import due
from .waits import least_chance, waits
from .workload import workload

# How far back waits at a rung are looked for.
STUCK_DAYS = 84


@dataclass(frozen=True)
class Asked:
    """A request for the overview.

    Attributes:
        club_id: the club.
        today: local day of whoever asks.
        weeks: how many weeks back the tables go.
        coach: limits the tables about coaches to this one; None for all.
    """

    club_id: int
    today: date
    weeks: int
    coach: str | None


def overview(asked: Asked) -> dict[str, Any]:
    """Every table of the overview, in a fixed number of queries however old the club is."""
    club_id, today = asked.club_id, asked.today
    fencers, coaches = stored.fencers_now(club_id), stored.coach_names(club_id)
    drills = stored.drills_now(club_id)
    charts = {drill: chart_of(version.chart_id) for drill, version in drills.items()}
    weeks = seasons.weeks_up_to(today, asked.weeks)
    # a phone in a time zone to the east may be a day ahead
    last = str(today + timedelta(days=1))
    first = min(weeks[0], str(today - timedelta(days=STUCK_DAYS)))
    lessons = stored.lessons_between(club_id, weeks[0], last)
    recent = stored.taught_between(club_id, first, last)
    taught = [each for each in recent if each.day >= weeks[0]]
    near = stored.other_events_between(club_id, weeks[0], last)
    worked = defaultdict(list)
    for fencer, drill, walk, day in stored.standings_of(club_id):
        if drill in drills:
            chart = charts[drill]
            worked[fencer].append(
                (drill_text(drills[drill].document, "name"), chart, carried(chart, walk), day)
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
        "load": workload(
            own,
            [each for each in taught if asked.coach in (None, each.coach)],
            {each.lesson: each.at for each in near if each.type == "lesson_closed"},
            coaches,
        ),
        "agreement": _agreement(asked, taught, near, coaches),
        "orders": _orders(asked, taught, charts, coaches),
        "season": seasons.season(fencers, lessons, taught, charts, weeks),
        "stops": [
            {
                "day": stop.day,
                "fencer": stop.fencer,
                "drill": drill_text(drills[stop.drill].document, "name"),
                "coach": coaches.get(stop.coach, say("a coach who left")),
            }
            for stop in stops_between(club_id, weeks[0], last, asked.coach)
            if stop.fencer in fencers and stop.drill in drills
        ],
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
    events = events_of(club_id, theirs)
    first = stored.first_charts(club_id)
    names = {
        version.document["slug"]: drill_text(version.document, "name")
        for version in drills.values()
    }
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
            "fencer": fencer, "name": fencers[fencer], "drill": drill,
            "title": drill_text(document, "name"),
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
    sets = marked_by_two(asked.club_id, taught, near, asked.coach)
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
    events = events_of(asked.club_id, [each for some in latest.values() for each in some])
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
