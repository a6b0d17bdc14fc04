"""What a club's own lessons taught: figures of all fencers together."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import JSON, ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from ..engine import Base, Instant


class Learned(Base):
    """The last look at a club's lessons. Gone with the first fencer that is erased, until the next.

    Attributes:
        asked_at: when it was last asked for.
        done_at: when the figures were found; None before the first.
        figures: one entry a kind of drill, see `evidence.learning.whole`.
        trouble: whether the last try failed.
    """

    __tablename__ = "learned"
    club_id: Mapped[int] = mapped_column(ForeignKey("club.id"), primary_key=True)
    asked_at: Mapped[datetime] = mapped_column(Instant)
    done_at: Mapped[datetime | None] = mapped_column(Instant)
    figures: Mapped[list[dict[str, Any]]] = mapped_column(JSON, default=list)
    trouble: Mapped[bool] = mapped_column(default=False)
