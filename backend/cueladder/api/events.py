"""The log: push and pull."""

from __future__ import annotations

from typing import Any

from flask import abort, jsonify, request
from flask_smorest import Blueprint

from ..store.cursor import events_after
from ..store.ingest import take_in
from .fields import Cursor
from .guard import EVERYONE, actor, signed_in
from .push_doc import PUSH, PUSHED

blueprint = Blueprint("events", __name__, url_prefix="/api/events", description="The log")

MOST = 500


@blueprint.post("")
@signed_in(*EVERYONE)
@blueprint.doc(requestBody=PUSH, responses={"200": PUSHED})
def push() -> Any:
    """Send events. Each is judged on its own: stored, already there, or refused with the reason."""
    body = request.get_json()
    events = body.get("events") if isinstance(body, dict) else None
    if not isinstance(events, list):
        abort(422, 'Send {"events": [...]}.')
    if len(events) > MOST:
        abort(413, f"Send at most {MOST} events at once.")
    taken = take_in(actor().club_id, events, actor().coach_id)
    return jsonify(
        results=taken.results, lessons=taken.lessons, standings=taken.standings, seq=taken.seq
    )


@blueprint.get("")
@signed_in(*EVERYONE)
@blueprint.arguments(Cursor, location="query")
@blueprint.response(200)
def pull(query: dict[str, int]) -> dict[str, Any]:
    """Events stored after a cursor."""
    page = events_after(actor().club_id, query["after"], query["limit"])
    return {"events": page.rows, "next": page.next, "more": page.more}
