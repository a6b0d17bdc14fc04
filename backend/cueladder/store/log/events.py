"""A club's events as the fold reads them: those stored before a batch, and the batch itself."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from operator import itemgetter
from typing import Any, NamedTuple

from sqlalchemy import bindparam, or_, select
from sqlalchemy.orm import Session

from ..db.models import Event
from .fold import Logged
from .keys import LessonKey


class Line(NamedTuple):
    """What the fold needs of an event."""

    id: str
    type: str
    device_id: str
    n: int
    coach_id: str
    drill_id: str | None
    payload: Mapping[str, Any]


_as_line = itemgetter(*Line._fields)
_event = Event.__table__.c
_OLDER = select(*(_event[name] for name in Line._fields)).where(
    _event.club_id == bindparam("club"),
    _event.fencer_id == bindparam("fencer"),
    _event.lesson_id == bindparam("lesson"),
    # "+ 0" keeps SQLite off the index of numbers: it would read the whole club's log
    _event.seq + 0 <= bindparam("stored"),
    or_(_event.drill_id == bindparam("drill"), _event.type == "mark_voided"),
)


class Log:
    """Reads a lesson's events; what came with the batch is not read from the database again."""

    def __init__(
        self, session: Session, club_id: int, stored: int, rows: Iterable[Mapping[str, Any]]
    ) -> None:
        """Look at a club.

        Args:
            session: the open transaction.
            club_id: the club.
            stored: the last number given out before the batch.
            rows: the batch's rows of `Event`.
        """
        self._session, self._club_id, self._stored = session, club_id, stored
        # what names no drill (a mark taken back, say) lies under None and goes with every drill
        self._batch: dict[tuple[str, str | None], list[Line]] = {}
        self._opened: set[str] = set()
        for row in rows:
            line = Line._make(_as_line(row))
            self._batch.setdefault((row["lesson_id"], line.drill_id), []).append(line)
            if row["type"] == "lesson_opened":
                self._opened.add(row["id"])

    def of(self, lesson: LessonKey, drill_id: str) -> list[Logged]:
        """The lesson's events that bear on the drill, in no order."""
        batch = self._batch
        fresh = [*batch.get((lesson.id, drill_id), ()), *batch.get((lesson.id, None), ())]
        if lesson.id in self._opened:
            return fresh
        asked = {
            "club": self._club_id,
            "fencer": lesson.fencer,
            "lesson": lesson.id,
            "stored": self._stored,
            "drill": drill_id,
        }
        older = self._session.connection().execute(_OLDER, asked)
        return [*(Line(*row) for row in older), *fresh]
