"""Planned lessons."""

from __future__ import annotations

from datetime import date
from typing import Any

from flask import abort
from marshmallow import Schema, ValidationError, fields, validate, validates_schema

from ..rules.said import later, say
from ..store.db.models import Booking
from ..store.fencers import bookings
from ..store.log.fields import Day, Id, Text, Whole
from .blueprint import Blueprint
from .fields import Change, EditHeaders, Query
from .guard import COACHES, EVERYONE, actor, signed_in
from .replies.club import BookingSchema, BookingsSchema, DaySchema

blueprint = Blueprint("bookings", __name__, url_prefix="/api", description="Lessons planned")

# Limits: days in one query, lessons on one day, minutes of a lesson.
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
    """A range of days, both ends included."""

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
    """A lesson to plan; devices that work offline send an id of their own."""

    id = Id(required=False)
    day = Day()
    fencer = Id()
    at = Time(required=True)
    minutes = Whole(*MINUTES, required=False, load_default=20)
    coach = Id(required=False)


class BookingChangeSchema(Change):
    """A new time or length of a planned lesson."""

    at = Time()
    minutes = Whole(*MINUTES, required=False)


class SameDaySchema(Schema):
    """The day to copy from; ``ids`` maps its lessons to the ids the device gave the copies."""

    of = Day()
    coach = Id(required=False)
    ids = fields.Dict(keys=Id(), values=Id(), load_default=dict, validate=validate.Length(max=MOST))


class NewBlockSchema(Schema):
    """One part of a planned lesson."""

    drill = Id()
    role = Text(40)
    minutes = Whole(0, 240)


class DayBookingSchema(Schema):
    """A planned lesson of the day that is set."""

    fencer = Id()
    at = Time(required=True)
    minutes = Whole(*MINUTES, required=False, load_default=20)
    plan = fields.List(
        fields.Nested(NewBlockSchema), load_default=list, validate=validate.Length(max=20)
    )


class DayPlanSchema(Schema):
    """All of one's own lessons of a day."""

    lessons = fields.List(
        fields.Nested(DayBookingSchema), required=True, validate=validate.Length(max=MOST)
    )


@blueprint.get("/bookings")
@signed_in(*EVERYONE)
@blueprint.arguments(SpanQuery, location="query")
@blueprint.response(200, BookingsSchema)
def planned(query: dict[str, str]) -> dict[str, Any]:
    """The club's planned lessons in a range of days."""
    return {"bookings": bookings.bookings_between(actor().club_id, query["first"], query["last"])}


@blueprint.post("/bookings")
@signed_in(*COACHES)
@blueprint.arguments(EditHeaders, location="headers")
@blueprint.arguments(NewBookingSchema)
@blueprint.response(201, BookingsSchema)
@blueprint.alt_response(200, schema=BookingsSchema, description="Was planned already", success=True)
def book(headers: dict[str, Any], body: dict[str, Any]) -> Any:
    """Plan a lesson: coaches for themselves, a head coach for anyone."""
    coach = _giver(body.get("coach"))
    new = bookings.book(actor().club_id, body, coach, actor().coach_id, headers["edit"])
    return _day(body["day"]), 201 if new else 200


@blueprint.patch("/bookings/<booking_id>")
@signed_in(*COACHES)
@blueprint.arguments(EditHeaders, location="headers")
@blueprint.arguments(BookingChangeSchema)
@blueprint.response(200, BookingSchema)
def change(headers: dict[str, Any], body: dict[str, Any], booking_id: str) -> Booking:
    """Change time or minutes of a planned lesson."""
    return bookings.change_booking(
        actor().club_id, booking_id, body, _own(), actor().coach_id, headers["edit"]
    )


@blueprint.delete("/bookings/<booking_id>")
@signed_in(*COACHES)
@blueprint.arguments(EditHeaders, location="headers")
@blueprint.response(204)
def remove(headers: dict[str, Any], booking_id: str) -> None:
    """Delete a planned lesson."""
    bookings.remove_booking(actor().club_id, booking_id, _own(), actor().coach_id, headers["edit"])


@blueprint.post("/days/<day>/same")
@signed_in(*COACHES)
@blueprint.arguments(EditHeaders, location="headers")
@blueprint.arguments(SameDaySchema)
@blueprint.response(200, BookingsSchema)
def same(headers: dict[str, Any], body: dict[str, Any], day: str) -> dict[str, Any]:
    """Copy a day's lessons to another day, except for fencers booked there already or archived."""
    day = Day().deserialize(day, "day")
    coach = _giver(body.get("coach"))
    bookings.same_as(
        actor().club_id, day, body["of"], coach, actor().coach_id, body["ids"], headers["edit"]
    )
    return _day(day)


@blueprint.put("/days/<day>")
@signed_in(*COACHES)
@blueprint.arguments(DayPlanSchema)
@blueprint.response(200, DaySchema)
def plan_day(body: dict[str, Any], day: str) -> dict[str, Any]:
    """Replace one's own lessons of a day."""
    day = Day().deserialize(day, "day")
    bookings.plan_day(actor().club_id, day, actor().coach_id, body["lessons"])
    return {"today": _day(day)["bookings"]}


def _day(day: str) -> dict[str, Any]:
    return {"bookings": bookings.bookings_on(actor().club_id, day)}


def _own() -> str | None:
    return None if actor().role == "head" else actor().coach_id


def _giver(coach: str | None) -> str:
    """The coach of the lesson: oneself, or whomever a head coach names."""
    if coach not in (None, actor().coach_id) and _own() is not None:
        abort(403, say("You plan your own lessons; a head coach plans those of others."))
    return coach or actor().coach_id
