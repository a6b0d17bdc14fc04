"""Competitions of a club, and goals of fencers by them."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey, ForeignKeyConstraint, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from ..engine import Base, Instant, now

NAME = 80


class Competition(Base):
    """A competition: its name and its day, and nothing of how anyone came out of it."""

    __tablename__ = "competition"
    __table_args__ = (
        ForeignKeyConstraint(["club_id", "coach_id"], ["coach.club_id", "coach.id"]),
        Index(None, "club_id", "day"),
    )
    club_id: Mapped[int] = mapped_column(ForeignKey("club.id"), primary_key=True)
    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    name: Mapped[str] = mapped_column(String(NAME))
    day: Mapped[str] = mapped_column(String(10))
    coach_id: Mapped[str] = mapped_column(String(36))
    created_at: Mapped[datetime] = mapped_column(Instant, default=now)


class Goal(Base):
    """A drill that is to be secure in two settings by a competition; one a fencer and drill.

    Attributes:
        coach_id: who set it.
    """

    __tablename__ = "goal"
    __table_args__ = (
        ForeignKeyConstraint(["club_id", "fencer_id"], ["fencer.club_id", "fencer.id"]),
        ForeignKeyConstraint(["club_id", "drill_id"], ["drill.club_id", "drill.id"]),
        ForeignKeyConstraint(
            ["club_id", "competition_id"], ["competition.club_id", "competition.id"]
        ),
        ForeignKeyConstraint(["club_id", "coach_id"], ["coach.club_id", "coach.id"]),
        Index(None, "club_id", "competition_id"),
    )
    club_id: Mapped[int] = mapped_column(primary_key=True)
    fencer_id: Mapped[str] = mapped_column(String(36), primary_key=True)
    drill_id: Mapped[str] = mapped_column(String(36), primary_key=True)
    competition_id: Mapped[str] = mapped_column(String(36))
    coach_id: Mapped[str] = mapped_column(String(36))
    set_at: Mapped[datetime] = mapped_column(Instant, default=now)
