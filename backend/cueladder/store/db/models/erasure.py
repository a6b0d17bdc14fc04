"""What was erased, so that it stays so."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import CheckConstraint, ForeignKey, String
from sqlalchemy.orm import Mapped, mapped_column

from ..engine import Base, Instant, now

KINDS = ("fencer", "lesson")


class Erasure(Base):
    """The number of a fencer or a lesson that was erased. It leads nowhere any more.

    Attributes:
        wiped_at: when its remnants were gone from the database's files; None while some may be
            left.
    """

    __tablename__ = "erasure"
    __table_args__ = (CheckConstraint(f"kind IN {KINDS}", name="kind"),)
    club_id: Mapped[int] = mapped_column(ForeignKey("club.id"), primary_key=True)
    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    kind: Mapped[str] = mapped_column(String(8))
    erased_at: Mapped[datetime] = mapped_column(Instant, default=now)
    wiped_at: Mapped[datetime | None] = mapped_column(Instant)
