"""The drills a fencer has worked, each on its chart of today."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sqlalchemy import select

from ..rules import Chart, Walk
from .charts import chart_of
from .db import db
from .models import Drill, DrillVersion, Standing
from .trials import carried


@dataclass(frozen=True)
class Worked:
    """A drill a fencer has worked.

    Attributes:
        drill_id, document: the drill as it is today.
        chart: its chart of today.
        walk: where the fencer stands, carried over to that chart.
        day: day of the last lesson with it.
    """

    drill_id: str
    document: dict[str, Any]
    chart: Chart
    walk: Walk
    day: str


def worked_by(club_id: int, fencer_id: str, archived: bool = False) -> list[Worked]:
    """The drills a fencer has worked, by drill id; with ``archived`` those put away too."""
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
