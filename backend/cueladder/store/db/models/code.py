"""One-time codes for set-up, invitations and passphrase resets."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import CheckConstraint, ForeignKeyConstraint, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from ..engine import Base, Instant, now

PURPOSES = ("setup", "join", "reset")


class OneTimeCode(Base):
    """A code for one purpose, valid once; only its SHA-256 is stored.

    Attributes:
        purpose: ``setup`` (the first club of an empty database), ``join`` (a new coach) or
            ``reset`` (a forgotten passphrase).
        club_id: the club, None for ``setup``.
        role: role of the new coach.
        coach_id: whose passphrase is reset.
        made_by: the head coach who made it, None for ``setup``.
    """

    __tablename__ = "one_time_code"
    __table_args__ = (
        CheckConstraint(f"purpose IN {PURPOSES}", name="purpose"),
        ForeignKeyConstraint(["club_id"], ["club.id"]),
        ForeignKeyConstraint(["club_id", "coach_id"], ["coach.club_id", "coach.id"]),
        Index(None, "club_id", "coach_id"),
    )
    code_hash: Mapped[str] = mapped_column(String(64), primary_key=True)
    id: Mapped[str] = mapped_column(String(36), unique=True)
    purpose: Mapped[str] = mapped_column(String(8))
    club_id: Mapped[int | None]
    role: Mapped[str | None] = mapped_column(String(12))
    coach_id: Mapped[str | None] = mapped_column(String(36))
    made_by: Mapped[str | None] = mapped_column(String(36))
    created_at: Mapped[datetime] = mapped_column(Instant, default=now)
    expires_at: Mapped[datetime] = mapped_column(Instant)
    used_at: Mapped[datetime | None] = mapped_column(Instant)
