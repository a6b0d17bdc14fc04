"""Drills of a club: a change makes a new version, never another past."""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from ..rules import Drill as RuleDrill
from ..rules import compile_chart
from ..rules.said import say
from .charts import keep_chart
from .counter import hold_club
from .db import db, writing
from .event_fields import is_id
from .models import Drill, DrillVersion
from .problems import Clash, Missing

Version = tuple[Drill, DrillVersion]


def drills_of(club_id: int) -> list[Version]:
    """The drills of a club as they are now."""
    rows = db.session.execute(_now(club_id).order_by(Drill.slug))
    return [(drill, version) for drill, version in rows]


def drill_in(club_id: int, drill_id: str) -> Version:
    """A drill as it is now, looked up within the club."""
    wanted = _now(club_id).where(Drill.id == drill_id)
    row = db.session.execute(wanted).first() if is_id(drill_id) else None
    if row is None:
        raise Missing(say("No such drill in this club."))
    return row[0], row[1]


def add_drill(
    club_id: int,
    document: Mapping[str, Any],
    coach_id: str | None = None,
    drill_id: str | None = None,
) -> tuple[Version, bool]:
    """Add a drill; sent again with the same id it is there already.

    Returns:
        The drill with its version, and whether it is new.

    Raises:
        RuleError: the document is no drill; names the field.
        Clash: the slug is taken by another drill.
    """
    checked = RuleDrill.from_json(document)
    drill_id = drill_id or str(uuid.uuid4())
    with writing() as session:
        hold_club(session, club_id)
        if session.get(Drill, (club_id, drill_id)) is not None:
            return drill_in(club_id, drill_id), False
        _check_slug(session, club_id, checked.slug, drill_id)
        drill = Drill(club_id=club_id, id=drill_id, slug=checked.slug, version=1, archived=False)
        session.add(drill)
        session.flush()
        version = _add_version(session, drill, checked, document, coach_id)
    return (drill, version), True


def change_drill(
    club_id: int, drill_id: str, document: Mapping[str, Any], archived: bool, coach_id: str
) -> Version:
    """Give a drill a new version, unless the document is what it was."""
    checked = RuleDrill.from_json(document)
    with writing() as session:
        hold_club(session, club_id)
        drill, version = drill_in(club_id, drill_id)
        _check_slug(session, club_id, checked.slug, drill_id)
        drill.slug, drill.archived = checked.slug, archived
        if version.document != document:
            drill.version += 1
            version = _add_version(session, drill, checked, document, coach_id)
    return drill, version


def _now(club_id: int) -> Any:
    same = (
        (DrillVersion.club_id == Drill.club_id)
        & (DrillVersion.drill_id == Drill.id)
        & (DrillVersion.version == Drill.version)
    )
    return select(Drill, DrillVersion).join(DrillVersion, same).where(Drill.club_id == club_id)


def _check_slug(session: Session, club_id: int, slug: str, drill_id: str) -> None:
    other = session.scalar(select(Drill.id).where(Drill.club_id == club_id, Drill.slug == slug))
    if other not in (None, drill_id):
        raise Clash(say("is taken by another drill: choose another"), "slug")


def _add_version(
    session: Session,
    drill: Drill,
    checked: RuleDrill,
    document: Mapping[str, Any],
    coach_id: str | None,
) -> DrillVersion:
    chart = compile_chart(checked)
    keep_chart(session, chart)
    version = DrillVersion(
        club_id=drill.club_id,
        drill_id=drill.id,
        version=drill.version,
        document=dict(document),
        chart_id=chart.id,
        coach_id=coach_id,
    )
    session.add(version)
    return version
