"""A fencer, and the history of changed fields."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from sqlalchemy import JSON, BigInteger, ForeignKey, Index, Integer, String
from sqlalchemy.orm import Mapped, mapped_column

from ..db import Base, Instant, now


class Fencer(Base):
    """A fencer. No photo, no health data: a nickname and a year of birth suffice.

    Attributes:
        import_id: the table this fencer came with, if any.
    """

    __tablename__ = "fencer"
    club_id: Mapped[int] = mapped_column(ForeignKey("club.id"), primary_key=True)
    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    nickname: Mapped[str] = mapped_column(String(60))
    born: Mapped[int | None]
    weapon: Mapped[str] = mapped_column(String(8))
    hand: Mapped[str] = mapped_column(String(8))
    joined: Mapped[date | None]
    consent: Mapped[date | None]
    note: Mapped[str | None] = mapped_column(String(500))
    archived: Mapped[bool] = mapped_column(default=False)
    created_at: Mapped[datetime] = mapped_column(Instant, default=now)
    import_id: Mapped[str | None] = mapped_column(String(36))


class Change(Base):
    """One field that was changed: the last writer wins, the older value stays here."""

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
