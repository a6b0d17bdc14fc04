"""Bouts: what may be sent of them, and the record they fold to.

A bout is an event a bout, outside lessons: the event that tells of it first gives it its id, and
stands where other events name their lesson. A correction is another ``bout_watched`` of that bout;
``bout_voided`` takes it back. The last in the order of a lesson's events counts, whatever arrives
first. One dated past tomorrow is kept, and counted once that day has come.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from ...rules.said import say
from ..db.models import Bout, Event
from ..db.rows import upsert_rows
from .fields import sortable
from .fold import Logged, in_lesson
from .known import WATCHED, Known
from .schemas import Why

COUNTS = ("met", "answered", "shown", "fallen", "scored", "conceded")
# (part, whole): of the real ones met so many were answered, of the feints shown so many fallen for
PARTS = (("answered", "met"), ("fallen", "shown"))


def why_not_watched(known: Known, event: Mapping[str, Any]) -> Why | None:
    """Why an event of a bout cannot be stored, or None."""
    first = event["type"] == "bout_watched" and event["lesson"] == event["id"]
    bout = known.bouts.get(event["lesson"])
    if not first and bout is None:
        return {"type": [say("unknown bout: send the event that tells of it first, then this")]}
    if not first and bout is not None and bout.coach != event["coach"]:
        return {"type": [say("only who watched the bout corrects it: watch it as one of your own")]}
    if event["type"] == "bout_voided":
        return None
    if event["fencer"] in known.erased:
        return {"fencer": [say("was erased: nothing more is kept about this fencer")]}
    if event["fencer"] not in known.fencers:
        return {"fencer": [say("unknown fencer: send the fencer first")]}
    if bout is not None and bout.fencer != event["fencer"]:
        return {"fencer": [say("is not this bout's: take the bout back, then send it anew")]}
    if event["drill"] not in known.charts:
        return {"drill": [say("unknown drill: load the club's drills again")]}
    for part, whole in PARTS:
        if event[part] > event[whole]:
            most = event[whole]
            return {part: [say("should be at most %(most)s: no more than there were", most=most)]}
    return None


def fold_bout(events: Iterable[Logged]) -> tuple[Mapping[str, Any], bool]:
    """What counts of a bout: its last telling, and whether it was taken back after that."""
    told = sorted(events, key=in_lesson)
    watched = [each for each in told if each.type == "bout_watched"]
    return watched[-1].payload, told[-1].type == "bout_voided"


def fold_bouts(session: Session, club_id: int, known: Known, new: list[Mapping[str, Any]]) -> None:
    """Renew the records of the bouts of which a stored batch tells."""
    rows = []
    for bout in (known.bouts[each] for each in _bouts_in(new)):
        events = session.scalars(
            select(Event).where(
                Event.club_id == club_id,
                Event.fencer_id == bout.fencer,
                Event.lesson_id == bout.id,
                Event.type.in_(WATCHED),
            )
        ).all()
        said, voided = fold_bout(events)
        first = next(each for each in events if each.id == bout.id)
        rows.append(
            {
                "club_id": club_id,
                "id": bout.id,
                "fencer_id": bout.fencer,
                "coach_id": bout.coach,
                "drill_id": said["drill"],
                "day": said["day"],
                "watched_at": sortable(first.at),
                **{name: said[name] for name in COUNTS},
                "voided": voided,
            }
        )
    upsert_rows(session, Bout.__table__, rows)


def _bouts_in(new: Iterable[Mapping[str, Any]]) -> list[str]:
    return sorted({event["lesson"] for event in new if event["type"] in WATCHED})
