"""Drills, their versions, and the charts these compile to."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import (
    JSON,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    String,
    UniqueConstraint,
)
from sqlalchemy.orm import Mapped, mapped_column

from ..engine import Base, Instant, now


class Chart(Base):
    """A compiled chart, immutable: its id is a digest of its content."""

    __tablename__ = "chart"
    id: Mapped[str] = mapped_column(String(40), primary_key=True)
    body: Mapped[dict[str, Any]] = mapped_column(JSON)


class Drill(Base):
    """A drill of a club; its content is in its versions."""

    __tablename__ = "drill"
    __table_args__ = (UniqueConstraint("club_id", "slug"),)
    club_id: Mapped[int] = mapped_column(ForeignKey("club.id"), primary_key=True)
    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    slug: Mapped[str] = mapped_column(String(80))
    version: Mapped[int] = mapped_column(default=1)
    archived: Mapped[bool] = mapped_column(default=False)


class DrillVersion(Base):
    """A version of a drill. Old ones stay, as trials were judged by them."""

    __tablename__ = "drill_version"
    __table_args__ = (
        ForeignKeyConstraint(["club_id", "drill_id"], ["drill.club_id", "drill.id"]),
        Index(None, "club_id", "chart_id"),
    )
    club_id: Mapped[int] = mapped_column(primary_key=True)
    drill_id: Mapped[str] = mapped_column(String(36), primary_key=True)
    version: Mapped[int] = mapped_column(primary_key=True)
    document: Mapped[dict[str, Any]] = mapped_column(JSON)
    chart_id: Mapped[str] = mapped_column(ForeignKey("chart.id"))
    coach_id: Mapped[str | None] = mapped_column(String(36))
    created_at: Mapped[datetime] = mapped_column(Instant, default=now)
