"""The audit trail of fencers' records."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import BigInteger, ForeignKey, Index, Integer, String
from sqlalchemy.orm import Mapped, mapped_column

from ..engine import Base, Instant, now


class Audit(Base):
    """A look at a fencer's record or a change of it, without names or values.

    Attributes:
        fencer_id: kept after the fencer was erased, as a dangling id.
        coach_id: who; None for whoever opened a progress link, and for the retention command.
        action: one of `store.log.audit.ACTIONS`.
        fields: comma-separated names of changed fields.
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
