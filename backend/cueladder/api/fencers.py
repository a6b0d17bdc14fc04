"""Fencers."""

from __future__ import annotations

from typing import Any

from marshmallow import Schema, fields

from ..rules.drill import WEAPONS
from ..store.db.engine import db
from ..store.db.models import Fencer
from ..store.db.models.fencer import HANDS, NICKNAME, NOTE, OLDEST, YOUNGEST
from ..store.fencers import edit as fencers
from ..store.fencers.history import changes_of
from ..store.log.audit import note_look
from ..store.log.fields import Flag, Id, Text, Whole, Word
from .blueprint import Blueprint
from .fields import Change, EditHeaders
from .guard import COACHES, EVERYONE, actor, signed_in
from .replies.club import FencerSchema, FencersSchema
from .replies.records import ChangesSchema

blueprint = Blueprint("fencers", __name__, url_prefix="/api/fencers", description="Fencers")


class NewFencerSchema(Schema):
    """A new fencer; devices that work offline send an id of their own."""

    id = Id(required=False)
    nickname = Text(NICKNAME, blank=False)
    born = Whole(OLDEST, YOUNGEST, required=False, allow_none=True, load_default=None)
    weapon = Word(*WEAPONS)
    hand = Word(*HANDS, required=False, load_default="right")
    joined = fields.Date(allow_none=True, load_default=None)
    consent = fields.Date(allow_none=True, load_default=None)
    noise_self = fields.Date(allow_none=True, load_default=None)
    noise_guardian = fields.Date(allow_none=True, load_default=None)
    note = Text(NOTE, required=False, allow_none=True, load_default=None)


class FencerChangeSchema(Change):
    """The fields of a fencer to change."""

    nickname = Text(NICKNAME, blank=False, required=False)
    born = Whole(OLDEST, YOUNGEST, required=False, allow_none=True)
    weapon = Word(*WEAPONS, required=False)
    hand = Word(*HANDS, required=False)
    joined = fields.Date(allow_none=True)
    consent = fields.Date(allow_none=True)
    noise_self = fields.Date(allow_none=True)
    noise_guardian = fields.Date(allow_none=True)
    note = Text(NOTE, required=False, allow_none=True)
    archived = Flag(required=False)


@blueprint.get("")
@signed_in(*EVERYONE)
@blueprint.response(200, FencersSchema)
def all_fencers() -> dict[str, Any]:
    """All fencers of the club."""
    return {"fencers": fencers.fencers_of(actor().club_id)}


@blueprint.post("")
@signed_in(*COACHES)
@blueprint.arguments(NewFencerSchema)
@blueprint.response(201, FencerSchema)
@blueprint.alt_response(200, schema=FencerSchema, description="Was there already", success=True)
def add(body: dict[str, Any]) -> Any:
    """Add a fencer; with an id that is there already, answer 200 and change nothing."""
    fencer, new = fencers.add_fencer(actor().club_id, body, actor().coach_id)
    return fencer, 201 if new else 200


@blueprint.patch("/<fencer_id>")
@signed_in(*COACHES)
@blueprint.arguments(EditHeaders, location="headers")
@blueprint.arguments(FencerChangeSchema)
@blueprint.response(200, FencerSchema)
def change(headers: dict[str, Any], body: dict[str, Any], fencer_id: str) -> Fencer:
    """Change fields: the last writer wins field by field."""
    return fencers.change_fencer(
        actor().club_id, fencer_id, body, actor().coach_id, headers["edit"]
    )


@blueprint.get("/<fencer_id>/changes")
@signed_in(*COACHES)
@blueprint.response(200, ChangesSchema)
def changes(fencer_id: str) -> dict[str, Any]:
    """The history of a fencer's fields: who changed what, and the older values."""
    fencers.fencer_in(db.session(), actor().club_id, fencer_id)
    note_look(actor().club_id, fencer_id, actor().coach_id)
    return {"changes": changes_of(actor().club_id, "fencer", fencer_id)}
