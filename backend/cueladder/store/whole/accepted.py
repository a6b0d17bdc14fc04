"""A suggestion from the club's own lessons taken up by a head coach, and taken back."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sqlalchemy import select

from ...rules import Drill, Kind
from ...rules.breaks import breaks_json
from ...rules.rule import settings_of
from ...rules.said import say
from ..db.engine import db, writing
from ..db.models import Change
from ..drills.versions import change_drill, drills_of
from ..problems import Clash, Missing
from ..replay.season import coach_names
from .learned import learned_by, settings_now

WHATS = ("rule", "breaks")
HISTORY = "learned"


def accept(club_id: int, kind: Kind, what: str, coach_id: str) -> int:
    """Give what is suggested to every drill of the kind that has what it was compared with.

    Each gets a new version; drills with a rule or breaks of their own keep them. What each had
    before stays in the history.

    Returns:
        How many drills were changed.

    Raises:
        Missing: nothing is suggested.
        Clash: it was accepted already.
    """
    figures = _figures(club_id, kind)
    new = _suggested(figures, kind, what)
    if new is None:
        raise Missing(say("Nothing is suggested here: look at the lessons again."))
    if standing(club_id, kind, what) is not None:
        raise Clash(say("This was accepted already; take it back first."))
    before: dict[str, Any] = {}
    for drill, version in drills_of(club_id):
        if drill.archived or Kind(version.document["kind"]) is not kind:
            continue
        if not _has(version, kind, what, figures):
            continue
        before[drill.id] = version.document.get(what)
        _put(club_id, drill.id, version.document, what, new, coach_id)
    _note(club_id, kind, what, before, {"taken": True, what: new}, coach_id)
    return len(before)


def take_back(club_id: int, kind: Kind, what: str, coach_id: str) -> int:
    """Give the drills back what they had; one that was changed again since is left as it is.

    Raises:
        Missing: nothing was accepted.
    """
    change = standing(club_id, kind, what)
    if change is None:
        raise Missing(say("Nothing was accepted here that could be taken back."))
    old, new = change.old, change.new[what]
    back = 0
    for drill, version in drills_of(club_id):
        if drill.id in old and version.document.get(what) == new:
            _put(club_id, drill.id, version.document, what, old[drill.id], coach_id)
            back += 1
    _note(club_id, kind, what, {"taken": True, what: new}, {"taken": False}, coach_id)
    return back


def standing(club_id: int, kind: Kind, what: str) -> Change | None:
    """The last acceptance, unless it was taken back."""
    last = db.session.scalar(_changes(club_id, kind, what).limit(1))
    return last if last is not None and last.new.get("taken") else None


def history(club_id: int, kind: Kind) -> list[dict[str, Any]]:
    """What was accepted and taken back, newest first."""
    names = coach_names(club_id)
    found = [
        {
            "what": what,
            "taken": bool(change.new.get("taken")),
            "coach": names.get(change.coach_id),
            "at": change.changed_at.isoformat(),
        }
        for what in WHATS
        for change in db.session.scalars(_changes(club_id, kind, what))
    ]
    return sorted(found, key=lambda one: one["at"], reverse=True)


def _changes(club_id: int, kind: Kind, what: str) -> Any:
    return (
        select(Change)
        .where(
            Change.club_id == club_id, Change.kind == HISTORY,
            Change.object_id == kind.value, Change.field == what,
        )
        .order_by(Change.id.desc())
    )  # fmt: skip


def _figures(club_id: int, kind: Kind) -> Mapping[str, Any]:
    row = learned_by(club_id)
    found = [one for one in (row.figures if row else []) if one["kind"] == kind.value]
    if not found:
        raise Missing(say("Nothing is suggested here: look at the lessons again."))
    return found[0]


def _suggested(figures: Mapping[str, Any], kind: Kind, what: str) -> Any:
    if what == "breaks":
        return figures["new_breaks"]
    name = figures["suggested"]
    return settings_of(kind)[name].to_json() if name else None


def _has(version: Any, kind: Kind, what: str, figures: Mapping[str, Any]) -> bool:
    """Whether a drill has what the suggestion was compared with."""
    if what == "breaks":
        return breaks_json(Drill.from_json(version.document).breaks) == figures["breaks"]
    return settings_now(kind, version)[1] == figures["now"]


def _put(
    club_id: int, drill_id: str, document: Mapping[str, Any], what: str, value: Any, coach_id: str
) -> None:
    changed = {key: each for key, each in document.items() if key != what}
    if value is not None:
        changed[what] = value
    change_drill(club_id, drill_id, changed, False, coach_id)


def _note(club_id: int, kind: Kind, what: str, old: Any, new: Any, coach_id: str) -> None:
    with writing() as session:
        session.add(
            Change(
                club_id=club_id, kind=HISTORY, object_id=kind.value, field=what, old=old, new=new,
                coach_id=coach_id,
            )
        )  # fmt: skip
