"""Fencers and the history of their fields."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from sqlalchemy import JSON, BigInteger, ForeignKey, Index, Integer, String
from sqlalchemy.orm import Mapped, mapped_column

from ..engine import Base, Instant, now

# The limits of a fencer's fields, for the API and for imported tables alike.
NICKNAME, NOTE = 60, 500
OLDEST, YOUNGEST = 1900, 2100
HANDS = ("right", "left")


class Fencer(Base):
    """A fencer. No photo, no health data: a nickname and a year of birth suffice.

    Attributes:
        consent: day on which keeping the records was agreed to.
        noise_self, noise_guardian: day on which the fencer, and a parent or guardian, agreed to
            voice and stamps in lessons.
        import_id: the roster import that added this fencer, if any.
    """

    __tablename__ = "fencer"
    club_id: Mapped[int] = mapped_column(ForeignKey("club.id"), primary_key=True)
    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    nickname: Mapped[str] = mapped_column(String(NICKNAME))
    born: Mapped[int | None]
    weapon: Mapped[str] = mapped_column(String(8))
    hand: Mapped[str] = mapped_column(String(8))
    joined: Mapped[date | None]
    consent: Mapped[date | None]
    noise_self: Mapped[date | None]
    noise_guardian: Mapped[date | None]
    note: Mapped[str | None] = mapped_column(String(NOTE))
    archived: Mapped[bool] = mapped_column(default=False)
    created_at: Mapped[datetime] = mapped_column(Instant, default=now)
    import_id: Mapped[str | None] = mapped_column(String(36))


class Change(Base):
    """A changed field with its old value; the last writer wins."""

    __tablename__ = "change"
    __table_args__ = (Index(None, "club_id", "kind", "object_id"),)
    id: Mapped[int] = mapped_column(BigInteger().with_variant(Integer, "sqlite"), primary_key=True)
    club_id: Mapped[int] = mapped_column(ForeignKey("club.id"))
    kind: Mapped[str] = mapped_column(String(12))
    object_id: Mapped[str] = mapped_column(String(36))
    field: Mapped[str] = mapped_column(String(40))
    old: Mapped[Any] = mapped_column(JSON)
    new: Mapped[Any] = mapped_column(JSON)
    coach_id: Mapped[str] = mapped_column(String(36))
    changed_at: Mapped[datetime] = mapped_column(Instant, default=now)
