"""Roster import: preview, import as a whole or not at all, undo."""

from __future__ import annotations

import uuid
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

from marshmallow import ValidationError
from sqlalchemy import func, select
from sqlalchemy.orm import Session

from ...rules.said import later, say
from ..db.engine import db, now, writing
from ..db.models import Booking, Coach, Fencer, Lesson, ProgressLink, RosterImport
from ..log.audit import note
from ..log.counter import hold_club
from ..log.fields import is_id
from ..problems import Missing, Refused
from .edit import fencers_of
from .erase import erase_rows
from .roster_cells import normalised
from .roster_table import RosterTable, Row, read_table

LATEST = 20
# Fencers with one of these stay when an import is undone.
STAYS = (
    (Lesson, later("has had a lesson")),
    (Booking, later("is booked for a lesson")),
    (ProgressLink, later("has a link to a progress page")),
)


@dataclass(frozen=True)
class Look:
    """The preview of an import.

    Attributes:
        same: for each row its likely duplicate: a `Fencer` of the club, a `Row` of an earlier
            line, or None.
    """

    table: RosterTable
    same: tuple[Fencer | Row | None, ...]


def look_at(club_id: int, text: str, today: date) -> Look:
    """Preview an import; nothing is written."""
    table = read_table(text, today.year)
    return Look(table, _same(table.rows, fencers_of(club_id)))


def import_table(
    club_id: int, import_id: str, coach_id: str, text: str, today: date, also_same: bool = False
) -> tuple[RosterImport, bool]:
    """Add the fencers of a table, all or none.

    Args:
        import_id: the device's own; a retry with the same id adds nothing.
        also_same: add likely duplicates, too.

    Returns:
        The import, and whether it is new.

    Raises:
        ValidationError: faults, by line and column.
        Refused: there is nobody to add.
    """
    table = read_table(text, today.year)
    with writing() as session:
        hold_club(session, club_id)
        known = session.get(RosterImport, (club_id, import_id))
        if known is not None:
            return known, False
        if table.faults:
            raise ValidationError({"lines": _by_line(table)})
        same = _same(table.rows, fencers_of(club_id))
        rows = [r for r, s in zip(table.rows, same, strict=True) if also_same or s is None]
        if not rows:
            raise Refused(say("has nobody to add"), "text")
        made = RosterImport(club_id=club_id, id=import_id, coach_id=coach_id, added=len(rows))
        session.add(made)
        for row in rows:
            _add(session, made, row.fields)
    return made, True


def undo_import(club_id: int, import_id: str, coach_id: str) -> tuple[int, list[dict[str, str]]]:
    """Erase the fencers of an import, except those with a lesson, booking or link.

    Returns:
        How many were erased, and who stays, each with ``id``, ``nickname`` and ``why``.
    """
    with writing() as session:
        hold_club(session, club_id)
        made = import_in(session, club_id, import_id)
        wanted = select(Fencer).where(Fencer.club_id == club_id, Fencer.import_id == import_id)
        fencers = session.scalars(wanted.order_by(Fencer.nickname, Fencer.id)).all()
        stay = {f.id: why for f in fencers if (why := _why_stays(session, f)) is not None}
        for fencer in fencers:
            if fencer.id not in stay:
                erase_rows(session, fencer, coach_id)
        made.undone_at = made.undone_at or now()
    told = [
        {"id": f.id, "nickname": f.nickname, "why": stay[f.id]} for f in fencers if f.id in stay
    ]
    return len(fencers) - len(told), told


def import_in(session: Session, club_id: int, import_id: str) -> RosterImport:
    """Look up an import within the club.

    Raises:
        Missing: no such import there.
    """
    made = session.get(RosterImport, (club_id, import_id)) if is_id(import_id) else None
    if made is None:
        raise Missing(say("No such import in this club."))
    return made


def latest_imports(club_id: int) -> list[tuple[RosterImport, str | None, int]]:
    """The latest imports, each with its coach's name and how many of its fencers are left."""
    left = (
        select(func.count())
        .where(Fencer.club_id == club_id, Fencer.import_id == RosterImport.id)
        .scalar_subquery()
    )
    same_coach = (Coach.club_id == RosterImport.club_id) & (Coach.id == RosterImport.coach_id)
    wanted = (
        select(RosterImport, Coach.name, left)
        .outerjoin(Coach, same_coach)
        .where(RosterImport.club_id == club_id)
        .order_by(RosterImport.imported_at.desc())
        .limit(LATEST)
    )
    return [(made, name, count) for made, name, count in db.session.execute(wanted)]


def _same(rows: Iterable[Row], fencers: Iterable[Fencer]) -> tuple[Fencer | Row | None, ...]:
    """The likely duplicate of each row: same name, no contradicting year of birth."""
    known: dict[str, list[tuple[int | None, Fencer | Row]]] = {}
    for fencer in fencers:
        known.setdefault(normalised(fencer.nickname), []).append((fencer.born, fencer))
    found: list[Fencer | Row | None] = []
    for row in rows:
        born = row.fields["born"]
        others = known.setdefault(normalised(row.fields["nickname"]), [])
        found.append(
            next((one for year, one in others if None in (year, born) or year == born), None)
        )
        others.append((born, row))
    return tuple(found)


def _by_line(table: RosterTable) -> dict[int, dict[str, list[str]]]:
    found: dict[int, dict[str, list[str]]] = {}
    for fault in table.faults:
        found.setdefault(fault.line, {}).setdefault(fault.column, []).append(fault.message)
    return found


def _add(session: Session, made: RosterImport, fields: dict[str, Any]) -> None:
    fencer_id = str(uuid.uuid4())
    session.add(
        Fencer(club_id=made.club_id, id=fencer_id, import_id=made.id, archived=False, **fields)
    )
    note(session, made.club_id, fencer_id, made.coach_id, "imported")


def _why_stays(session: Session, fencer: Fencer) -> str | None:
    for model, why in STAYS:
        wanted = select(model.club_id).where(
            model.club_id == fencer.club_id, model.fencer_id == fencer.id
        )
        if session.execute(wanted.limit(1)).first() is not None:
            return say(why)
    return None
