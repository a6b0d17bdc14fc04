"""Fencers."""

from __future__ import annotations

from typing import Any

from flask import jsonify
from flask_smorest import Blueprint
from marshmallow import Schema, fields, validate

from ..store import fencers
from ..store.audit import note_look
from ..store.db import db
from ..store.event_fields import Flag, Id, Text, Whole, Word
from ..store.history import changes_of
from .fields import Change, EditHeaders
from .guard import COACHES, EVERYONE, actor, signed_in

blueprint = Blueprint("fencers", __name__, url_prefix="/api/fencers", description="Fencers")

OLDEST = 1900
YOUNGEST = 2100


class FencerSchema(Schema):
    """A fencer. Send an id made on the device to be able to add one without a network."""

    id = Id(required=False)
    nickname = Text(60, validate=validate.Length(min=1))
    born = Whole(OLDEST, YOUNGEST, required=False, allow_none=True, load_default=None)
    weapon = Word("foil", "epee", "sabre")
    hand = Word("right", "left", required=False, load_default="right")
    joined = fields.Date(allow_none=True, load_default=None)
    consent = fields.Date(allow_none=True, load_default=None)
    note = Text(500, required=False, allow_none=True, load_default=None)


class FencerChangeSchema(Change):
    """Some fields of a fencer."""

    nickname = Text(60, required=False, validate=validate.Length(min=1))
    born = Whole(OLDEST, YOUNGEST, required=False, allow_none=True)
    weapon = Word("foil", "epee", "sabre", required=False)
    hand = Word("right", "left", required=False)
    joined = fields.Date(allow_none=True)
    consent = fields.Date(allow_none=True)
    note = Text(500, required=False, allow_none=True)
    archived = Flag(required=False)


@blueprint.get("")
@signed_in(*EVERYONE)
@blueprint.response(200)
def all_fencers() -> dict[str, Any]:
    """All fencers of the club."""
    return {"fencers": [fencer_reply(f) for f in fencers.fencers_of(actor().club_id)]}


@blueprint.post("")
@signed_in(*COACHES)
@blueprint.arguments(FencerSchema)
@blueprint.response(201)
@blueprint.alt_response(200, description="Was there already", success=True)
def add(body: dict[str, Any]) -> Any:
    """Add a fencer; with an id that is there already, answer 200 and change nothing."""
    fencer, new = fencers.add_fencer(actor().club_id, body, actor().coach_id)
    return jsonify(fencer_reply(fencer)), 201 if new else 200


@blueprint.patch("/<fencer_id>")
@signed_in(*COACHES)
@blueprint.arguments(EditHeaders, location="headers")
@blueprint.arguments(FencerChangeSchema)
@blueprint.response(200)
def change(headers: dict[str, Any], body: dict[str, Any], fencer_id: str) -> dict[str, Any]:
    """Change fields: the last writer wins field by field."""
    changed = fencers.change_fencer(
        actor().club_id, fencer_id, body, actor().coach_id, headers["edit"]
    )
    return fencer_reply(changed)


@blueprint.get("/<fencer_id>/changes")
@signed_in(*COACHES)
@blueprint.response(200)
def changes(fencer_id: str) -> dict[str, Any]:
    """What was changed in a fencer's fields, by whom, and what stood there before."""
    fencers.fencer_in(db.session(), actor().club_id, fencer_id)
    note_look(actor().club_id, fencer_id, actor().coach_id)
    return {"changes": changes_of(actor().club_id, "fencer", fencer_id)}


def fencer_reply(fencer: Any) -> dict[str, Any]:
    """A fencer as the app gets it."""
    return {
        "id": fencer.id,
        "nickname": fencer.nickname,
        "born": fencer.born,
        "weapon": fencer.weapon,
        "hand": fencer.hand,
        "joined": fencer.joined.isoformat() if fencer.joined else None,
        "consent": fencer.consent.isoformat() if fencer.consent else None,
        "note": fencer.note,
        "archived": fencer.archived,
    }
