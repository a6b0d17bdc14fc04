"""The list of who looked at a fencer's record and who changed it.

Every phone of the club keeps nicknames and standings to work without a network; that is no look.
A look is when the server tells what it knows about one fencer: the story, a lesson afterwards, an
export, a progress page.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import timedelta
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from ..db.engine import db, now, writing
from ..db.models import Audit, Coach
from .counter import hold_club

ACTIONS = (
    "added", "imported", "changed", "erased", "exported", "looked", "link made", "link closed",
    "links closed", "page opened", "practised", "lesson moved", "lesson removed", "taken in",
    "plan drawn", "plan withdrawn", "goal set", "goal given up",
)  # fmt: skip
# Looking again within this time is the same look.
SAME_LOOK = timedelta(hours=1)
MOST = 500


def note(
    session: Session,
    club_id: int,
    fencer_id: str,
    coach_id: str | None,
    action: str,
    fields: Iterable[str] = (),
) -> None:
    """Add an entry, inside a write transaction."""
    session.add(
        Audit(
            club_id=club_id,
            fencer_id=fencer_id,
            coach_id=coach_id,
            action=action,
            fields=", ".join(fields)[:200] or None,
        )
    )


def note_look(club_id: int, fencer_id: str, coach_id: str | None, action: str = "looked") -> None:
    """Note a look, unless the same person has looked within the hour."""
    again = select(Audit.id).where(
        Audit.club_id == club_id,
        Audit.fencer_id == fencer_id,
        Audit.coach_id.is_not_distinct_from(coach_id),
        Audit.action == action,
        Audit.at > now() - SAME_LOOK,
    )
    if db.session.scalar(again.limit(1)) is None:
        with writing() as session:
            # a page asks for several things at once: the look is one
            hold_club(session, club_id)
            if session.scalar(again.limit(1)) is None:
                note(session, club_id, fencer_id, coach_id, action)


def note_looks(
    club_id: int,
    fencers: Iterable[str],
    coach_id: str,
    action: str = "looked",
    fields: Iterable[str] = (),
) -> None:
    """Note one look at each of several fencers, as `note_look` does; in two statements."""
    ids = sorted(set(fencers))
    again = select(Audit.fencer_id).where(
        Audit.club_id == club_id,
        Audit.fencer_id.in_(ids),
        Audit.coach_id == coach_id,
        Audit.action == action,
        Audit.at > now() - SAME_LOOK,
    )
    said = ", ".join(fields)[:200] or None
    if said is not None:
        again = again.where(Audit.fields == said)
    seen = set(db.session.scalars(again)) if ids else set()
    if fresh := [fencer for fencer in ids if fencer not in seen]:
        with writing() as session:
            for fencer in fresh:
                note(session, club_id, fencer, coach_id, action, [said] if said else ())


def audit_of(
    club_id: int, fencer_id: str | None = None, before: int | None = None, most: int = MOST
) -> tuple[list[dict[str, Any]], int | None]:
    """Entries of a club, or of one fencer (erased ones too), newest first.

    Args:
        before: only entries older than the one of this number.
        most: how many at most.

    Returns:
        The entries, and the ``before`` of the next page; None on the last.
    """
    wanted = (
        select(Audit, Coach.name)
        .outerjoin(Coach, (Coach.club_id == Audit.club_id) & (Coach.id == Audit.coach_id))
        .where(Audit.club_id == club_id)
        .order_by(Audit.id.desc())
        .limit(most + 1)
    )
    if fencer_id is not None:
        wanted = wanted.where(Audit.fencer_id == fencer_id)
    if before is not None:
        wanted = wanted.where(Audit.id < before)
    rows = list(db.session.execute(wanted))
    entries = [
        {
            "id": entry.id,
            "at": entry.at.isoformat(),
            "fencer": entry.fencer_id,
            "coach": entry.coach_id,
            "name": name,
            "action": entry.action,
            "fields": entry.fields,
        }
        for entry, name in rows[:most]
    ]
    return entries, entries[-1]["id"] if len(rows) > most else None
