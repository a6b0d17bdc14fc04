"""A fencer's goals by competitions, and the plan backwards from them."""

from __future__ import annotations

from datetime import date
from typing import Any

from marshmallow import Schema

from ...store.db.engine import now
from ...store.fencers.goals import drop_goal, set_goal
from ...store.log.audit import note_look
from ...store.log.fields import Id
from ...story.beyond.goals import goals_told
from ..blueprint import Blueprint
from ..guard import COACHES, EVERYONE, actor, signed_in
from ..replies.goals import GoalsSchema

blueprint = Blueprint(
    "goals", __name__, url_prefix="/api/fencers/<fencer_id>/goals", description="Goals"
)


class NewGoalSchema(Schema):
    """By which competition the drill is to be secure in two settings."""

    competition = Id()


@blueprint.get("")
@signed_in(*EVERYONE)
@blueprint.response(200, GoalsSchema)
def goals(fencer_id: str) -> dict[str, Any]:
    """A fencer's goals: what has held, how many lessons are left, when to re-check."""
    told = _told(fencer_id)
    note_look(actor().club_id, fencer_id, actor().coach_id)
    return told


@blueprint.put("/<drill_id>")
@signed_in(*COACHES)
@blueprint.arguments(NewGoalSchema)
@blueprint.response(200, GoalsSchema)
def set_one(body: dict[str, str], fencer_id: str, drill_id: str) -> dict[str, Any]:
    """Set the goal on a drill, or move it to another competition."""
    me = actor()
    set_goal(me.club_id, fencer_id, drill_id, body["competition"], me.coach_id, _today())
    return _told(fencer_id)


@blueprint.delete("/<drill_id>")
@signed_in(*COACHES)
@blueprint.response(200, GoalsSchema)
def give_up(fencer_id: str, drill_id: str) -> dict[str, Any]:
    """Give the goal on a drill up."""
    drop_goal(actor().club_id, fencer_id, drill_id, actor().coach_id)
    return _told(fencer_id)


def _told(fencer_id: str) -> dict[str, Any]:
    return goals_told(actor().club_id, fencer_id, _today())


def _today() -> date:
    return now().astimezone().date()
