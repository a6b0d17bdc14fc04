"""Everything a phone needs to know about its club, in one reply."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Any

from ..store.access.clubs import coaches_of
from ..store.drills.versions import drills_of
from ..store.fencers.bookings import bookings_between, bookings_on
from ..store.fencers.edit import fencers_of
from ..store.fencers.notes import last_notes
from ..store.log.fields import Day
from ..store.log.settle import lessons_removed
from ..store.replay.settings import LATELY, places_of
from .blueprint import Blueprint
from .drills import drill_reply
from .fields import Query
from .guard import COACHES, EVERYONE, actor, signed_in
from .replies.club import ClubSchema

blueprint = Blueprint("club", __name__, url_prefix="/api", description="The club")


# Days of planned lessons sent before and after the phone's day: last week's to copy from offline,
# and enough ahead that a phone a week offline still has the next seven days.
BEFORE, AFTER = 7, 13


class DayQuery(Query):
    """The device's local day; defaults to the server's."""

    day = Day(required=False)


@blueprint.get("/club")
@signed_in(*EVERYONE)
@blueprint.arguments(DayQuery, location="query")
@blueprint.response(200, ClubSchema)
def club(query: dict[str, str]) -> dict[str, Any]:
    """Coaches, fencers, drills, and the planned lessons of the day and around it."""
    club_id = actor().club_id
    day = query.get("day") or datetime.now().astimezone().date().isoformat()
    today, week = bookings_on(club_id, day), _around(date.fromisoformat(day))
    coming = {one.fencer_id for one in [*today, *week] if one.day >= day}
    return {
        "id": str(club_id),
        "name": actor().club,
        "coaches": coaches_of(club_id),
        "fencers": fencers_of(club_id),
        "drills": [drill_reply(*each) for each in drills_of(club_id)],
        "today": today,
        "week": week,
        "notes": last_notes(club_id, coming, day) if actor().role in COACHES else [],
        "removed": lessons_removed(club_id),
        "places": places_of(club_id, _shifted(date.fromisoformat(day), -LATELY)),
    }


def _around(day: date) -> list[Any]:
    """The coach's own lessons around a day; everyone's for a head coach."""
    first, last = (_shifted(day, by) for by in (-BEFORE, AFTER))
    whose = None if actor().role == "head" else actor().coach_id
    return bookings_between(actor().club_id, first, last, whose)


def _shifted(day: date, by: int) -> str:
    """A day so many days later, clamped to the calendar's ends."""
    try:
        return (day + timedelta(by)).isoformat()
    except OverflowError:
        return (date.max if by > 0 else date.min).isoformat()
