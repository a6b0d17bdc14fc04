"""Records of persons, mostly minors: taken out, erased, kept for a while, watched over."""

from __future__ import annotations

from typing import Any

from flask import Response
from flask_smorest import Blueprint
from marshmallow import Schema, fields, validate

from ..store import erase, export, retention
from ..store.audit import MOST, audit_of, note_look
from ..store.db import db, now
from ..store.event_fields import LARGEST, Whole
from ..store.fencers import fencer_in
from ..store.practice import practised
from .fields import Query
from .guard import HEADS, actor, signed_in

blueprint = Blueprint("records", __name__, url_prefix="/api", description="Records of persons")

# A year of practice at home is shown.
PRACTICE_DAYS = 366


class SettingsSchema(Schema):
    """Days without a lesson after which a fencer's records go; null for never."""

    retention_days = Whole(retention.SHORTEST, retention.LONGEST, allow_none=True)


class PageQuery(Query):
    """Where to read on in a list that begins with the newest."""

    before = fields.Integer(load_default=None, validate=validate.Range(1, LARGEST))
    limit = fields.Integer(load_default=MOST, validate=validate.Range(1, MOST))


class DaysQuery(Query):
    """A setting to try out."""

    days = fields.Integer(
        required=True, validate=validate.Range(retention.SHORTEST, retention.LONGEST)
    )


@blueprint.get("/fencers/<fencer_id>/record")
@signed_in(*HEADS)
@blueprint.response(200)
def record(fencer_id: str) -> dict[str, Any]:
    """How much is kept about a fencer, the consent, and the days of practice at home."""
    club_id = actor().club_id
    kept = export.count_kept(club_id, fencer_id)
    fencer = fencer_in(db.session(), club_id, fencer_id)
    told = {
        "nickname": fencer.nickname,
        "consent": fencer.consent.isoformat() if fencer.consent else None,
        "since": fencer.created_at.isoformat(),
        "kept": kept,
        "practice": practised(club_id, fencer_id, now().astimezone().date(), PRACTICE_DAYS),
    }
    note_look(club_id, fencer_id, actor().coach_id)
    return told


@blueprint.get("/fencers/<fencer_id>/export")
@signed_in(*HEADS)
@blueprint.response(200)
def as_json(fencer_id: str) -> dict[str, Any]:
    """Everything that is kept about a fencer."""
    told = export.export_fencer(actor().club_id, fencer_id)
    note_look(actor().club_id, fencer_id, actor().coach_id, "exported")
    return told


@blueprint.get("/fencers/<fencer_id>/export.zip")
@signed_in(*HEADS)
def as_package(fencer_id: str) -> Response:
    """The same as a zip of CSV tables with a data dictionary (a Data Package), and the JSON."""
    answer = Response(export.export_package(actor().club_id, fencer_id), mimetype="application/zip")
    note_look(actor().club_id, fencer_id, actor().coach_id, "exported")
    # the file's name tells no one whose it is
    answer.headers["Content-Disposition"] = f'attachment; filename="fencer-{fencer_id[:8]}.zip"'
    return answer


@blueprint.delete("/fencers/<fencer_id>")
@signed_in(*HEADS)
@blueprint.response(204)
def erase_all(fencer_id: str) -> None:
    """Erase a fencer with everything about them. There is no way back."""
    erase.erase_fencer(actor().club_id, fencer_id, actor().coach_id)
    erase.wipe_remnants()


@blueprint.get("/fencers/<fencer_id>/audit")
@signed_in(*HEADS)
@blueprint.arguments(PageQuery, location="query")
@blueprint.response(200)
def audit_of_fencer(query: dict[str, Any], fencer_id: str) -> dict[str, Any]:
    """Who looked at this fencer's record and who changed it, newest first."""
    fencer_in(db.session(), actor().club_id, fencer_id)
    return _audit(query, fencer_id)


@blueprint.get("/audit")
@signed_in(*HEADS)
@blueprint.arguments(PageQuery, location="query")
@blueprint.response(200)
def audit_of_club(query: dict[str, Any]) -> dict[str, Any]:
    """The newest entries of the club, those on erased fencers too."""
    return _audit(query)


@blueprint.get("/club/retention")
@signed_in(*HEADS)
@blueprint.arguments(DaysQuery, location="query")
@blueprint.response(200)
def preview(query: dict[str, int]) -> dict[str, Any]:
    """Whom a setting of so many days would concern today; nothing is set or erased."""
    today = now().astimezone().date()
    return {
        "due": [
            {
                "fencer": each.fencer_id,
                "nickname": each.nickname,
                "last": each.last.isoformat(),
                "events": each.events,
            }
            for each in retention.due_after(actor().club_id, query["days"], today)
        ]
    }


@blueprint.get("/club/settings")
@signed_in(*HEADS)
@blueprint.response(200)
def settings() -> dict[str, Any]:
    """What the club has set."""
    return {"retention_days": retention.retention_days(actor().club_id)}


@blueprint.patch("/club/settings")
@signed_in(*HEADS)
@blueprint.arguments(SettingsSchema)
@blueprint.response(200)
def change_settings(body: dict[str, int | None]) -> dict[str, Any]:
    """Set how long records are kept; ``cueladder retention`` lists and erases what is due."""
    retention.set_retention(actor().club_id, body["retention_days"])
    return {"retention_days": body["retention_days"]}


def _audit(query: dict[str, Any], fencer_id: str | None = None) -> dict[str, Any]:
    entries, older = audit_of(actor().club_id, fencer_id, query["before"], query["limit"])
    return {"audit": entries, "next": older}
