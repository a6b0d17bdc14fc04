"""Sets that another fencer gave by a card."""

from __future__ import annotations

from sqlalchemy import ForeignKeyConstraint, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from ..engine import Base


class PartnerSet(Base):
    """A set, from its last ``partner_marked``; who the partner was is not kept.

    Attributes:
        coach_id: who entered it.
        day: local day on the device, ``YYYY-MM-DD``.
        entered_at: device time in UTC with milliseconds.
        chart: the chart of the card's rungs; ``place`` the rung on it.
        card: the card's code.
        cues: a letter a cue: a to be answered, d to be left alone.
        ticks: in that order: 1 right, 0 not right, - not given.
        voided: whether it was taken back.
    """

    __tablename__ = "partner_set"
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
    entered_at: Mapped[str] = mapped_column(String(24))
    chart: Mapped[str] = mapped_column(String(40))
    place: Mapped[int]
    card: Mapped[str] = mapped_column(String(20))
    cues: Mapped[str] = mapped_column(String(40))
    ticks: Mapped[str] = mapped_column(String(40))
    voided: Mapped[bool]
