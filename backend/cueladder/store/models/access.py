"""Devices, sign-ins and pairing codes."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKeyConstraint, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from ..db import Base, Instant, now


class Device(Base):
    """A phone or computer a coach has signed in on; ``name`` is what the coach calls it."""

    __tablename__ = "device"
    __table_args__ = (
        ForeignKeyConstraint(["club_id", "coach_id"], ["coach.club_id", "coach.id"]),
        Index(None, "club_id", "coach_id"),
    )
    club_id: Mapped[int] = mapped_column(primary_key=True)
    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    coach_id: Mapped[str] = mapped_column(String(36))
    label: Mapped[str] = mapped_column(String(120))
    name: Mapped[str | None] = mapped_column(String(60))
    first_seen: Mapped[datetime] = mapped_column(Instant, default=now)
    last_seen: Mapped[datetime] = mapped_column(Instant, default=now)
    revoked_at: Mapped[datetime | None] = mapped_column(Instant)


class SignIn(Base):
    """A session on a device; only the SHA-256 of the cookie's token is kept."""

    __tablename__ = "sign_in"
    __table_args__ = (
        ForeignKeyConstraint(["club_id", "coach_id"], ["coach.club_id", "coach.id"]),
        ForeignKeyConstraint(["club_id", "device_id"], ["device.club_id", "device.id"]),
        Index(None, "club_id", "device_id"),
        Index(None, "club_id", "coach_id"),
    )
    token_hash: Mapped[str] = mapped_column(String(64), primary_key=True)
    club_id: Mapped[int]
    coach_id: Mapped[str] = mapped_column(String(36))
    device_id: Mapped[str] = mapped_column(String(36))
    created_at: Mapped[datetime] = mapped_column(Instant, default=now)
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
