"""The event log: push and pull."""

from __future__ import annotations

from typing import Any

from flask import abort, request

from ..store.log.cursor import events_after
from ..store.log.ingest import Taken, take_in
from .blueprint import Blueprint
from .fields import Cursor
from .guard import EVERYONE, actor, signed_in
from .replies.log import MOST, PUSH, EventsSchema, PushedSchema

blueprint = Blueprint("events", __name__, url_prefix="/api/events", description="The log")


@blueprint.post("")
@signed_in(*EVERYONE)
@blueprint.doc(requestBody=PUSH)
@blueprint.response(200, PushedSchema)
def push() -> Taken:
    """Send events. Each is judged on its own: stored, already there, or refused with the reason."""
    return take_in(actor().club_id, sent(), actor().coach_id)


@blueprint.get("")
@signed_in(*EVERYONE)
@blueprint.arguments(Cursor, location="query")
@blueprint.response(200, EventsSchema)
def pull(query: dict[str, int]) -> dict[str, Any]:
    """What one marked and wrote, after a cursor; of others only that a lesson began or ended."""
    page = events_after(actor().club_id, actor().coach_id, query["after"], query["limit"])
    return {"events": page.rows, "next": page.next, "more": page.more}


def sent() -> list[Any]:
    """The events in the body, each still to be checked."""
    body = request.get_json()
    events = body.get("events") if isinstance(body, dict) else None
    if not isinstance(events, list):
        abort(422, 'Send {"events": [...]}.')
    if len(events) > MOST:
        abort(413, f"Send at most {MOST} events at once.")
    return events
