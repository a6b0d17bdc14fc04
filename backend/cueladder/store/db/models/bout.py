"""Bouts that were watched for one drill's action."""

from __future__ import annotations

from sqlalchemy import ForeignKeyConstraint, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from ..engine import Base


class Bout(Base):
    """A bout, from its last ``bout_watched``.

    Attributes:
        coach_id: who watched.
        drill_id: the drill whose action was watched for.
        day: local day on the device, ``YYYY-MM-DD``.
        watched_at: device time in UTC with milliseconds.
        met, answered: real ones the fencer met, and answered.
        shown, fallen: feints shown to the fencer, and fallen for.
        scored, conceded: touches by the action, for and against.
        voided: whether it was taken back.
    """

    __tablename__ = "bout"
    __table_args__ = (
        ForeignKeyConstraint(["club_id", "fencer_id"], ["fencer.club_id", "fencer.id"]),
        ForeignKeyConstraint(["club_id", "coach_id"], ["coach.club_id", "coach.id"]),
        Index(None, "club_id", "fencer_id", "day"),
    )
    club_id: Mapped[int] = mapped_column(primary_key=True)
    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    fencer_id: Mapped[str] = mapped_column(String(36))
    coach_id: Mapped[str] = mapped_column(String(36))
    drill_id: Mapped[str] = mapped_column(String(36))
    day: Mapped[str] = mapped_column(String(10))
    watched_at: Mapped[str] = mapped_column(String(24))
    met: Mapped[int]
    answered: Mapped[int]
    shown: Mapped[int]
    fallen: Mapped[int]
    scored: Mapped[int]
    conceded: Mapped[int]
    voided: Mapped[bool]
