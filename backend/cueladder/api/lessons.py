"""Lessons on a wrong day, and marks that their coach cannot send."""

from __future__ import annotations

from typing import Any

from flask import current_app
from marshmallow import Schema, fields

from ..store.log.audit import note_looks
from ..store.log.fields import Day
from ..store.log.ingest import Taken, take_in
from ..store.log.settle import lessons_waiting, move_lesson, remove_lesson
from .blueprint import Blueprint
from .events import sent
from .guard import HEADS, actor, signed_in
from .replies.base import Reply
from .replies.log import PUSH, PushedSchema

blueprint = Blueprint("lessons", __name__, url_prefix="/api", description="Lessons")


class WaitingSchema(Reply):
    """A lesson that is dated past tomorrow."""

    id = fields.String()
    fencer = fields.String()
    nickname = fields.String()
    coach = fields.String()
    name = fields.String(metadata={"description": "the coach's name"})
    day = fields.String(metadata={"description": "the day by the device's clock"})
    received = fields.String(metadata={"description": "when it came to the server"})


class WaitingListSchema(Reply):
    """Lessons that wait for their day."""

    lessons = fields.List(fields.Nested(WaitingSchema))


class LessonDaySchema(Schema):
    """The day on which a lesson was given."""

    day = Day()


@blueprint.get("/lessons/waiting")
@signed_in(*HEADS)
@blueprint.response(200, WaitingListSchema)
def waiting() -> dict[str, Any]:
    """Lessons dated past tomorrow: kept, but counted nowhere until their day is settled."""
    return {"lessons": lessons_waiting(actor().club_id)}


@blueprint.patch("/lessons/<lesson_id>")
@signed_in(*HEADS)
@blueprint.arguments(LessonDaySchema)
@blueprint.response(204)
def move(body: dict[str, str], lesson_id: str) -> None:
    """Say on which day a lesson was given; what hangs on it is worked out anew."""
    move_lesson(actor().club_id, lesson_id, body["day"], actor().coach_id)


@blueprint.delete("/lessons/<lesson_id>")
@signed_in(*HEADS)
@blueprint.response(204)
def remove(lesson_id: str) -> None:
    """Remove a lesson with everything noted in it. There is no way back."""
    remove_lesson(actor().club_id, lesson_id, actor().coach_id)
    current_app.extensions["wiper"].wipe()


@blueprint.post("/events/others")
@signed_in(*HEADS)
@blueprint.doc(requestBody=PUSH)
@blueprint.response(200, PushedSchema)
def take_in_for_others() -> Taken:
    """Take in what other coaches of the club marked and cannot send: one who has left, say."""
    taken = take_in(actor().club_id, sent())
    note_looks(actor().club_id, taken.fencers, actor().coach_id, "taken in")
    return taken
