"""A club and its coaches."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import JSON, BigInteger, CheckConstraint, ForeignKey, String
from sqlalchemy.orm import Mapped, mapped_column

from ..engine import Base, Instant, now

ROLES = ("head", "coach", "observer")


class Club(Base):
    """A club.

    Attributes:
        seq: the last sequence number used. Writers lock this row until they commit, so that
            numbers become visible in order.
        settings: settings that differ from the defaults, e.g. ``{"retention_days": 730}``.
    """

    __tablename__ = "club"
    id: Mapped[int] = mapped_column(primary_key=True)
    name: Mapped[str] = mapped_column(String(120), unique=True)
    seq: Mapped[int] = mapped_column(BigInteger, default=0)
    settings: Mapped[dict[str, Any]] = mapped_column(JSON, default=dict)
    created_at: Mapped[datetime] = mapped_column(Instant, default=now)


class Coach(Base):
    """A coach's account. ``sign_in`` is the normalised name, unique over all clubs."""

    __tablename__ = "coach"
    __table_args__ = (CheckConstraint(f"role IN {ROLES}", name="role"),)
    club_id: Mapped[int] = mapped_column(ForeignKey("club.id"), primary_key=True)
    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    name: Mapped[str] = mapped_column(String(80))
    sign_in: Mapped[str] = mapped_column(String(160), unique=True)
    passphrase_hash: Mapped[str] = mapped_column(String(200))
    role: Mapped[str] = mapped_column(String(12))
    active: Mapped[bool] = mapped_column(default=True)
    created_at: Mapped[datetime] = mapped_column(Instant, default=now)
