"""Which role a coach had when."""

from __future__ import annotations

from dataclasses import dataclass, field

from sqlalchemy import bindparam, select
from sqlalchemy.orm import Session

from ..db.models import Change, Coach
from .fields import sortable

_coach, _change = Coach.__table__.c, Change.__table__.c
_ROLES = select(_coach.id, _coach.role).where(_coach.club_id == bindparam("club"))
_CHANGES = (
    select(Change)
    .where(
        _change.club_id == bindparam("club"),
        _change.kind == "coach",
        _change.field == "role",
    )
    .order_by(_change.id)
)


@dataclass
class Roles:
    """The coaches of a club, and their roles now and before.

    Attributes:
        now: for each coach the role.
        before: for each coach (until when, the role until then), oldest first; the moment as from
            `sortable`.
    """

    now: dict[str, str] = field(default_factory=dict)
    before: dict[str, list[tuple[str, str]]] = field(default_factory=dict)

    @classmethod
    def of(cls, session: Session, club_id: int) -> Roles:
        """The roles in a club."""
        asked = {"club": club_id}
        found = cls({coach: role for coach, role in session.connection().execute(_ROLES, asked)})
        # who marks as an observer may have been a coach as the lesson was given
        if "observer" in found.now.values():
            for change in session.scalars(_CHANGES, asked):
                until = sortable(change.changed_at.isoformat())
                found.before.setdefault(change.object_id, []).append((until, change.old))
        return found

    def __contains__(self, coach: str) -> bool:
        return coach in self.now

    def at(self, coach: str, moment: str) -> str:
        """The role at a moment as a device wrote it: what was given then is judged by it."""
        when = sortable(moment)
        past = (role for until, role in self.before.get(coach, ()) if when < until)
        return next(past, self.now[coach])
