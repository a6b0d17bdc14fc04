"""Content of the season page: one sheet about one fencer, compared with nobody."""

from __future__ import annotations

from typing import Any

from sqlalchemy import select

from ..evidence.claims import REGISTER
from ..rules.said import joined, say_day
from ..store.db.engine import db, now
from ..store.db.models import Club, Fencer
from ..store.replay.worked import worked_by
from ..story.beyond.bouts import in_bouts
from ..story.beyond.goals import goals_in_words
from ..story.beyond.season import season_of
from ..story.beyond.where import Around, where_held
from ..story.drill_text import drill_text
from ..story.standing import standing

# So much fits on one sheet, in whatever letters: what was worked or watched last comes first.
DRILLS, BOUTS, GOALS = 8, 5, 3


def page(fencer: Fencer) -> dict[str, Any]:
    """Everything the template shows, in words of the register of claims."""
    club_id, today = fencer.club_id, now().astimezone().date()
    worked = worked_by(club_id, fencer.id)
    worked.sort(key=lambda each: (each.day, each.drill_id), reverse=True)
    around = Around.of(club_id, today)
    drills = []
    for each in worked[:DRILLS]:
        held = where_held(club_id, fencer.id, each.drill_id, each.chart, each.walk, around)
        stands = standing(each.chart, each.walk)["words"]
        words = joined([stands, held["words"] if held else ""])
        drills.append({"name": drill_text(each.document, "name"), "words": words})
    bouts = [
        {
            "name": each["drill"]["name"],
            "words": joined([each["words"], _found(each["apart"])]),
        }
        for each in in_bouts(club_id, fencer.id, worked)
    ]
    goals = [
        {"name": each["drill"]["name"], "words": each["words"]}
        for each in goals_in_words(club_id, fencer.id, today)
    ]
    season = season_of(club_id, fencer.id, today)
    return {
        "name": fencer.nickname,
        "club": db.session.scalar(select(Club.name).where(Club.id == club_id)),
        "today": say_day(today),
        "first": say_day(season["first"]) if season["first"] else None,
        "lessons": season["lessons"],
        "drills": drills,
        "more_drills": len(worked) - len(drills),
        "goals": goals[-GOALS:],
        "bouts": bouts[:BOUTS],
        "more_bouts": max(0, len(bouts) - BOUTS),
        "kept": season["kept"]["words"],
        "heat": season["heat"]["words"],
        "double": season["double"]["words"],
    }


def _found(claim: dict[str, Any] | None) -> str:
    """What was found out; that something cannot be told yet is for the coach's own page."""
    if claim is None or REGISTER[claim["claim"]].kind != "finding":
        return ""
    return claim["words"]
