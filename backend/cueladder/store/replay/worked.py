"""Drills a fencer has worked, on their present charts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sqlalchemy import select

from ...rules import Chart, Walk
from ..db.engine import db
from ..db.models import Drill, DrillVersion, Standing
from ..log.charts import chart_of
from .trials import carried


@dataclass(frozen=True)
class Worked:
    """A drill a fencer has worked.

    Attributes:
        drill_id, document: the present version of the drill.
        chart: its chart.
        walk: the fencer's walk, carried over to that chart.
        day: day of the last lesson on it.
    """

    drill_id: str
    document: dict[str, Any]
    chart: Chart
    walk: Walk
    day: str


def worked_by(club_id: int, fencer_id: str, archived: bool = False) -> list[Worked]:
    """Drills a fencer has worked, by drill id; archived ones only on request."""
    same = (
        (DrillVersion.club_id == Drill.club_id)
        & (DrillVersion.drill_id == Drill.id)
        & (DrillVersion.version == Drill.version)
    )
    wanted = (
        select(Standing.drill_id, Standing.walk, Standing.day, DrillVersion)
        .join(Drill, (Drill.club_id == Standing.club_id) & (Drill.id == Standing.drill_id))
        .join(DrillVersion, same)
        .where(
            Standing.club_id == club_id,
            Standing.fencer_id == fencer_id,
            Standing.day.is_not(None),
        )
        .order_by(Standing.drill_id)
    )
    if not archived:
        wanted = wanted.where(Drill.archived.is_(False))
    found = []
    for drill_id, walk, day, version in db.session.execute(wanted):
        chart = chart_of(version.chart_id)
        found.append(Worked(drill_id, version.document, chart, carried(chart, walk), day))
    return found
