"""Planned lessons."""

from __future__ import annotations

from typing import Any

from sqlalchemy import JSON, ForeignKeyConstraint, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from ..engine import Base


class Booking(Base):
    """A planned lesson; ``plan`` is a list of ``{drill, role, minutes}``."""

    __tablename__ = "booking"
    __table_args__ = (
        ForeignKeyConstraint(["club_id", "fencer_id"], ["fencer.club_id", "fencer.id"]),
        Index(None, "club_id", "day"),
        Index(None, "club_id", "fencer_id"),
    )
    club_id: Mapped[int] = mapped_column(primary_key=True)
    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    day: Mapped[str] = mapped_column(String(10))
    at: Mapped[str] = mapped_column(String(5))
    fencer_id: Mapped[str] = mapped_column(String(36))
    coach_id: Mapped[str] = mapped_column(String(36))
    minutes: Mapped[int]
    plan: Mapped[list[dict[str, Any]]] = mapped_column(JSON)
