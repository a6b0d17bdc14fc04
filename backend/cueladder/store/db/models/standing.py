"""Fencers' present standings."""

from __future__ import annotations

from typing import Any

from sqlalchemy import JSON, BigInteger, ForeignKeyConstraint, String, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from ..engine import Base


class Standing(Base):
    """The present state of one fencer on one drill: the end of the fold.

    Attributes:
        secure: ``working``, ``secure``, or None before anything is met.
        day: day of the last lesson with this drill.
        seq: the club's sequence number of its last change, for pulls.
    """

    __tablename__ = "standing"
    __table_args__ = (
        ForeignKeyConstraint(["club_id", "fencer_id"], ["fencer.club_id", "fencer.id"]),
        ForeignKeyConstraint(["club_id", "drill_id"], ["drill.club_id", "drill.id"]),
        UniqueConstraint("club_id", "seq"),
    )
    club_id: Mapped[int] = mapped_column(primary_key=True)
    fencer_id: Mapped[str] = mapped_column(String(36), primary_key=True)
    drill_id: Mapped[str] = mapped_column(String(36), primary_key=True)
    walk: Mapped[dict[str, Any]] = mapped_column(JSON)
    suggestion: Mapped[dict[str, Any]] = mapped_column(JSON)
    secure: Mapped[str | None] = mapped_column(String(8))
    day: Mapped[str | None] = mapped_column(String(10))
    seq: Mapped[int] = mapped_column(BigInteger)
