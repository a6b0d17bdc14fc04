"""Devices that are signed in, and pairing codes."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKeyConstraint, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from ..engine import Base, Instant, now


class Device(Base):
    """A browser in which a coach is signed in. The row is the sign-in: without it nobody is in.

    A device belongs to one person. Its id is made here; what a browser says of itself proves
    nothing, only the token in its cookie does.

    Attributes:
        token_hash: SHA-256 of that token.
        label: what the browser calls itself.
        name: what the coach calls it.
        expires_at: when the sign-in ends if it is not used.
    """

    __tablename__ = "device"
    __table_args__ = (
        ForeignKeyConstraint(["club_id", "coach_id"], ["coach.club_id", "coach.id"]),
        Index(None, "club_id", "coach_id"),
    )
    club_id: Mapped[int] = mapped_column(primary_key=True)
    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    coach_id: Mapped[str] = mapped_column(String(36))
    token_hash: Mapped[str] = mapped_column(String(64), unique=True)
    label: Mapped[str] = mapped_column(String(120))
    name: Mapped[str | None] = mapped_column(String(60))
    first_seen: Mapped[datetime] = mapped_column(Instant, default=now)
    last_seen: Mapped[datetime] = mapped_column(Instant, default=now)
    expires_at: Mapped[datetime] = mapped_column(Instant)


class Pairing(Base):
    """A one-time code that signs in a second device of the same coach."""

    __tablename__ = "pairing"
    __table_args__ = (
        ForeignKeyConstraint(["club_id", "coach_id"], ["coach.club_id", "coach.id"]),
        Index(None, "club_id", "coach_id"),
    )
    code_hash: Mapped[str] = mapped_column(String(64), primary_key=True)
    club_id: Mapped[int]
    coach_id: Mapped[str] = mapped_column(String(36))
    expires_at: Mapped[datetime] = mapped_column(Instant)
    used_at: Mapped[datetime | None] = mapped_column(Instant)
