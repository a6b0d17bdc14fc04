"""Plans by chance: in which order a fencer's drills are begun, as it was drawn."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import JSON, ForeignKeyConstraint, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from ..engine import Base, Instant, now


class Draw(Base):
    """An order drawn by chance. Nothing of it changes any more but that it may be withdrawn.

    Attributes:
        coach_id: who had it drawn.
        seed: what the order was drawn with, see `evidence.by_chance.drawn`.
        drills: three to five, in the order in which they are begun.
        begins: for each the earliest day of a lesson with it, ``YYYY-MM-DD``.
        first, last: bout days that count.
        withdrawn_at, withdrawn_by: when it was given up, and by whom; it is not judged then.
    """

    __tablename__ = "draw"
    __table_args__ = (
        ForeignKeyConstraint(["club_id", "fencer_id"], ["fencer.club_id", "fencer.id"]),
        ForeignKeyConstraint(["club_id", "coach_id"], ["coach.club_id", "coach.id"]),
        Index(None, "club_id", "fencer_id"),
    )
    club_id: Mapped[int] = mapped_column(primary_key=True)
    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    fencer_id: Mapped[str] = mapped_column(String(36))
    coach_id: Mapped[str] = mapped_column(String(36))
    drawn_at: Mapped[datetime] = mapped_column(Instant, default=now)
    seed: Mapped[str] = mapped_column(String(64))
    drills: Mapped[list[str]] = mapped_column(JSON)
    begins: Mapped[list[str]] = mapped_column(JSON)
    first: Mapped[str] = mapped_column(String(10))
    last: Mapped[str] = mapped_column(String(10))
    withdrawn_at: Mapped[datetime | None] = mapped_column(Instant)
    withdrawn_by: Mapped[str | None] = mapped_column(String(36))
