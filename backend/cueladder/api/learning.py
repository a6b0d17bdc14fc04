"""What the club's own lessons teach: for head coaches."""

from __future__ import annotations

import logging
import threading
from typing import Any

from flask import Flask, Response, abort, current_app

from ..evidence.learning.numbers import numbers_of
from ..language import language
from ..rules import Kind
from ..rules.said import say
from ..store.db.engine import db
from ..store.whole import accepted, learned
from ..story.learned import told
from .blueprint import Blueprint
from .drawn import drawn
from .guard import HEADS, actor, signed_in
from .pictures import ToneQuery
from .replies.base import FILE
from .replies.learning import LearningSchema, NumbersSchema

blueprint = Blueprint(
    "learning", __name__, url_prefix="/api/club/learning", description="What the lessons teach"
)
log = logging.getLogger(__name__)


@blueprint.get("")
@signed_in(*HEADS)
@blueprint.response(200, LearningSchema)
def read() -> dict[str, Any]:
    """The last look at the club's lessons, in words and figures."""
    return _reply()


@blueprint.post("")
@signed_in(*HEADS)
@blueprint.response(202, LearningSchema)
def look() -> dict[str, Any]:
    """Look at all lessons anew; it takes a while, and the figures so far stay until then."""
    club_id = actor().club_id
    if learned.ask(club_id):
        app: Flask = current_app._get_current_object()  # type: ignore[attr-defined]
        if app.config["LEARN_AT_ONCE"]:
            _look(club_id)
        else:
            threading.Thread(target=_inside, args=(app, club_id), name="learn", daemon=True).start()
    return _reply()


@blueprint.get("/numbers")
@signed_in(*HEADS)
@blueprint.response(200, NumbersSchema)
def numbers() -> dict[str, Any]:
    """The file of numbers alone that a club may give away, as it would be saved."""
    row = learned.learned_by(actor().club_id)
    return numbers_of(row.figures if row else [])


@blueprint.post("/<kind>/<what>")
@signed_in(*HEADS)
@blueprint.response(200, LearningSchema)
def accept(kind: str, what: str) -> dict[str, Any]:
    """Accept a suggestion: a new version of every drill of the kind that it was made for."""
    accepted.accept(actor().club_id, *_named(kind, what), actor().coach_id)
    return _reply()


@blueprint.delete("/<kind>/<what>")
@signed_in(*HEADS)
@blueprint.response(200, LearningSchema)
def take_back(kind: str, what: str) -> dict[str, Any]:
    """Take it back: the drills get what they had before."""
    accepted.take_back(actor().club_id, *_named(kind, what), actor().coach_id)
    return _reply()


@blueprint.get("/<kind>/<name>.svg")
@signed_in(*HEADS)
@blueprint.arguments(ToneQuery, location="query")
@blueprint.response(200, FILE, content_type="image/svg+xml")
def picture(query: dict[str, str], kind: str, name: str) -> Response:
    """Share right by rung, by days away (gap) or by lesson, beside what the fit expects."""
    row = learned.learned_by(actor().club_id)
    found = [one for one in (row.figures if row else []) if one["kind"] == kind]
    if not found or not found[0]["beside"] or not found[0]["beside"].get(name):
        abort(404, say("There is nothing to draw of this yet."))
    from ..pages import learned_plots  # matplotlib takes a second to import

    tone = "dark" if query["tone"] == "dark" else "light"
    return drawn(learned_plots.draw(name, found[0]["beside"][name], tone, language()))


def _named(kind: str, what: str) -> tuple[Kind, str]:
    if kind not in list(Kind) or what not in accepted.WHATS:
        abort(404, say("No such suggestion: it is of a kind of drill, its rule or its breaks."))
    return Kind(kind), what


def _reply() -> dict[str, Any]:
    db.session.expire_all()
    club_id = actor().club_id
    row = learned.learned_by(club_id)
    return {
        "running": row is not None and learned.running(row),
        "trouble": row is not None and row.trouble,
        "at": row.done_at.isoformat() if row and row.done_at else None,
        "kinds": [
            {
                **told(one),
                "accepted": [
                    what
                    for what in accepted.WHATS
                    if accepted.standing(club_id, Kind(one["kind"]), what) is not None
                ],
                "history": accepted.history(club_id, Kind(one["kind"])),
            }
            for one in (row.figures if row else [])
        ],
    }


def _inside(app: Flask, club_id: int) -> None:
    with app.app_context():
        try:
            _look(club_id)
        finally:
            db.session.remove()


def _look(club_id: int) -> None:
    try:
        learned.keep(club_id, learned.work_out(club_id))
    except Exception:  # said on the page; the figures so far stay
        log.exception("the club's lessons could not be looked at")
        db.session.rollback()
        learned.failed(club_id)
