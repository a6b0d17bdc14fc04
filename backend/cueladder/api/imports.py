"""Roster import: preview, import, undo."""

from __future__ import annotations

import base64
import binascii
from typing import Any

from flask import Response, abort
from marshmallow import Schema, ValidationError, validates_schema

from ..rules.said import say
from ..store.db.engine import db, now
from ..store.db.models import Fencer
from ..store.fencers import imports
from ..store.fencers.roster_cells import EXAMPLE
from ..store.fencers.roster_table import MOST_BYTES, decoded
from ..store.log.fields import Flag, Id, Text
from .blueprint import Blueprint
from .guard import COACHES, actor, signed_in
from .records import wipe
from .replies.base import FILE
from .replies.imports import ImportedSchema, ImportsSchema, LookReplySchema, UndoneSchema

blueprint = Blueprint("imports", __name__, url_prefix="/api/imports", description="Imports")


class LookSchema(Schema):
    """A table, as a base64-encoded file or as text."""

    file = Text(MOST_BYTES * 2, required=False)
    text = Text(MOST_BYTES, required=False)

    @validates_schema
    def _one(self, data: dict[str, Any], **kwargs: Any) -> None:
        if len(data) != 1:
            raise ValidationError(say("send either a file or a text"))


class NewImportSchema(Schema):
    """A table as text, and the client's own id of this import."""

    id = Id()
    text = Text(MOST_BYTES)
    also_same = Flag(required=False, load_default=False)


@blueprint.post("/preview")
@signed_in(*COACHES)
@blueprint.arguments(LookSchema)
@blueprint.response(200, LookReplySchema)
def preview(body: dict[str, str]) -> dict[str, Any]:
    """Preview an import; nothing is written."""
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
@blueprint.response(200, ImportsSchema)
def latest() -> dict[str, Any]:
    """The latest imports."""
    return {"imports": [_reply(*each) for each in imports.latest_imports(actor().club_id)]}


@blueprint.post("")
@signed_in(*COACHES)
@blueprint.arguments(NewImportSchema)
@blueprint.response(201, ImportedSchema)
@blueprint.alt_response(200, schema=ImportedSchema, description="Was there already", success=True)
def add(body: dict[str, Any]) -> Any:
    """Import a table, whole or not at all; errors are keyed like ``lines[3].born``."""
    made, new = imports.import_table(
        actor().club_id,
        body["id"],
        actor().coach_id,
        body["text"],
        now().date(),
        body["also_same"],
    )
    return made, 201 if new else 200


@blueprint.delete("/<import_id>")
@signed_in(*COACHES)
@blueprint.response(200, UndoneSchema)
def undo(import_id: str) -> dict[str, Any]:
    """Undo an import (a head coach: anyone's). Fencers with a lesson or booking stay."""
    made = imports.import_in(db.session(), actor().club_id, import_id)
    if actor().role != "head" and made.coach_id != actor().coach_id:
        abort(
            403, say("Another coach has imported it. Ask that coach or the head coach to undo it.")
        )
    gone, stay = imports.undo_import(actor().club_id, import_id, actor().coach_id)
    if gone:
        wipe()
    return {"gone": gone, "stay": stay}


@blueprint.get("/example.csv")
@signed_in(*COACHES)
@blueprint.response(200, FILE, content_type="text/csv")
def example() -> Response:
    """An example table, with a byte order mark so that spreadsheets read it as UTF-8."""
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
        "at": made.imported_at,
        "coach": made.coach_id,
        "name": name,
        "added": made.added,
        "left": left,
        "undone": made.undone_at,
    }
