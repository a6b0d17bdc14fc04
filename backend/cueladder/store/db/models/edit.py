"""Applied edits and roster imports."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey, ForeignKeyConstraint, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from ..engine import Base, Instant, now


class Edit(Base):
    """The id of an applied edit, which makes a retry harmless."""

    __tablename__ = "edit"
    club_id: Mapped[int] = mapped_column(ForeignKey("club.id"), primary_key=True)
    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    taken_at: Mapped[datetime] = mapped_column(Instant, default=now)


class RosterImport(Base):
    """A roster import, without names.

    Attributes:
        added: number of fencers added.
        undone_at: when it was undone, if it was.
    """

    __tablename__ = "roster_import"
    __table_args__ = (
        ForeignKeyConstraint(["club_id", "coach_id"], ["coach.club_id", "coach.id"]),
        Index(None, "club_id", "coach_id"),
    )
    club_id: Mapped[int] = mapped_column(primary_key=True)
    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    coach_id: Mapped[str] = mapped_column(String(36))
    added: Mapped[int]
    imported_at: Mapped[datetime] = mapped_column(Instant, default=now)
    undone_at: Mapped[datetime | None] = mapped_column(Instant)
