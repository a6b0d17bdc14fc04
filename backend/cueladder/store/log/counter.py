"""The club's counter: every stored event and every new standing takes a number from it."""

from __future__ import annotations

from sqlalchemy import bindparam, select, update
from sqlalchemy.orm import Session

from ..db.engine import db
from ..db.models import Club

_club = Club.__table__
_ASKED = select(_club.c.seq).where(_club.c.id == bindparam("club"))
_HELD = _ASKED.with_for_update()
_GIVEN = update(_club).where(_club.c.id == bindparam("club")).values(seq=bindparam("given"))


def hold_club(session: Session, club_id: int) -> int:
    """Hold the club's row until the commit and return the last number given out.

    Numbers are taken only by whoever holds the row, so a number is visible before the next one is
    given. Whatever must not race with a push holds it too.
    """
    return session.execute(_HELD, {"club": club_id}).scalar_one()


def give_out(session: Session, club_id: int, seq: int) -> None:
    """Say that numbers up to ``seq`` are given out (the caller holds the row)."""
    session.execute(_GIVEN, {"club": club_id, "given": seq})


def last_number(club_id: int) -> int:
    """The last number given out. Everything up to it is visible to a query made after this."""
    return db.session.execute(_ASKED, {"club": club_id}).scalar_one()
