"""What a phone needs of a club, in one answer."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Any

from flask_smorest import Blueprint

from ..store.bookings import bookings_between, bookings_on
from ..store.clubs import coaches_of
from ..store.drills import drills_of
from ..store.event_fields import Day
from ..store.fencers import fencers_of
from .bookings import booking_reply
from .drills import drill_reply
from .fencers import fencer_reply
from .fields import Query
from .guard import EVERYONE, actor, signed_in

blueprint = Blueprint("club", __name__, url_prefix="/api", description="The club")


# A phone gets the lessons planned for so many days before its day and after: with last week's it
# can plan the next without a network, and a week offline still knows the seven days ahead.
BEFORE, AFTER = 7, 13


class DayQuery(Query):
    """The local day on the device; the server's own where it is left out."""

    day = Day(required=False)


@blueprint.get("/club")
@signed_in(*EVERYONE)
@blueprint.arguments(DayQuery, location="query")
@blueprint.response(200)
def club(query: dict[str, str]) -> dict[str, Any]:
    """Coaches, fencers, drills, and the lessons planned for the day and around it."""
    club_id = actor().club_id
    day = query.get("day") or datetime.now().astimezone().date().isoformat()
    return {
        "id": str(club_id),
        "name": actor().club,
        "coaches": coaches_of(club_id),
        "fencers": [fencer_reply(fencer) for fencer in fencers_of(club_id)],
        "drills": [drill_reply(*each) for each in drills_of(club_id)],
        "today": [booking_reply(booking) for booking in bookings_on(club_id, day)],
        "week": [booking_reply(booking) for booking in _around(date.fromisoformat(day))],
    }


def _around(day: date) -> list[Any]:
    """One's own lessons around a day; a head coach has everyone's."""
    first, last = (_shifted(day, by) for by in (-BEFORE, AFTER))
    whose = None if actor().role == "head" else actor().coach_id
    return bookings_between(actor().club_id, first, last, whose)


def _shifted(day: date, by: int) -> str:
    """So many days on; the calendar's own end where there are none."""
    try:
        return (day + timedelta(by)).isoformat()
    except OverflowError:
        return (date.max if by > 0 else date.min).isoformat()
