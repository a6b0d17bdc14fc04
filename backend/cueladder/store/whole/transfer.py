"""Transfer of all data between databases, SQLite or PostgreSQL."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from sqlalchemy import Connection, Engine, Table, func, select, text

from ..db.engine import db
from ..db.models import Club, DrillVersion, LessonDrill, Standing
from ..log.charts import chart_of
from ..log.fold import fold_history
from ..log.refold import same_walk
from ..problems import Refused
from ..replay.trials import events_by_lesson

BATCH = 2000


def copy_all(source: Engine, target: Engine) -> dict[str, int]:
    """Copy every row of every table in one transaction on each side.

    Both must be at the newest revision, and the target empty. The source is read in one snapshot.

    Returns:
        Number of rows by table.

    Raises:
        Refused: the target is not empty, or the counts differ; then nothing is written.
    """
    tables = db.metadata.sorted_tables
    level = "REPEATABLE READ" if source.dialect.name == "postgresql" else None
    options = {"isolation_level": level} if level else {}
    counts = {}
    with source.connect().execution_options(**options) as old, target.begin() as new:
        for table in tables:
            if _count(new, table):
                raise Refused(f"The target is not empty (table {table.name}). Give an empty one.")
        for table in tables:
            for rows in _batches(old, table):
                new.execute(table.insert(), rows)
            counts[table.name] = _count(new, table)
            if counts[table.name] != _count(old, table):
                raise Refused(f"The rows of table {table.name} did not all arrive.")
        if target.dialect.name == "postgresql":
            for table in tables:
                _set_sequence(new, table)
    return counts


def disagreements() -> list[tuple[int, str, str]]:
    """Fold every history again and compare the results with the stored standings.

    Returns:
        (club, fencer, drill) of each standing that differs.
    """
    found = []
    firsts: dict[tuple[int, str], str] = {
        (club_id, drill_id): chart_id
        for club_id, drill_id, chart_id in db.session.execute(
            select(DrillVersion.club_id, DrillVersion.drill_id, DrillVersion.chart_id).order_by(
                DrillVersion.version.desc()
            )
        )
    }
    for club_id in db.session.scalars(select(Club.id)).all():
        wanted = select(Standing).where(Standing.club_id == club_id)
        for standing in db.session.scalars(wanted).all():
            key = (club_id, standing.fencer_id, standing.drill_id)
            stored = standing.walk if standing.day is not None else None
            if not same_walk(stored, _folded(*key, firsts[(club_id, standing.drill_id)])):
                found.append(key)
    return found


def _folded(club_id: int, fencer_id: str, drill_id: str, first: str) -> dict[str, Any] | None:
    lessons = db.session.scalars(
        select(LessonDrill.lesson_id).where(
            LessonDrill.club_id == club_id,
            LessonDrill.fencer_id == fencer_id,
            LessonDrill.drill_id == drill_id,
        )
    ).all()
    history = [
        (*key, events[0].owner, events)
        for key, events in events_by_lesson(club_id, fencer_id, drill_id, list(lessons))
    ]
    walk = fold_history(chart_of, first, drill_id, history)
    return walk.to_json() if walk else None


def _batches(connection: Connection, table: Table) -> Iterator[list[dict[str, Any]]]:
    streamed = connection.execution_options(yield_per=BATCH).execute(table.select())
    for rows in streamed.mappings().partitions(BATCH):
        yield [dict(row) for row in rows]


def _count(connection: Connection, table: Table) -> int:
    return connection.execute(select(func.count()).select_from(table)).scalar_one()


def _set_sequence(connection: Connection, table: Table) -> None:
    """Advance PostgreSQL's sequence past the copied rows."""
    column = table.autoincrement_column
    if column is None:
        return
    highest = connection.execute(select(func.max(column))).scalar()
    if highest is not None:
        connection.execute(
            text("SELECT setval(pg_get_serial_sequence(:name, :column), :highest)"),
            {"name": table.name, "column": column.name, "highest": highest},
        )
