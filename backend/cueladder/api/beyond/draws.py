"""Plans by chance, of a fencer and of several together.

For coaches alone: whoever watches the bouts as an observer had better not know what was begun.
"""

from __future__ import annotations

from datetime import date
from typing import Any

from marshmallow import Schema, ValidationError, fields, validate, validates_schema

from ...evidence.by_chance import FEWEST, MOST, days_needed
from ...rules.said import say
from ...store.db.engine import now
from ...store.fencers import draws
from ...store.log.audit import note_look
from ...store.log.fields import Day, Id, Whole
from ...story.beyond.by_chance import draws_told, outlook
from ...story.beyond.together import together
from ..blueprint import Blueprint
from ..fields import Query
from ..guard import COACHES, actor, signed_in
from ..replies.base import Claimed
from ..replies.draws import AllTogetherSchema, DrawsSchema

blueprint = Blueprint("draws", __name__, url_prefix="/api", description="Plans by chance")

# Limits: days between two bout days, and how many of them.
MOST_EVERY, MOST_DAYS = 28, 60


class NewDrawSchema(Schema):
    """What a plan is drawn of; the device gives the id, so that a lost reply draws nothing twice.

    Bout days are the ``first`` and so many ``days`` in all, each ``every`` so many days.
    """

    id = Id()
    drills = fields.List(Id(), required=True, validate=validate.Length(FEWEST, MOST))
    first = Day()
    every = Whole(1, MOST_EVERY)
    days = Whole(1, MOST_DAYS)


class OutlookQuery(Query):
    """How many drills, and how many bout days."""

    drills = fields.Integer(required=True, validate=validate.Range(FEWEST, MOST))
    days = fields.Integer(required=True, validate=validate.Range(1, MOST_DAYS))

    @validates_schema
    def _enough(self, data: dict[str, Any], **kwargs: Any) -> None:
        if data["days"] < (least := days_needed(data["drills"])):
            words = say("should be at least %(least)s for so many drills", least=least)
            raise ValidationError(words, "days")


@blueprint.get("/fencers/<fencer_id>/draws")
@signed_in(*COACHES)
@blueprint.response(200, DrawsSchema)
def plans(fencer_id: str) -> dict[str, Any]:
    """A fencer's plans by chance: what to begin next, and what the bouts say."""
    told = draws_told(actor().club_id, fencer_id, _today())
    note_look(actor().club_id, fencer_id, actor().coach_id)
    return told


@blueprint.get("/fencers/<fencer_id>/draws/outlook")
@signed_in(*COACHES)
@blueprint.arguments(OutlookQuery, location="query")
@blueprint.response(200, Claimed)
def before(query: dict[str, int], fencer_id: str) -> dict[str, Any]:
    """What a plan of so many drills and bout days can tell, before it is drawn."""
    return outlook(actor().club_id, fencer_id, query["drills"], query["days"])


@blueprint.post("/fencers/<fencer_id>/draws")
@signed_in(*COACHES)
@blueprint.arguments(NewDrawSchema)
@blueprint.response(201, DrawsSchema)
@blueprint.alt_response(200, schema=DrawsSchema, description="Was drawn already", success=True)
def draw(body: dict[str, Any], fencer_id: str) -> Any:
    """Draw the order in which the drills are begun. It is drawn here, once, and stands."""
    _, new = draws.draw(actor().club_id, fencer_id, body, actor().coach_id, _today())
    return draws_told(actor().club_id, fencer_id, _today()), 201 if new else 200


@blueprint.delete("/fencers/<fencer_id>/draws/<draw_id>")
@signed_in(*COACHES)
@blueprint.response(200, DrawsSchema)
def withdraw(fencer_id: str, draw_id: str) -> dict[str, Any]:
    """Give a plan up before its end: it stays to be seen, and is not judged."""
    draws.withdraw(actor().club_id, fencer_id, draw_id, actor().coach_id, _today())
    return draws_told(actor().club_id, fencer_id, _today())


@blueprint.get("/club/draws")
@signed_in(*COACHES)
@blueprint.response(200, AllTogetherSchema)
def of_several() -> dict[str, Any]:
    """What the plans of several fencers say together; names no fencer."""
    return {"together": together(actor().club_id, _today())}


def _today() -> date:
    return now().astimezone().date()
