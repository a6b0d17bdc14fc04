"""What the marks say: of a fencer over time, and of one lesson afterwards."""

from __future__ import annotations

from typing import Any

from flask_smorest import Blueprint
from marshmallow import Schema, fields
from sqlalchemy import select

from ..store.audit import note_look
from ..store.comfort import comfort_of
from ..store.db import db, now
from ..store.fencers import fencer_in
from ..store.lived import lesson_in, lived
from ..store.models import LessonDrill
from ..store.practice import practised
from ..store.worked import Worked, worked_by
from ..story import after
from ..story.by_lesson import comfort
from ..story.practice import at_home
from ..story.told import told
from .fields import Words
from .guard import EVERYONE, actor, signed_in

blueprint = Blueprint("story", __name__, url_prefix="/api", description="What the marks say")


class NamedDrillSchema(Schema):
    """Which drill."""

    id = fields.String()
    name = fields.String()
    kind = fields.String()


class DrillStorySchema(Schema):
    """One drill; each part carries its exact figures and ``words``, or is null."""

    drill = fields.Nested(NamedDrillSchema)
    chart = fields.String()
    day = fields.String()
    standing = fields.Dict()
    rungs = fields.Dict()
    cues = fields.Dict()
    reliability = fields.Dict(allow_none=True)
    smallest_read = fields.Dict(allow_none=True)
    fiercest_held = fields.Dict(allow_none=True)
    detection = fields.Dict(allow_none=True)
    heat = fields.Dict(allow_none=True)
    pace = fields.Dict(allow_none=True)
    forecast = fields.Dict()
    by_lesson = fields.Dict()
    practice = fields.Dict()


class StorySchema(Schema):
    """A fencer's drills, the one worked last first."""

    fencer = fields.String()
    drills = fields.List(fields.Nested(DrillStorySchema))
    comfort = fields.Dict()


class DrillAfterSchema(Schema):
    """What one drill of a lesson came to."""

    drill = fields.Nested(NamedDrillSchema)
    cues = fields.Integer()
    rungs = fields.List(fields.Dict())
    held = fields.List(Words())
    broke = fields.List(Words())
    next = fields.Dict()
    order = fields.Dict(allow_none=True)
    heat = fields.Dict(allow_none=True)
    observers = fields.Dict()
    alone = fields.String()
    words = Words()


class AfterSchema(Schema):
    """A lesson afterwards."""

    lesson = fields.String()
    fencer = fields.String()
    coach = fields.String()
    day = fields.String()
    closed = fields.Boolean()
    drills = fields.List(fields.Nested(DrillAfterSchema))


@blueprint.get("/fencers/<fencer_id>/story")
@signed_in(*EVERYONE)
@blueprint.response(200, StorySchema)
def story(fencer_id: str) -> dict[str, Any]:
    """Where a fencer stands and how it came to it, drill by drill."""
    fencer_in(db.session(), actor().club_id, fencer_id)
    note_look(actor().club_id, fencer_id, actor().coach_id)
    found = worked_by(actor().club_id, fencer_id)
    found.sort(key=lambda each: (each.day, each.drill_id), reverse=True)
    today = now().astimezone().date()
    home = practised(actor().club_id, fencer_id, today)
    return {
        "fencer": fencer_id,
        "drills": [
            {
                "drill": _named(each),
                **told(actor().club_id, fencer_id, each),
                "practice": at_home(home.get(each.drill_id, []), today),
            }
            for each in found
        ],
        "comfort": comfort(comfort_of(actor().club_id, fencer_id)),
    }


@blueprint.get("/lessons/<lesson_id>/after")
@signed_in(*EVERYONE)
@blueprint.response(200, AfterSchema)
def after_lesson(lesson_id: str) -> dict[str, Any]:
    """What held, what broke, and where the next lesson starts."""
    club_id = actor().club_id
    lesson = lesson_in(club_id, lesson_id)
    note_look(club_id, lesson.fencer_id, actor().coach_id)
    known = {each.drill_id: each for each in worked_by(club_id, lesson.fencer_id, archived=True)}
    ids = db.session.scalars(
        select(LessonDrill.drill_id).where(
            LessonDrill.club_id == club_id, LessonDrill.lesson_id == lesson_id
        )
    )
    drills = []
    for drill_id in sorted(ids):
        steps = lived(club_id, lesson, drill_id)
        if steps.steps and drill_id in known:
            each = known[drill_id]
            came = after.after(steps, lesson.day)
            drills.append({"drill": _named(each), "alone": each.document["alone"], **came})
    return {
        "lesson": lesson.id,
        "fencer": lesson.fencer_id,
        "coach": lesson.coach_id,
        "day": lesson.day,
        "closed": lesson.closed,
        "drills": drills,
    }


def _named(each: Worked) -> dict[str, str]:
    return {"id": each.drill_id, "name": each.document["name"], "kind": each.chart.kind.value}
