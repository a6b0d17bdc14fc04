"""A fencer's story, and the summary of one lesson."""

from __future__ import annotations

from typing import Any

from sqlalchemy import select

from ..store.db.engine import db, now
from ..store.db.models import LessonDrill
from ..store.fencers.edit import fencer_in
from ..store.fencers.notes import notes_of
from ..store.log.audit import note_look
from ..store.replay.comfort import comfort_of
from ..store.replay.lived import lesson_in, lived, next_cues
from ..store.replay.practice import practised
from ..store.replay.worked import Worked, worked_by
from ..story import after
from ..story.beyond.bouts import in_bouts
from ..story.beyond.partners import by_partners
from ..story.beyond.where import Around, where_held
from ..story.by_lesson import comfort
from ..story.drill_text import drill_text
from ..story.practice import at_home
from ..story.told import drill_story
from .blueprint import Blueprint
from .guard import COACHES, EVERYONE, actor, signed_in
from .replies.after import AfterSchema, NextCuesSchema
from .replies.story import StorySchema

blueprint = Blueprint("story", __name__, url_prefix="/api", description="What the marks say")


@blueprint.get("/fencers/<fencer_id>/story")
@signed_in(*EVERYONE)
@blueprint.response(200, StorySchema)
def story(fencer_id: str) -> dict[str, Any]:
    """Where a fencer stands and how they got there, drill by drill."""
    fencer_in(db.session(), actor().club_id, fencer_id)
    note_look(actor().club_id, fencer_id, actor().coach_id)
    found = worked_by(actor().club_id, fencer_id)
    found.sort(key=lambda each: (each.day, each.drill_id), reverse=True)
    today = now().astimezone().date()
    home = practised(actor().club_id, fencer_id, today)
    around = Around.of(actor().club_id, today)
    return {
        "fencer": fencer_id,
        "drills": [
            {
                "drill": _named(each),
                **drill_story(actor().club_id, fencer_id, each),
                "where": _where(fencer_id, each, around),
                "practice": at_home(home.get(each.drill_id, []), today),
            }
            for each in found
        ],
        "bouts": in_bouts(actor().club_id, fencer_id, found),
        "partners": by_partners(actor().club_id, fencer_id),
        "comfort": comfort(comfort_of(actor().club_id, fencer_id)),
        "notes": notes_of(actor().club_id, fencer_id) if actor().role in COACHES else [],
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
    around = Around.of(club_id, now().astimezone().date())
    for drill_id in sorted(ids):
        steps = lived(club_id, lesson, drill_id)
        if steps.steps and drill_id in known:
            each = known[drill_id]
            came = after.after(steps, lesson.day)
            drills.append(
                {
                    "drill": _named(each),
                    "alone": drill_text(each.document, "alone"),
                    "where": _where(lesson.fencer_id, each, around),
                    **came,
                }
            )
    return {
        "lesson": lesson.id,
        "fencer": lesson.fencer_id,
        "coach": lesson.coach_id,
        "day": lesson.day,
        "closed": lesson.closed,
        "drills": drills,
    }


@blueprint.get("/lessons/<lesson_id>/cues")
@signed_in(*EVERYONE)
@blueprint.response(200, NextCuesSchema)
def cues(lesson_id: str) -> dict[str, Any]:
    """The cue a lesson's coach is at, without any mark: a second person marks by its number."""
    drill, numbers = next_cues(actor().club_id, lesson_in(actor().club_id, lesson_id))
    return {"drill": drill, "numbers": numbers}


def _where(fencer_id: str, each: Worked, around: Around) -> dict[str, Any] | None:
    return where_held(actor().club_id, fencer_id, each.drill_id, each.chart, each.walk, around)


def _named(each: Worked) -> dict[str, str]:
    return {
        "id": each.drill_id,
        "name": drill_text(each.document, "name"),
        "kind": each.chart.kind.value,
    }
