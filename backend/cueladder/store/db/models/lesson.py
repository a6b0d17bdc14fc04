"""Lessons, and the walks of each drill before and after them."""

from __future__ import annotations

from typing import Any

from sqlalchemy import JSON, ForeignKeyConstraint, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from ..engine import Base

Json = JSON(none_as_null=True)
STATES, WHERE = ("fresh", "bouting"), 40


class Setting:
    """In which setting a lesson was given, from its last ``setting_told``; None where none came.

    Attributes:
        giver_id: the coach who gave the cues.
        giver_hand: ``right`` or ``left``.
        place: in the club's own words.
        state: ``fresh``, or after ``bouting``.
    """

    giver_id: Mapped[str | None] = mapped_column(String(36))
    giver_hand: Mapped[str | None] = mapped_column(String(5))
    place: Mapped[str | None] = mapped_column(String(WHERE))
    state: Mapped[str | None] = mapped_column(String(7))


class Lesson(Setting, Base):
    """A lesson, from its ``lesson_opened``.

    Attributes:
        day: local day on the device, ``YYYY-MM-DD``.
        opened_at: device time in UTC with milliseconds, so that it sorts as text.
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


class HeldLesson(Setting, Base):
    """A lesson dated past tomorrow: kept, and counted nowhere until a head coach settles its day.

    Its events are stored as any others. Whatever tells of lessons goes by `Lesson`, so none of them
    is folded, shown or exported as a lesson given; settled, the lesson moves there.
    """

    __tablename__ = "held_lesson"
    __table_args__ = (
        ForeignKeyConstraint(["club_id", "fencer_id"], ["fencer.club_id", "fencer.id"]),
        ForeignKeyConstraint(["club_id", "coach_id"], ["coach.club_id", "coach.id"]),
        Index(None, "club_id", "fencer_id"),
    )
    club_id: Mapped[int] = mapped_column(primary_key=True)
    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    fencer_id: Mapped[str] = mapped_column(String(36))
    coach_id: Mapped[str] = mapped_column(String(36))
    day: Mapped[str] = mapped_column(String(10))
    opened_at: Mapped[str] = mapped_column(String(24))
    closed: Mapped[bool] = mapped_column(default=False)


class LessonDrill(Base):
    """One drill in one lesson with the walks before and after, from which a fold can start.

    ``day`` and ``opened_at`` repeat the lesson's, for the index. Only marks of the
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
    trials: Mapped[int]
