"""A plan for the next lesson."""

from __future__ import annotations

from datetime import date
from typing import Any

from flask_smorest import Blueprint
from marshmallow import Schema, fields, validate

from ..store.db import db, now
from ..store.event_fields import Day
from ..store.fencers import fencer_in
from ..story.lesson_plan import plan_for
from .fields import Query, Words
from .guard import EVERYONE, actor, signed_in

blueprint = Blueprint("plan", __name__, url_prefix="/api/fencers", description="Plans")

SHORTEST, LONGEST = 5, 240


class PlanQuery(Query):
    """How long the lesson is, and its day (the server's own where it is left out)."""

    minutes = fields.Integer(load_default=20, validate=validate.Range(SHORTEST, LONGEST))
    day = Day(required=False)


class PlanBlockSchema(Schema):
    """One part of the lesson."""

    drill = fields.String()
    name = fields.String()
    kind = fields.String()
    role = fields.String()
    place = fields.Integer()
    rung = Words()
    cue = fields.String()
    decisions = fields.Integer()
    cues = fields.Integer()
    minutes = fields.Float()
    climb = fields.Float(allow_none=True)
    cut = fields.Boolean()
    why = Words()


class LessonPlanSchema(Schema):
    """The parts in order, the minutes left over, and a note where there are no parts."""

    minutes = fields.Float()
    blocks = fields.List(fields.Nested(PlanBlockSchema))
    spare = fields.Float()
    note = Words(allow_none=True)


@blueprint.get("/<fencer_id>/plan")
@signed_in(*EVERYONE)
@blueprint.arguments(PlanQuery, location="query")
@blueprint.response(200, LessonPlanSchema)
def plan(query: dict[str, Any], fencer_id: str) -> dict[str, Any]:
    """What to work on in the minutes there are."""
    fencer = fencer_in(db.session(), actor().club_id, fencer_id)
    day = query.get("day")
    when = date.fromisoformat(day) if day else now().astimezone().date()
    return plan_for(fencer, query["minutes"], when)
