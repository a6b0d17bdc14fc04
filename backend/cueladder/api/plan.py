"""Lesson plans."""

from __future__ import annotations

from datetime import date
from typing import Any

from marshmallow import fields, validate

from ..store.db.engine import db, now
from ..store.fencers.edit import fencer_in
from ..store.log.fields import Day
from ..story.lesson_plan import plan_for
from .blueprint import Blueprint
from .fields import Query
from .guard import EVERYONE, actor, signed_in
from .replies.base import Reply, Words

blueprint = Blueprint("plan", __name__, url_prefix="/api/fencers", description="Plans")

SHORTEST, LONGEST = 5, 240


class PlanQuery(Query):
    """Length of the lesson, and its day (default: the server's)."""

    minutes = fields.Integer(load_default=20, validate=validate.Range(SHORTEST, LONGEST))
    day = Day(required=False)


class PlanBlockSchema(Reply):
    """One part of the lesson."""

    drill = fields.String()
    name = Words()
    kind = fields.String()
    role = fields.String()
    place = fields.Integer()
    rung = Words()
    cue = Words()
    decisions = fields.Integer()
    cues = fields.Integer()
    minutes = fields.Float()
    climb = fields.Float(allow_none=True)
    cut = fields.Boolean()
    why = Words()
    elsewhere = Words(
        allow_none=True, metadata={"description": "which setting would tell more, if one would"}
    )


class LessonPlanSchema(Reply):
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
    """Suggest what to work on in the minutes available."""
    fencer = fencer_in(db.session(), actor().club_id, fencer_id)
    day = query.get("day")
    when = date.fromisoformat(day) if day else now().astimezone().date()
    return plan_for(fencer, query["minutes"], when)
