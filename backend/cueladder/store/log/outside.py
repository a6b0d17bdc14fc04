"""What stands outside lessons, bouts and sets given by partners: what may be sent, and its record.

Each is told by one event: the first that tells of it gives it its id, and stands where other events
name their lesson. A correction is another such event of that id; one of its own type takes it back.
The last in the order of a lesson's events counts, whatever arrives first. What is dated past
tomorrow is kept, and counted once that day has come.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from ...rules.said import later, say
from ..db.models import Event
from ..db.rows import upsert_rows
from .bouts import bout_row, why_no_bout
from .fields import sortable
from .fold import Logged, in_lesson
from .known import TOLD_OF, Known
from .partner_sets import set_row, why_no_set
from .schemas import Why


@dataclass(frozen=True)
class _Kind:
    """What is particular to a bout, or to a set: its own checks and columns, and what is said."""

    why_no: Callable[[Known, Mapping[str, Any]], Why | None]
    row: Callable[[Mapping[str, Any], str], dict[str, Any]]
    unknown: str
    not_yours: str
    other_fencer: str


_KINDS = {
    "bout_watched": _Kind(
        why_no_bout,
        bout_row,
        later("unknown bout: send the event that tells of it first, then this"),
        later("only who watched the bout corrects it: watch it as one of your own"),
        later("is not this bout's: take the bout back, then send it anew"),
    ),
    "partner_marked": _Kind(
        why_no_set,
        set_row,
        later("unknown set: send the event that tells of it first, then this"),
        later("only who entered the set corrects it: ask that coach"),
        later("is not this set's: take the set back, then send it anew"),
    ),
}
_TELLS = {voided: told for told, (voided, _) in TOLD_OF.items()} | {told: told for told in TOLD_OF}


def why_not_outside(known: Known, event: Mapping[str, Any]) -> Why | None:
    """Why an event of a bout, or of a set by a partner, cannot be stored; or None."""
    told = _TELLS[event["type"]]
    kind = _KINDS[told]
    first = event["type"] == told and event["lesson"] == event["id"]
    of = known.outside.get(event["lesson"])
    if not first and (of is None or of.told != told):
        return {"type": [say(kind.unknown)]}
    if not first and of is not None and of.coach != event["coach"]:
        return {"type": [say(kind.not_yours)]}
    if event["type"] != told:
        return None
    if event["fencer"] in known.erased:
        return {"fencer": [say("was erased: nothing more is kept about this fencer")]}
    if event["fencer"] not in known.fencers:
        return {"fencer": [say("unknown fencer: send the fencer first")]}
    if not first and of is not None and of.fencer != event["fencer"]:
        return {"fencer": [say(kind.other_fencer)]}
    if event["drill"] not in known.charts:
        return {"drill": [say("unknown drill: load the club's drills again")]}
    return kind.why_no(known, event)


def fold_told(events: Iterable[Logged]) -> tuple[Mapping[str, Any], bool]:
    """What counts of a bout or set: its last telling, and whether it was taken back after that."""
    told = sorted(events, key=in_lesson)
    standing = [each for each in told if each.type in TOLD_OF]
    return standing[-1].payload, told[-1].type not in TOLD_OF


def fold_outside(
    session: Session, club_id: int, known: Known, new: Iterable[Mapping[str, Any]]
) -> None:
    """Renew the records of the bouts and sets of which a stored batch tells."""
    touched = {event["lesson"] for event in new if event["type"] in _TELLS}
    rows: dict[str, list[dict[str, Any]]] = {told: [] for told in TOLD_OF}
    for of in (known.outside[each] for each in sorted(touched)):
        events = session.scalars(
            select(Event).where(
                Event.club_id == club_id,
                Event.fencer_id == of.fencer,
                Event.lesson_id == of.id,
                Event.type.in_((of.told, TOLD_OF[of.told][0])),
            )
        ).all()
        said, voided = fold_told(events)
        first = next(each for each in events if each.id == of.id)
        rows[of.told].append(
            {
                "club_id": club_id,
                "id": of.id,
                "fencer_id": of.fencer,
                "coach_id": of.coach,
                "drill_id": said["drill"],
                "day": said["day"],
                "voided": voided,
                **_KINDS[of.told].row(said, sortable(first.at)),
            }
        )
    for told, (_, model) in TOLD_OF.items():
        upsert_rows(session, model.__table__, rows[told])
