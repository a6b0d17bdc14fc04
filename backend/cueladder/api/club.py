"""What a phone needs of a club, in one answer."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from flask_smorest import Blueprint
from marshmallow import Schema, fields, validate

from ..store import bookings
from ..store.clubs import coaches_of
from ..store.drills import drills_of
from ..store.event_fields import Day, Id, Text, Whole
from ..store.fencers import fencers_of
from .drills import drill_reply
from .fencers import fencer_reply
from .fields import Query
from .guard import COACHES, EVERYONE, actor, signed_in

blueprint = Blueprint("club", __name__, url_prefix="/api", description="The club")


class DayQuery(Query):
    """The local day on the device; the server's own where it is left out."""

    day = Day(required=False)


class BlockSchema(Schema):
    """One part of a planned lesson."""

    drill = Id()
    role = Text(40)
    minutes = Whole(0, 240)


class BookingSchema(Schema):
    """A planned lesson."""

    fencer = Id()
    at = fields.String(required=True, validate=validate.Regexp(r"([01]\d|2[0-3]):[0-5]\d\Z"))
    minutes = Whole(1, 240, required=False, load_default=20)
    plan = fields.List(
        fields.Nested(BlockSchema), load_default=list, validate=validate.Length(max=20)
    )


class PlanSchema(Schema):
    """A day."""

    lessons = fields.List(
        fields.Nested(BookingSchema), required=True, validate=validate.Length(max=60)
    )


@blueprint.get("/club")
@signed_in(*EVERYONE)
@blueprint.arguments(DayQuery, location="query")
@blueprint.response(200)
def club(query: dict[str, str]) -> dict[str, Any]:
    """Coaches, fencers, drills and the lessons planned for the day."""
    club_id = actor().club_id
    day = query.get("day") or datetime.now().astimezone().date().isoformat()
    return {
        "id": str(club_id),
        "name": actor().club,
        "coaches": coaches_of(club_id),
        "fencers": [fencer_reply(fencer) for fencer in fencers_of(club_id)],
        "drills": [drill_reply(*each) for each in drills_of(club_id)],
        "today": [_booking(booking) for booking in bookings.bookings_on(club_id, day)],
    }


@blueprint.put("/days/<day>")
@signed_in(*COACHES)
@blueprint.arguments(PlanSchema)
@blueprint.response(200)
def plan_day(body: dict[str, Any], day: str) -> dict[str, Any]:
    """Set one's own lessons of a day."""
    day = Day().deserialize(day, "day")
    bookings.plan_day(actor().club_id, day, actor().coach_id, body["lessons"])
    return {"today": [_booking(b) for b in bookings.bookings_on(actor().club_id, day)]}


def _booking(booking: Any) -> dict[str, Any]:
    return {
        "fencer": booking.fencer_id,
        "coach": booking.coach_id,
        "at": booking.at,
        "minutes": booking.minutes,
        "plan": booking.plan,
    }
