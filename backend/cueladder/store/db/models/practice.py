"""Practice at home, ticked off by the fencer."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKeyConstraint, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from ..engine import Base, Instant, now


class Practice(Base):
    """A drill practised at home on one day, the server's local day."""

    __tablename__ = "practice"
    __table_args__ = (
        ForeignKeyConstraint(["club_id", "fencer_id"], ["fencer.club_id", "fencer.id"]),
        ForeignKeyConstraint(["club_id", "drill_id"], ["drill.club_id", "drill.id"]),
        Index(None, "club_id", "drill_id"),
    )
    club_id: Mapped[int] = mapped_column(primary_key=True)
    fencer_id: Mapped[str] = mapped_column(String(36), primary_key=True)
    drill_id: Mapped[str] = mapped_column(String(36), primary_key=True)
    day: Mapped[str] = mapped_column(String(10), primary_key=True)
    ticked_at: Mapped[datetime] = mapped_column(Instant, default=now)
