"""Charts by id: kept once, read often."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from ...rules import Chart as RuleChart
from ..db.engine import db
from ..db.models import Chart, DrillVersion


def keep_chart(session: Session, chart: RuleChart) -> None:
    """Store a chart unless it is there already."""
    if session.get(Chart, chart.id) is None:
        session.add(Chart(id=chart.id, body=chart.to_json()))
        session.flush()


@lru_cache(maxsize=512)
def chart_of(chart_id: str) -> RuleChart:
    """The chart, ready to walk. Its id is a digest of its content, so it may be kept in memory.

    Raises:
        LookupError: no such chart.
    """
    body = db.session.scalar(select(Chart.body).where(Chart.id == chart_id))
    if body is None:
        raise LookupError(chart_id)
    return RuleChart.from_json(body)


def chart_bodies(club_id: int, ids: list[str]) -> dict[str, dict[str, Any]]:
    """The charts among ``ids`` that a drill of the club uses or used, as data."""
    used = select(DrillVersion.chart_id).where(
        DrillVersion.club_id == club_id, DrillVersion.chart_id.in_(ids)
    )
    rows = db.session.execute(select(Chart.id, Chart.body).where(Chart.id.in_(used)))
    return {chart_id: body for chart_id, body in rows}
