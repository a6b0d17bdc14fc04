"""Links to a progress page."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKeyConstraint, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from ..engine import Base, Instant, now


class ProgressLink(Base):
    """A progress link; only the SHA-256 of its token is stored."""

    __tablename__ = "progress_link"
    __table_args__ = (
        ForeignKeyConstraint(["club_id", "fencer_id"], ["fencer.club_id", "fencer.id"]),
        Index(None, "club_id", "fencer_id"),
    )
    token_hash: Mapped[str] = mapped_column(String(64), primary_key=True)
    club_id: Mapped[int]
    fencer_id: Mapped[str] = mapped_column(String(36))
    coach_id: Mapped[str] = mapped_column(String(36))
    created_at: Mapped[datetime] = mapped_column(Instant, default=now)
    expires_at: Mapped[datetime] = mapped_column(Instant)
    revoked_at: Mapped[datetime | None] = mapped_column(Instant)
    opened_at: Mapped[datetime | None] = mapped_column(Instant)
