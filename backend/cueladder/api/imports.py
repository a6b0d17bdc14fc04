"""Tables of fencers: looked at, imported, taken back."""

from __future__ import annotations

import base64
import binascii
from typing import Any

from flask import Response, abort, jsonify
from flask_smorest import Blueprint
from marshmallow import Schema, ValidationError, fields, validates_schema

from ..rules.said import say
from ..store import imports
from ..store.db import db, now
from ..store.erase import wipe_remnants
from ..store.event_fields import Flag, Id, Text
from ..store.models import Fencer
from ..store.roster_cells import EXAMPLE
from ..store.roster_table import MOST_BYTES, decoded
from .fields import Words
from .guard import COACHES, actor, signed_in

blueprint = Blueprint("imports", __name__, url_prefix="/api/imports", description="Imports")


class LookSchema(Schema):
    """A table: a file's bytes in base64, or text."""

    file = Text(MOST_BYTES * 2, required=False)
    text = Text(MOST_BYTES, required=False)

    @validates_schema
    def _one(self, data: dict[str, Any], **kwargs: Any) -> None:
        if len(data) != 1:
            raise ValidationError(say("send either a file or a text"))


class ImportSchema(Schema):
    """A table as text, and the sender's own id of this import."""

    id = Id()
    text = Text(MOST_BYTES)
    also_same = Flag(required=False, load_default=False)


class SameSchema(Schema):
    """Whom a row seems to be: a fencer of the club, or one of an earlier line."""

    id = fields.String(allow_none=True)
    line = fields.Integer(allow_none=True)
    nickname = fields.String()
    born = fields.Integer(allow_none=True)
    archived = fields.Boolean()


class RowSchema(Schema):
    """One fencer of the table."""

    line = fields.Integer()
    nickname = fields.String()
    born = fields.Integer(allow_none=True)
    weapon = fields.String()
    hand = fields.String()
    joined = fields.Date(allow_none=True)
    consent = fields.Date(allow_none=True)
    note = fields.String(allow_none=True)
    same = fields.Nested(SameSchema, allow_none=True)


class FaultSchema(Schema):
    """What is wrong in one place, and what to do."""

    line = fields.Integer()
    column = fields.String()
    value = fields.String()
    message = Words()


class LookReplySchema(Schema):
    """What importing it would do."""

    text = fields.String()
    encoding = fields.String(allow_none=True)
    delimiter = fields.String()
    left_out = fields.List(fields.String())
    rows = fields.List(fields.Nested(RowSchema))
    faults = fields.List(fields.Nested(FaultSchema))


@blueprint.post("/preview")
@signed_in(*COACHES)
@blueprint.arguments(LookSchema)
@blueprint.response(200, LookReplySchema)
def preview(body: dict[str, str]) -> dict[str, Any]:
    """Look at a table; nothing is written."""
    text, encoding = decoded(_bytes(body["file"])) if "file" in body else (body["text"], None)
    look = imports.look_at(actor().club_id, text, now().date())
    return {
        "text": text,
        "encoding": encoding,
        "delimiter": look.table.delimiter,
        "left_out": look.table.left_out,
        "rows": [
            {"line": row.line, **row.fields, "same": _same(same)}
            for row, same in zip(look.table.rows, look.same, strict=True)
        ],
        "faults": look.table.faults,
    }


@blueprint.get("")
@signed_in(*COACHES)
@blueprint.response(200)
def latest() -> dict[str, Any]:
    """The latest imports."""
    return {"imports": [_reply(*each) for each in imports.latest_imports(actor().club_id)]}


@blueprint.post("")
@signed_in(*COACHES)
@blueprint.arguments(ImportSchema)
@blueprint.response(201)
@blueprint.alt_response(200, description="Was there already", success=True)
def add(body: dict[str, Any]) -> Any:
    """Import a table, whole or not at all; faults are named as ``lines[3].born``."""
    made, new = imports.import_table(
        actor().club_id,
        body["id"],
        actor().coach_id,
        body["text"],
        now().date(),
        body["also_same"],
    )
    return jsonify({"id": made.id, "added": made.added}), 201 if new else 200


@blueprint.delete("/<import_id>")
@signed_in(*COACHES)
@blueprint.response(200)
def undo(import_id: str) -> dict[str, Any]:
    """Take an import back: one's own, or as head coach any. Who has had a lesson stays."""
    made = imports.import_in(db.session(), actor().club_id, import_id)
    if actor().role != "head" and made.coach_id != actor().coach_id:
        abort(
            403, say("Another coach has imported it. Ask that coach or the head coach to undo it.")
        )
    gone, stay = imports.undo_import(actor().club_id, import_id, actor().coach_id)
    if gone:
        wipe_remnants()
    return {"gone": gone, "stay": stay}


@blueprint.get("/example.csv")
@signed_in(*COACHES)
def example() -> Response:
    """A table to begin from; the mark at its start tells spreadsheets that it is UTF-8."""
    answer = Response("\ufeff" + EXAMPLE, mimetype="text/csv")
    answer.headers["Content-Disposition"] = 'attachment; filename="fencers-example.csv"'
    return answer


def _bytes(file: str) -> bytes:
    try:
        return base64.b64decode(file, validate=True)
    except (binascii.Error, ValueError):
        raise ValidationError({"file": [say("should be base64")]}) from None


def _same(one: Any) -> dict[str, Any] | None:
    if one is None:
        return None
    if isinstance(one, Fencer):
        told = {"id": one.id, "line": None, "archived": one.archived}
        return {**told, "nickname": one.nickname, "born": one.born}
    told = {"id": None, "line": one.line, "archived": False}
    return {**told, "nickname": one.fields["nickname"], "born": one.fields["born"]}


def _reply(made: Any, name: str | None, left: int) -> dict[str, Any]:
    return {
        "id": made.id,
        "at": made.imported_at.isoformat(),
        "coach": made.coach_id,
        "name": name,
        "added": made.added,
        "left": left,
        "undone": made.undone_at.isoformat() if made.undone_at else None,
    }
