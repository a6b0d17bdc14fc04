"""The append-only event log."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import JSON, BigInteger, ForeignKeyConstraint, Index, String, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from ..engine import Base, Instant


class Event(Base):
    """One event, as the device wrote it.

    Attributes:
        seq: the club's sequence number, in order of commits.
        n: the device's own counter.
        at: device time as sent; never used for ordering.
        fencer_id: the fencer of the lesson (not sent with the event).
        drill_id: the drill it refers to, if any.
        payload: the fields not in the envelope.
    """

    __tablename__ = "event"
    __table_args__ = (
        UniqueConstraint("club_id", "seq"),
        ForeignKeyConstraint(["club_id", "fencer_id"], ["fencer.club_id", "fencer.id"]),
        Index(None, "club_id", "fencer_id", "lesson_id"),
    )
    club_id: Mapped[int] = mapped_column(primary_key=True)
    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    seq: Mapped[int] = mapped_column(BigInteger)
    type: Mapped[str] = mapped_column(String(16))
    device_id: Mapped[str] = mapped_column(String(36))
    n: Mapped[int] = mapped_column(BigInteger)
    at: Mapped[str] = mapped_column(String(40))
    coach_id: Mapped[str] = mapped_column(String(36))
    lesson_id: Mapped[str] = mapped_column(String(36))
    fencer_id: Mapped[str] = mapped_column(String(36))
    drill_id: Mapped[str | None] = mapped_column(String(36))
    payload: Mapped[dict[str, Any]] = mapped_column(JSON)
    received_at: Mapped[datetime] = mapped_column(Instant)
