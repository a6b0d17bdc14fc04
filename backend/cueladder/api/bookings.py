"""The lessons planned: who, with whom, on which day, when and for how long."""

from __future__ import annotations

from datetime import date
from typing import Any

from flask import abort
from flask_smorest import Blueprint
from marshmallow import Schema, ValidationError, fields, validate, validates_schema

from ..rules.said import later, say
from ..store import bookings
from ..store.event_fields import Day, Id, Text, Whole
from .fields import Change, EditHeaders, Query
from .guard import COACHES, EVERYONE, actor, signed_in

blueprint = Blueprint("bookings", __name__, url_prefix="/api", description="Lessons planned")

# The longest span that is read at once, in days, and the most lessons of a day.
SPAN = 92
MOST = 60
MINUTES = (1, 240)
NO_TIME = later("should be a time like 18:20")


class Time(fields.String):
    """A time of day, ``18:20``."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> str:
        found = super()._deserialize(value, attr, data, **kwargs)
        return validate.Regexp(r"([01]\d|2[0-3]):[0-5]\d\Z", error=say(NO_TIME))(found)


class SpanQuery(Query):
    """From which day to which, both included."""

    first = Day(data_key="from")
    last = Day(data_key="to")

    @validates_schema
    def _short(self, data: dict[str, Any], **kwargs: Any) -> None:
        days = (date.fromisoformat(data["last"]) - date.fromisoformat(data["first"])).days
        if not 0 <= days < SPAN:
            raise ValidationError(
                say("should be on the first day or at most %(days)s days later", days=SPAN - 1),
                "to",
            )


class NewBookingSchema(Schema):
    """A lesson to plan. Send an id made on the device to be able to plan one without a network."""

    id = Id(required=False)
    day = Day()
    fencer = Id()
    at = Time(required=True)
    minutes = Whole(*MINUTES, required=False, load_default=20)
    coach = Id(required=False)


class BookingChangeSchema(Change):
    """Time or minutes of a planned lesson, or both."""

    at = Time()
    minutes = Whole(*MINUTES, required=False)


class SameDaySchema(Schema):
    """The day whose lessons are planned again, and the ids the device has given the new ones."""

    of = Day()
    coach = Id(required=False)
    ids = fields.Dict(keys=Id(), values=Id(), load_default=dict, validate=validate.Length(max=MOST))


class BlockSchema(Schema):
    """One part of a planned lesson."""

    drill = Id()
    role = Text(40)
    minutes = Whole(0, 240)


class BookingSchema(Schema):
    """A planned lesson."""

    fencer = Id()
    at = Time(required=True)
    minutes = Whole(*MINUTES, required=False, load_default=20)
    plan = fields.List(
        fields.Nested(BlockSchema), load_default=list, validate=validate.Length(max=20)
    )


class PlanSchema(Schema):
    """A day."""

    lessons = fields.List(
        fields.Nested(BookingSchema), required=True, validate=validate.Length(max=MOST)
    )


@blueprint.get("/bookings")
@signed_in(*EVERYONE)
@blueprint.arguments(SpanQuery, location="query")
@blueprint.response(200)
def planned(query: dict[str, str]) -> dict[str, Any]:
    """The club's lessons planned in a span of days."""
    found = bookings.bookings_between(actor().club_id, query["first"], query["last"])
    return {"bookings": [booking_reply(booking) for booking in found]}


@blueprint.post("/bookings")
@signed_in(*COACHES)
@blueprint.arguments(EditHeaders, location="headers")
@blueprint.arguments(NewBookingSchema)
@blueprint.response(201)
@blueprint.alt_response(200, description="Was planned already", success=True)
def book(headers: dict[str, Any], body: dict[str, Any]) -> Any:
    """Plan a lesson of one's own; a head coach plans anyone's."""
    coach = _giver(body.get("coach"))
    new = bookings.book(actor().club_id, body, coach, actor().coach_id, headers["edit"])
    return _day(body["day"]), 201 if new else 200


@blueprint.patch("/bookings/<booking_id>")
@signed_in(*COACHES)
@blueprint.arguments(EditHeaders, location="headers")
@blueprint.arguments(BookingChangeSchema)
@blueprint.response(200)
def change(headers: dict[str, Any], body: dict[str, Any], booking_id: str) -> dict[str, Any]:
    """Change time or minutes of a planned lesson."""
    changed = bookings.change_booking(
        actor().club_id, booking_id, body, _own(), actor().coach_id, headers["edit"]
    )
    return booking_reply(changed)


@blueprint.delete("/bookings/<booking_id>")
@signed_in(*COACHES)
@blueprint.arguments(EditHeaders, location="headers")
@blueprint.response(204)
def remove(headers: dict[str, Any], booking_id: str) -> None:
    """Take a planned lesson out."""
    bookings.remove_booking(actor().club_id, booking_id, _own(), actor().coach_id, headers["edit"])


@blueprint.post("/days/<day>/same")
@signed_in(*COACHES)
@blueprint.arguments(EditHeaders, location="headers")
@blueprint.arguments(SameDaySchema)
@blueprint.response(200)
def same(headers: dict[str, Any], body: dict[str, Any], day: str) -> dict[str, Any]:
    """Plan the lessons of one day on another, without those who are there already or archived."""
    day = Day().deserialize(day, "day")
    coach = _giver(body.get("coach"))
    bookings.same_as(
        actor().club_id, day, body["of"], coach, actor().coach_id, body["ids"], headers["edit"]
    )
    return _day(day)


@blueprint.put("/days/<day>")
@signed_in(*COACHES)
@blueprint.arguments(PlanSchema)
@blueprint.response(200)
def plan_day(body: dict[str, Any], day: str) -> dict[str, Any]:
    """Set one's own lessons of a day."""
    day = Day().deserialize(day, "day")
    bookings.plan_day(actor().club_id, day, actor().coach_id, body["lessons"])
    return {"today": _day(day)["bookings"]}


def _day(day: str) -> dict[str, Any]:
    found = bookings.bookings_on(actor().club_id, day)
    return {"bookings": [booking_reply(booking) for booking in found]}


def _own() -> str | None:
    return None if actor().role == "head" else actor().coach_id


def _giver(coach: str | None) -> str:
    """Who gives the lesson: oneself, or, for a head coach, whoever is named."""
    if coach not in (None, actor().coach_id) and _own() is not None:
        abort(403, say("You plan your own lessons; a head coach plans those of others."))
    return coach or actor().coach_id


def booking_reply(booking: Any) -> dict[str, Any]:
    """A planned lesson as the app gets it."""
    return {
        "id": booking.id,
        "day": booking.day,
        "fencer": booking.fencer_id,
        "coach": booking.coach_id,
        "at": booking.at,
        "minutes": booking.minutes,
        "plan": booking.plan,
    }
