"""Drills of a club; every change is a new version."""

from __future__ import annotations

import re
import unicodedata
import uuid
from collections.abc import Mapping
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from ...rules import Chart, RuleError, check_reach, compile_chart
from ...rules import Drill as RuleDrill
from ...rules.chart import VERSION
from ...rules.draft import NO_SLUG
from ...rules.said import say
from ..db.engine import db, writing
from ..db.models import Club, Coach, Drill, DrillVersion
from ..log.charts import chart_of, keep_chart
from ..log.counter import hold_club
from ..log.fields import is_id
from ..problems import Clash, Missing

Version = tuple[Drill, DrillVersion]


def drills_of(club_id: int) -> list[Version]:
    """A club's drills in their present versions."""
    rows = db.session.execute(_now(club_id).order_by(Drill.slug))
    return [(drill, version) for drill, version in rows]


def drill_in(club_id: int, drill_id: str) -> Version:
    """Look up a drill's present version within the club."""
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
    """Add a drill; does nothing if the id exists already.

    A missing slug is made from the name.

    Returns:
        The drill with its version, and whether it is new.

    Raises:
        RuleError: the document is no drill, or its rule can never be met; names the field.
        Clash: the slug is taken by another drill.
    """
    named = "slug" in document
    checked = RuleDrill.from_json(document if named else {**document, "slug": NO_SLUG})
    chart = compile_chart(checked)  # here, not under the lock for which every other writer waits
    drill_id = drill_id or str(uuid.uuid4())
    with writing() as session:
        hold_club(session, club_id)
        if session.get(Drill, (club_id, drill_id)) is not None:
            return drill_in(club_id, drill_id), False
        if not named:
            document = {**document, "slug": _free_slug(session, club_id, checked.texts["name"])}
            checked = RuleDrill.from_json(document)
        _check_slug(session, club_id, checked.slug, drill_id)
        check_reach(chart)
        drill = Drill(club_id=club_id, id=drill_id, slug=checked.slug, version=1, archived=False)
        session.add(drill)
        session.flush()
        version = _add_version(session, drill, chart, document, coach_id)
    return (drill, version), True


def change_drill(
    club_id: int, drill_id: str, document: Mapping[str, Any], archived: bool, coach_id: str
) -> Version:
    """Add a new version of a drill, unless the document is unchanged.

    An own drill of before languages has none in its document; the coach's language alone is no
    change.
    """
    checked = RuleDrill.from_json(document)
    chart = compile_chart(checked)  # not under the lock, see `add_drill`
    with writing() as session:
        hold_club(session, club_id)
        drill, version = drill_in(club_id, drill_id)
        _check_slug(session, club_id, checked.slug, drill_id)
        drill.slug, drill.archived = checked.slug, archived
        if _said(version.document) != _said(document):
            check_reach(chart)
            drill.version += 1
            version = _add_version(session, drill, chart, document, coach_id)
    return drill, version


def renew_charts() -> int:
    """Give each drill whose chart is of an older version one of today; returns how many.

    The document stays as it is; marks stay judged by the chart they were given under, and each
    fencer is carried over at the first touch.
    """
    renewed = 0
    for club_id in db.session.scalars(select(Club.id)).all():
        with writing() as session:
            hold_club(session, club_id)
            for drill, version in session.execute(_now(club_id)).all():
                if chart_of(version.chart_id).version == VERSION:
                    continue
                try:
                    chart = compile_chart(RuleDrill.from_json(version.document))
                except RuleError:
                    continue  # its rule has become too large: it goes on with the chart it has
                drill.version += 1
                _add_version(session, drill, chart, version.document, None)
                renewed += 1
    return renewed


def versions_of(club_id: int, drill_id: str) -> list[tuple[DrillVersion, str | None]]:
    """All versions of a drill with their authors' names, newest first."""
    drill_in(club_id, drill_id)
    same = (Coach.club_id == DrillVersion.club_id) & (Coach.id == DrillVersion.coach_id)
    rows = db.session.execute(
        select(DrillVersion, Coach.name)
        .outerjoin(Coach, same)
        .where(DrillVersion.club_id == club_id, DrillVersion.drill_id == drill_id)
        .order_by(DrillVersion.version.desc())
    )
    return [(version, name) for version, name in rows]


def _now(club_id: int) -> Any:
    same = (
        (DrillVersion.club_id == Drill.club_id)
        & (DrillVersion.drill_id == Drill.id)
        & (DrillVersion.version == Drill.version)
    )
    return select(Drill, DrillVersion).join(DrillVersion, same).where(Drill.club_id == club_id)


def _said(document: Mapping[str, Any]) -> dict[str, Any]:
    return {field: value for field, value in document.items() if field != "language"}


def _check_slug(session: Session, club_id: int, slug: str, drill_id: str) -> None:
    other = session.scalar(select(Drill.id).where(Drill.club_id == club_id, Drill.slug == slug))
    if other not in (None, drill_id):
        raise Clash(say("is taken by another drill: choose another"), "slug")


def _free_slug(session: Session, club_id: int, name: str) -> str:
    """A slug from the drill's name that is unique in the club."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    stem = re.sub(r"[^a-z0-9]+", "-", plain)[:70].strip("-") or "drill"
    taken = set(session.scalars(select(Drill.slug).where(Drill.club_id == club_id)))
    slug, n = stem, 2
    while slug in taken:
        slug, n = f"{stem}-{n}", n + 1
    return slug


def _add_version(
    session: Session,
    drill: Drill,
    chart: Chart,
    document: Mapping[str, Any],
    coach_id: str | None,
) -> DrillVersion:
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
