"""Lessons, and where each drill stood before and after each of them."""

from __future__ import annotations

from typing import Any

from sqlalchemy import JSON, ForeignKeyConstraint, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from ..db import Base

Json = JSON(none_as_null=True)


class Lesson(Base):
    """A lesson, from its ``lesson_opened``.

    Attributes:
        day: local day on the device, ``YYYY-MM-DD``.
        opened_at: the device's clock in UTC with milliseconds, so that text order is time order.
    """

    __tablename__ = "lesson"
    __table_args__ = (
        ForeignKeyConstraint(["club_id", "fencer_id"], ["fencer.club_id", "fencer.id"]),
        ForeignKeyConstraint(["club_id", "coach_id"], ["coach.club_id", "coach.id"]),
        Index(None, "club_id", "fencer_id", "day"),
        Index(None, "club_id", "day"),
    )
    club_id: Mapped[int] = mapped_column(primary_key=True)
    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    fencer_id: Mapped[str] = mapped_column(String(36))
    coach_id: Mapped[str] = mapped_column(String(36))
    day: Mapped[str] = mapped_column(String(10))
    opened_at: Mapped[str] = mapped_column(String(24))
    closed: Mapped[bool] = mapped_column(default=False)


class LessonDrill(Base):
    """One drill in one lesson: the walk before and after, so that a fold can start here.

    ``day`` and ``opened_at`` repeat the lesson's, to be ordered by one index. Only marks of the
    lesson's own coach are walked; ``trials`` counts those that were not voided.
    """

    __tablename__ = "lesson_drill"
    __table_args__ = (
        ForeignKeyConstraint(["club_id", "lesson_id"], ["lesson.club_id", "lesson.id"]),
        Index(
            "ix_lesson_drill_order",
            "club_id",
            "fencer_id",
            "drill_id",
            "day",
            "opened_at",
            "lesson_id",
        ),
    )
    club_id: Mapped[int] = mapped_column(primary_key=True)
    lesson_id: Mapped[str] = mapped_column(String(36), primary_key=True)
    drill_id: Mapped[str] = mapped_column(String(36), primary_key=True)
    fencer_id: Mapped[str] = mapped_column(String(36))
    day: Mapped[str] = mapped_column(String(10))
    opened_at: Mapped[str] = mapped_column(String(24))
    before: Mapped[dict[str, Any] | None] = mapped_column(Json)
    after: Mapped[dict[str, Any]] = mapped_column(Json)
    move: Mapped[str] = mapped_column(String(8))
    suggestion: Mapped[dict[str, Any]] = mapped_column(Json)
    trials: Mapped[int]
