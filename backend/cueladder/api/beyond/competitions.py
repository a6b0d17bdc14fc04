"""A club's competitions: when they are, and nothing of how anyone came out."""

from __future__ import annotations

from typing import Any

from marshmallow import Schema

from ...store.db.models.competition import NAME
from ...store.fencers import competitions
from ...store.log.fields import Day, Id, Text
from ..blueprint import Blueprint
from ..fields import Change
from ..guard import COACHES, EVERYONE, actor, signed_in
from ..replies.goals import CompetitionsSchema

blueprint = Blueprint(
    "competitions", __name__, url_prefix="/api/competitions", description="Competitions"
)


class NewCompetitionSchema(Schema):
    """A competition to note; the device gives the id, so that a lost reply adds nothing twice."""

    id = Id()
    name = Text(NAME, blank=False)
    day = Day()


class CompetitionChangeSchema(Change):
    """Another name or day."""

    name = Text(NAME, blank=False, required=False)
    day = Day(required=False)


@blueprint.get("")
@signed_in(*EVERYONE)
@blueprint.response(200, CompetitionsSchema)
def planned() -> dict[str, Any]:
    """The club's competitions, past ones too, by day."""
    return {"competitions": competitions.competitions_of(actor().club_id)}


@blueprint.post("")
@signed_in(*COACHES)
@blueprint.arguments(NewCompetitionSchema)
@blueprint.response(201, CompetitionsSchema)
@blueprint.alt_response(
    200, schema=CompetitionsSchema, description="Was noted already", success=True
)
def add(body: dict[str, Any]) -> Any:
    """Note a competition."""
    new = competitions.add_competition(actor().club_id, body, actor().coach_id)
    return _all(), 201 if new else 200


@blueprint.patch("/<competition_id>")
@signed_in(*COACHES)
@blueprint.arguments(CompetitionChangeSchema)
@blueprint.response(200, CompetitionsSchema)
def change(body: dict[str, Any], competition_id: str) -> dict[str, Any]:
    """Change name or day; goals by it go along."""
    competitions.change_competition(actor().club_id, competition_id, body, actor().coach_id)
    return _all()


@blueprint.delete("/<competition_id>")
@signed_in(*COACHES)
@blueprint.response(200, CompetitionsSchema)
def remove(competition_id: str) -> dict[str, Any]:
    """Delete a competition by which no goal is set."""
    competitions.remove_competition(actor().club_id, competition_id)
    return _all()


def _all() -> dict[str, Any]:
    """All of them, as each change answers."""
    return {"competitions": competitions.competitions_of(actor().club_id)}
