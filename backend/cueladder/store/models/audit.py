"""Who looked at a fencer's record, and who changed it."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import BigInteger, ForeignKey, Index, Integer, String
from sqlalchemy.orm import Mapped, mapped_column

from ..db import Base, Instant, now


class Audit(Base):
    """One look at a fencer's record or one change of it. It carries no name and no value.

    Attributes:
        fencer_id: stays after the fencer was erased, when it leads nowhere any more.
        coach_id: who; None for whoever opened a progress link, and for the retention command.
        action: one of `store.audit.ACTIONS`.
        fields: names of changed fields, with commas between.
    """

    __tablename__ = "audit"
    __table_args__ = (Index(None, "club_id", "fencer_id", "id"),)
    id: Mapped[int] = mapped_column(BigInteger().with_variant(Integer, "sqlite"), primary_key=True)
    club_id: Mapped[int] = mapped_column(ForeignKey("club.id"))
    fencer_id: Mapped[str] = mapped_column(String(36))
    coach_id: Mapped[str | None] = mapped_column(String(36))
    action: Mapped[str] = mapped_column(String(16))
    fields: Mapped[str | None] = mapped_column(String(200))
    at: Mapped[datetime] = mapped_column(Instant, default=now)
