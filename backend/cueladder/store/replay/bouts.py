"""A fencer's bouts, counted by drill."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlalchemy import func, select

from ...evidence.by_chance import Watched
from ..db.engine import db
from ..db.models import Bout, Drill, DrillVersion
from ..log.bouts import COUNTS
from ..log.known import latest

# Of each drill the newest are counted: older bouts tell of another time.
MOST = 20
READ = 400


@dataclass
class Tally:
    """Bouts watched for one drill's action, the newest.

    Attributes:
        bouts: how many; ``last`` the day of the newest.
        met, answered: real ones the fencer met, and answered.
        shown, fallen: feints shown, and fallen for.
        scored, conceded: touches by the action, for and against.
    """

    last: str
    bouts: int = 0
    met: int = 0
    answered: int = 0
    shown: int = 0
    fallen: int = 0
    scored: int = 0
    conceded: int = 0


def documents_of(club_id: int, drills: list[str]) -> dict[str, dict[str, Any]]:
    """The present documents of these drills, archived ones too, by drill."""
    same = (DrillVersion.drill_id == Drill.id) & (DrillVersion.version == Drill.version)
    rows = db.session.execute(
        select(Drill.id, DrillVersion.document)
        .join(DrillVersion, (DrillVersion.club_id == Drill.club_id) & same)
        .where(Drill.club_id == club_id, Drill.id.in_(drills))
    )
    return {drill: document for drill, document in rows}


def bouts_of(club_id: int, fencer_id: str) -> dict[str, Tally]:
    """The fencer's newest bouts by drill, the drill watched for last first.

    What was taken back, and what is dated past tomorrow, is left out.
    """
    rows = db.session.scalars(
        select(Bout)
        .where(
            Bout.club_id == club_id,
            Bout.fencer_id == fencer_id,
            Bout.day <= latest(),
            Bout.voided.is_(False),
        )
        .order_by(Bout.day.desc(), Bout.watched_at.desc(), Bout.id.desc())
        .limit(READ)
    )
    found: dict[str, Tally] = {}
    for row in rows:
        tally = found.setdefault(row.drill_id, Tally(row.day))
        if tally.bouts == MOST:
            continue
        tally.bouts += 1
        for name in COUNTS:
            setattr(tally, name, getattr(tally, name) + getattr(row, name))
    return found


def watched_in(
    club_id: int, fencer_id: str, drills: Sequence[str], first: str, last: str
) -> list[Watched]:
    """The fencer's bouts for these drills' actions, a day's added up, from a day to another.

    What was taken back, and what is dated past tomorrow, is left out.
    """
    rows = db.session.execute(
        select(Bout.drill_id, Bout.day, func.sum(Bout.answered), func.sum(Bout.met))
        .where(
            Bout.club_id == club_id,
            Bout.fencer_id == fencer_id,
            Bout.drill_id.in_(drills),
            Bout.day >= first,
            Bout.day <= min(last, latest()),
            Bout.voided.is_(False),
        )
        .group_by(Bout.drill_id, Bout.day)
        .order_by(Bout.day, Bout.drill_id)
    )
    return [
        Watched(drill, date.fromisoformat(day), int(met), int(chances))
        for drill, day, met, chances in rows
    ]
