"""Personal records: export, erasure, retention, audit. Most are of minors."""

from __future__ import annotations

from typing import Any

from flask import Response, current_app, jsonify
from marshmallow import Schema, fields, validate

from ..rules.said import later, say
from ..store.db.engine import db, now
from ..store.fencers import erase
from ..store.fencers.edit import fencer_in
from ..store.fencers.remnants import waiting
from ..store.log.audit import MOST, audit_of, note_look
from ..store.log.fields import LARGEST, Whole
from ..store.records import export, retention
from ..store.replay.practice import practised
from .blueprint import Blueprint
from .fields import Query
from .guard import HEADS, actor, signed_in
from .replies.base import FILE, Words
from .replies.records import (
    AuditSchema,
    ExportSchema,
    RecordSchema,
    RetentionSchema,
    SettingsSchema,
)

blueprint = Blueprint("records", __name__, url_prefix="/api", description="Records of persons")

# How far back practice at home is listed.
PRACTICE_DAYS = 366


LEFT = later(
    "Erased from every list. Traces are left in the database's files for now, as they are in use. "
    "The server tries again by itself until they are gone; the club's records page says so."
)


class NewSettingsSchema(Schema):
    """Days without a lesson after which a fencer's records go; null for never."""

    retention_days = Whole(retention.SHORTEST, retention.LONGEST, allow_none=True)


class PageQuery(Query):
    """A page of a newest-first list."""

    before = fields.Integer(load_default=None, validate=validate.Range(1, LARGEST))
    limit = fields.Integer(load_default=MOST, validate=validate.Range(1, MOST))


class DaysQuery(Query):
    """A retention setting to preview."""

    days = fields.Integer(
        required=True, validate=validate.Range(retention.SHORTEST, retention.LONGEST)
    )


@blueprint.get("/fencers/<fencer_id>/record")
@signed_in(*HEADS)
@blueprint.response(200, RecordSchema)
def record(fencer_id: str) -> dict[str, Any]:
    """Summary of a fencer's record: rows by table, consent, practice at home."""
    club_id = actor().club_id
    kept = export.count_kept(club_id, fencer_id)
    fencer = fencer_in(db.session(), club_id, fencer_id)
    told = {
        "nickname": fencer.nickname,
        "consent": fencer.consent,
        "since": fencer.created_at,
        "kept": kept,
        "practice": practised(club_id, fencer_id, now().astimezone().date(), PRACTICE_DAYS),
    }
    note_look(club_id, fencer_id, actor().coach_id)
    return told


@blueprint.get("/fencers/<fencer_id>/export")
@signed_in(*HEADS)
@blueprint.response(200, ExportSchema)
def as_json(fencer_id: str) -> dict[str, Any]:
    """Export everything stored about a fencer."""
    told = export.export_fencer(actor().club_id, fencer_id)
    note_look(actor().club_id, fencer_id, actor().coach_id, "exported")
    return told


@blueprint.get("/fencers/<fencer_id>/export.zip")
@signed_in(*HEADS)
@blueprint.response(200, FILE, content_type="application/zip")
def as_package(fencer_id: str) -> Response:
    """The export as a zip: CSV tables with a data dictionary (a Data Package), and the JSON."""
    answer = Response(export.export_package(actor().club_id, fencer_id), mimetype="application/zip")
    note_look(actor().club_id, fencer_id, actor().coach_id, "exported")
    # no name in the file name
    answer.headers["Content-Disposition"] = f'attachment; filename="fencer-{fencer_id[:8]}.zip"'
    return answer


class NotYetSchema(Schema):
    """What is still to do."""

    detail = Words()


@blueprint.delete("/fencers/<fencer_id>")
@signed_in(*HEADS)
@blueprint.response(204)
@blueprint.alt_response(202, schema=NotYetSchema, description="Erased, but traces are left")
def erase_all(fencer_id: str) -> Any:
    """Erase a fencer with everything about them. There is no way back."""
    erase.erase_fencer(actor().club_id, fencer_id, actor().coach_id)
    if wipe():
        return Response(status=204)
    return jsonify(detail=say(LEFT)), 202


class RemnantsSchema(Schema):
    """How many erasures may have left remnants in the database's files."""

    waiting = fields.Integer()


@blueprint.get("/club/remnants")
@signed_in(*HEADS)
@blueprint.response(200, RemnantsSchema)
def remnants() -> dict[str, int]:
    """Whether all that was erased is gone from the files too."""
    return {"waiting": waiting(actor().club_id)}


@blueprint.get("/fencers/<fencer_id>/audit")
@signed_in(*HEADS)
@blueprint.arguments(PageQuery, location="query")
@blueprint.response(200, AuditSchema)
def audit_of_fencer(query: dict[str, Any], fencer_id: str) -> dict[str, Any]:
    """The audit trail of one fencer's record, newest first."""
    fencer_in(db.session(), actor().club_id, fencer_id)
    return _audit(query, fencer_id)


@blueprint.get("/audit")
@signed_in(*HEADS)
@blueprint.arguments(PageQuery, location="query")
@blueprint.response(200, AuditSchema)
def audit_of_club(query: dict[str, Any]) -> dict[str, Any]:
    """The club's audit trail, erased fencers included."""
    return _audit(query)


@blueprint.get("/club/retention")
@signed_in(*HEADS)
@blueprint.arguments(DaysQuery, location="query")
@blueprint.response(200, RetentionSchema)
def preview(query: dict[str, int]) -> dict[str, Any]:
    """Who would be erased under a retention setting; nothing is changed."""
    today = now().astimezone().date()
    return {"due": retention.due_after(actor().club_id, query["days"], today)}


@blueprint.get("/club/settings")
@signed_in(*HEADS)
@blueprint.response(200, SettingsSchema)
def settings() -> dict[str, Any]:
    """The club's settings."""
    return {"retention_days": retention.retention_days(actor().club_id)}


@blueprint.patch("/club/settings")
@signed_in(*HEADS)
@blueprint.arguments(NewSettingsSchema)
@blueprint.response(200, SettingsSchema)
def change_settings(body: dict[str, int | None]) -> dict[str, Any]:
    """Set the retention period; ``cueladder retention`` applies it."""
    retention.set_retention(actor().club_id, body["retention_days"])
    return {"retention_days": body["retention_days"]}


def _audit(query: dict[str, Any], fencer_id: str | None = None) -> dict[str, Any]:
    entries, older = audit_of(actor().club_id, fencer_id, query["before"], query["limit"])
    return {"audit": entries, "next": older}


def wipe() -> bool:
    """Wipe what erased records left in the files, now or as soon as it can be."""
    return current_app.extensions["wiper"].wipe()
