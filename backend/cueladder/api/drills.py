"""Drills."""

from __future__ import annotations

from typing import Any

from flask import jsonify
from flask_smorest import Blueprint
from marshmallow import Schema, fields

from ..store import drills
from ..store.event_fields import Flag, Id
from .fields import sound
from .guard import COACHES, EVERYONE, actor, signed_in

blueprint = Blueprint("drills", __name__, url_prefix="/api/drills", description="Drills")

SHOWN = ("name", "kind", "weapon", "action", "purpose", "how", "safety", "alone", "paired")


class DrillSchema(Schema):
    """A drill: its document, and an id made on the device if one likes."""

    id = Id(required=False)
    document = fields.Dict(keys=fields.String(), required=True, validate=sound)


class DrillChangeSchema(Schema):
    """A drill's new document."""

    document = fields.Dict(keys=fields.String(), required=True, validate=sound)
    archived = Flag(required=False, load_default=False)


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


def drill_reply(drill: Any, version: Any) -> dict[str, Any]:
    """A drill as the app gets it."""
    return {
        "id": drill.id,
        "slug": drill.slug,
        "version": version.version,
        "archived": drill.archived,
        **{name: version.document.get(name) for name in SHOWN},
        "chart": version.chart_id,
        "document": version.document,
    }
