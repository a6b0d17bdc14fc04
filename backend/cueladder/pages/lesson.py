"""The last lesson, summarised for the fencer."""

from __future__ import annotations

from datetime import date
from typing import Any

from sqlalchemy import select

from ..evidence.words import cues
from ..rules.said import Said, say, say_day
from ..store.db.engine import db
from ..store.db.models import Fencer, Lesson, LessonDrill
from ..store.replay.lived import lived
from ..store.replay.worked import Worked
from ..story.after import after
from ..story.drill_text import drill_text
from ..story.plain import rungs_listed


def last_lesson(fencer: Fencer, today: date, drills: dict[str, Worked]) -> dict[str, Any] | None:
    """The last lesson's drills and what held."""
    lesson = db.session.scalar(
        select(Lesson)
        .where(Lesson.club_id == fencer.club_id, Lesson.fencer_id == fencer.id)
        .order_by(Lesson.day.desc(), Lesson.opened_at.desc(), Lesson.id.desc())
        .limit(1)
    )
    if lesson is None:
        return None
    mine = (LessonDrill.club_id == fencer.club_id, LessonDrill.lesson_id == lesson.id)
    parts = []
    for drill_id in db.session.scalars(select(LessonDrill.drill_id).where(*mine)):
        if drill_id in drills:
            steps = lived(fencer.club_id, lesson, drill_id)
            came = after(steps, lesson.day)
            parts.append(
                {"name": drill_text(drills[drill_id].document, "name"), "words": _came(came)}
            )
    here = lesson.day == today.isoformat()
    title = say("Today's lesson")
    if not here:
        title = say("Last lesson, %(day)s", day=say_day(lesson.day))
    return {"today": here, "title": title, "drills": sorted(parts, key=lambda part: part["name"])}


def _came(came: dict[str, Any]) -> Said:
    """One drill of the lesson, summarised for the fencer."""
    held, again = (
        rungs_listed([rung for rung in came["rungs"] if rung[how]]) for how in ("held", "broke")
    )
    values = {"cues": cues(came["cues"]), "held": held, "again": again}
    if held and again:
        return say("%(cues)s: %(held)s went well; %(again)s will come again.", **values)
    if held:
        return say("%(cues)s: %(held)s went well.", **values)
    if any(rung["broke"] and not rung["failed"] for rung in came["rungs"]):
        return say("%(cues)s: %(again)s asked a lot, so a smaller step comes first.", **values)
    if again:
        return say("%(cues)s: %(again)s will come again.", **values)
    return say("%(cues)s: good practice, to be continued.", **values)
