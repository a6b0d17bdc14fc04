"""Drills."""

from __future__ import annotations

from typing import Any

from marshmallow import Schema, fields

from ..language import as_written, language
from ..rules.draft import draft
from ..store.db.engine import db
from ..store.drills import versions as drills
from ..store.fencers.edit import fencer_in
from ..store.log.audit import note_look
from ..store.log.fields import Flag, Id
from ..story.drill_change import effect
from ..story.drill_text import kept_drill
from ..story.drill_told import told_in_full
from ..story.rule_words import drill_rule
from ..story.what_if import what_if
from .blueprint import Blueprint
from .fields import sound
from .guard import COACHES, EVERYONE, actor, signed_in
from .replies.club import DrillSchema, DrillsSchema
from .replies.drills import DraftReplySchema, EffectSchema, VersionsSchema, WhatIfReplySchema

blueprint = Blueprint("drills", __name__, url_prefix="/api/drills", description="Drills")


class NewDrillSchema(Schema):
    """A drill document, with an optional id made on the device."""

    id = Id(required=False)
    document = fields.Dict(keys=fields.String(), required=True, validate=sound)


class DrillChangeSchema(Schema):
    """A drill's new document."""

    document = fields.Dict(keys=fields.String(), required=True, validate=sound)
    archived = Flag(required=False, load_default=False)


class DraftSchema(Schema):
    """A drill document, finished or not."""

    document = fields.Dict(keys=fields.String(), required=True, validate=sound)


class WhatIfSchema(Schema):
    """A rule to try out."""

    rule = fields.Dict(keys=fields.String(), required=True, validate=sound)


@blueprint.get("")
@signed_in(*EVERYONE)
@blueprint.response(200, DrillsSchema)
def all_drills() -> dict[str, Any]:
    """All drills of the club as they are now."""
    return {"drills": [drill_reply(*each) for each in drills.drills_of(actor().club_id)]}


@blueprint.post("")
@signed_in(*COACHES)
@blueprint.arguments(NewDrillSchema)
@blueprint.response(201, DrillSchema)
@blueprint.alt_response(200, schema=DrillSchema, description="Was there already", success=True)
def add(body: dict[str, Any]) -> Any:
    """Add a drill; with an id that is there already, answer 200 and change nothing."""
    drill, new = drills.add_drill(
        actor().club_id, _kept(body["document"]), actor().coach_id, body.get("id")
    )
    return drill_reply(*drill), 201 if new else 200


@blueprint.put("/<drill_id>")
@signed_in(*COACHES)
@blueprint.arguments(DrillChangeSchema)
@blueprint.response(200, DrillSchema)
def change(body: dict[str, Any], drill_id: str) -> dict[str, Any]:
    """Give a drill a new version; trials keep the chart they were judged by."""
    changed = drills.change_drill(
        actor().club_id, drill_id, _kept(body["document"]), body["archived"], actor().coach_id
    )
    return drill_reply(*changed)


@blueprint.post("/check")
@signed_in(*COACHES)
@blueprint.arguments(DraftSchema)
@blueprint.response(200, DraftReplySchema)
def check(body: dict[str, Any]) -> Any:
    """Validate an unfinished drill: every error, and the rungs that may come next."""
    return draft(body["document"])


@blueprint.post("/<drill_id>/effect")
@signed_in(*COACHES)
@blueprint.arguments(DraftSchema)
@blueprint.response(200, EffectSchema)
def reaches(body: dict[str, Any], drill_id: str) -> dict[str, Any]:
    """Who is in the middle of the drill, and where each would go on after this change."""
    return effect(actor().club_id, drill_id, _kept(body["document"]))


@blueprint.get("/<drill_id>/versions")
@signed_in(*EVERYONE)
@blueprint.response(200, VersionsSchema)
def versions(drill_id: str) -> dict[str, Any]:
    """The drill's versions, newest first."""
    found = drills.versions_of(actor().club_id, drill_id)
    before = [version.document for version, _ in found[1:]] + [None]
    return {
        "versions": [
            {
                "version": version.version,
                "at": version.created_at,
                "coach": name,
                "chart": version.chart_id,
                "changed": _changed(old, version.document),
                "rule": drill_rule(version.document),
            }
            for (version, name), old in zip(found, before, strict=True)
        ]
    }


@blueprint.post("/<drill_id>/fencers/<fencer_id>/odds")
@signed_in(*EVERYONE)
@blueprint.arguments(WhatIfSchema)
@blueprint.response(200, WhatIfReplySchema)
def odds(body: dict[str, Any], drill_id: str, fencer_id: str) -> dict[str, Any]:
    """How another rule would treat this fencer on this drill."""
    fencer = fencer_in(db.session(), actor().club_id, fencer_id)
    told = what_if(fencer, drill_id, body["rule"])
    note_look(actor().club_id, fencer_id, actor().coach_id)
    return told


def _kept(document: dict[str, Any]) -> dict[str, Any]:
    """A document as it is stored, from what came in the coach's language."""
    return kept_drill(document, language(), as_written)


def _changed(old: dict[str, Any] | None, new: dict[str, Any]) -> list[str]:
    if old is None:
        return []
    fields = {*old, *new} - {"language"}
    return sorted(field for field in fields if old.get(field) != new.get(field))


def drill_reply(drill: Any, version: Any) -> dict[str, Any]:
    """A drill and its present version as one reply."""
    return {
        "id": drill.id,
        "slug": drill.slug,
        "version": version.version,
        "archived": drill.archived,
        "own": version.coach_id is not None,
        "rule": drill_rule(version.document),
        "chart": version.chart_id,
        **told_in_full(version.document, language()),
    }
