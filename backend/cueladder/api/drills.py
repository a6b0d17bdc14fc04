"""Drills."""

from __future__ import annotations

from typing import Any

from flask import jsonify
from flask_smorest import Blueprint

from ..rules.draft import draft
from ..store import drills
from ..store.audit import note_look
from ..store.db import db
from ..store.fencers import fencer_in
from ..story.drill_change import effect
from ..story.rule_words import drill_rule
from ..story.what_if import what_if
from .drill_schemas import (
    DraftReplySchema,
    DraftSchema,
    DrillChangeSchema,
    DrillSchema,
    EffectSchema,
    VersionsSchema,
    WhatIfReplySchema,
    WhatIfSchema,
)
from .guard import COACHES, EVERYONE, actor, signed_in

blueprint = Blueprint("drills", __name__, url_prefix="/api/drills", description="Drills")

SHOWN = ("name", "kind", "weapon", "action", "purpose", "how", "safety", "alone", "paired")


@blueprint.get("")
@signed_in(*EVERYONE)
@blueprint.response(200)
def all_drills() -> dict[str, Any]:
    """All drills of the club as they are now."""
    return {"drills": [drill_reply(*each) for each in drills.drills_of(actor().club_id)]}


@blueprint.post("")
@signed_in(*COACHES)
@blueprint.arguments(DrillSchema)
@blueprint.response(201)
@blueprint.alt_response(200, description="Was there already", success=True)
def add(body: dict[str, Any]) -> Any:
    """Add a drill; with an id that is there already, answer 200 and change nothing."""
    drill, new = drills.add_drill(
        actor().club_id, body["document"], actor().coach_id, body.get("id")
    )
    return jsonify(drill_reply(*drill)), 201 if new else 200


@blueprint.put("/<drill_id>")
@signed_in(*COACHES)
@blueprint.arguments(DrillChangeSchema)
@blueprint.response(200)
def change(body: dict[str, Any], drill_id: str) -> dict[str, Any]:
    """Give a drill a new version; trials keep the chart they were judged by."""
    changed = drills.change_drill(
        actor().club_id, drill_id, body["document"], body["archived"], actor().coach_id
    )
    return drill_reply(*changed)


@blueprint.post("/check")
@signed_in(*COACHES)
@blueprint.arguments(DraftSchema)
@blueprint.response(200, DraftReplySchema)
def check(body: dict[str, Any]) -> Any:
    """Look through a drill being written: what is wrong, and which rungs may come next."""
    return draft(body["document"])


@blueprint.post("/<drill_id>/effect")
@signed_in(*COACHES)
@blueprint.arguments(DraftSchema)
@blueprint.response(200, EffectSchema)
def reaches(body: dict[str, Any], drill_id: str) -> dict[str, Any]:
    """Who is in the middle of the drill, and where each would go on after this change."""
    return effect(actor().club_id, drill_id, body["document"])


@blueprint.get("/<drill_id>/versions")
@signed_in(*EVERYONE)
@blueprint.response(200, VersionsSchema)
def versions(drill_id: str) -> dict[str, Any]:
    """What the drill said before; marks stay judged by the version they were given under."""
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
    """What another rule would do to this fencer on this drill."""
    fencer = fencer_in(db.session(), actor().club_id, fencer_id)
    told = what_if(fencer, drill_id, body["rule"])
    note_look(actor().club_id, fencer_id, actor().coach_id)
    return told


def _changed(old: dict[str, Any] | None, new: dict[str, Any]) -> list[str]:
    if old is None:
        return []
    return sorted(field for field in {*old, *new} if old.get(field) != new.get(field))


def drill_reply(drill: Any, version: Any) -> dict[str, Any]:
    """A drill as the app gets it."""
    return {
        "id": drill.id,
        "slug": drill.slug,
        "version": version.version,
        "archived": drill.archived,
        "own": version.coach_id is not None,
        "rule": drill_rule(version.document),
        **{name: version.document.get(name) for name in SHOWN},
        "chart": version.chart_id,
        "document": version.document,
    }
