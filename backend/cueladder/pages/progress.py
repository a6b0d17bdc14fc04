"""The progress page of one fencer, opened by its link."""

from __future__ import annotations

import re
from contextlib import nullcontext
from typing import Any

from flask import (
    Blueprint,
    Response,
    abort,
    current_app,
    make_response,
    redirect,
    render_template,
    request,
    url_for,
)
from sqlalchemy.exc import OperationalError
from werkzeug.exceptions import HTTPException, NotFound, TooManyRequests

from ..language import LANGUAGES, language, speaker, told
from ..limits import limiter
from ..store.access.links import resolve_link
from ..store.access.sessions import digest_of
from ..store.db.engine import db, now, reading_replica
from ..store.db.models import Fencer
from ..store.log.audit import note_look
from ..store.problems import Missing
from ..store.replay.practice import tick
from . import content

blueprint = Blueprint(
    "pages",
    __name__,
    url_prefix="/p",
    template_folder="templates",
    static_folder="static",
    static_url_path="/static",
)

HEADERS = {
    "Cache-Control": "no-store",
    "Referrer-Policy": "no-referrer",
    "X-Robots-Tag": "noindex, nofollow, noarchive",
    "Content-Security-Policy": (
        "default-src 'none'; style-src 'self'; img-src 'self'; "
        "base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
    ),
}
# A plot opened on its own may use its inline styles, and nothing else.
PLOT_POLICY = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'"


def _by_link() -> str:
    return digest_of((request.view_args or {}).get("token", ""))


@blueprint.context_processor
def _spoken() -> dict[str, Any]:
    return {"lang": language(), "languages": LANGUAGES}


@blueprint.get("/<token>")
def page(token: str) -> Response:
    """The progress page, or the same notice for every link that is not valid."""
    fencer = _fencer(token)
    note_look(fencer.club_id, fencer.id, None, "page opened")
    # a tick made just now may not have reached the replica yet
    with nullcontext() if "ticked" in request.args else reading_replica():
        shown = told(content.page(fencer, token))
    return _private(make_response(render_template("progress.html", **shown)))


@blueprint.post("/<token>/practice")
@limiter.limit("20 per minute;200 per day", key_func=_by_link)
@limiter.limit("60 per minute")
def practice(token: str) -> Response:
    """Tick off a drill practised today, or undo it; the only write a link allows."""
    fencer = _fencer(token)
    today = now().astimezone().date()
    drill, done = request.form.get("drill", ""), request.form.get("done") != "no"
    try:
        tick(fencer.club_id, fencer.id, drill, today, done)
    except Missing:
        abort(404)
    back = url_for("pages.page", token=token, lang=language(), ticked=1) + f"#practice-{drill}"
    return _private(make_response(redirect(back, 303)))


@blueprint.get("/<token>/drill/<n>.svg")
def plot(token: str, n: str) -> Response:
    """Rungs over time of the page's drill ``n``; ``?tone=dark`` for a dark page."""
    from . import plots  # matplotlib takes a second to import

    fencer = _fencer(token)
    if not re.fullmatch("[0-9]{1,4}", n):
        abort(404)
    with reading_replica():
        course = content.course_of(fencer, int(n))
    if course is None:
        abort(404)
    tone = "dark" if request.args.get("tone") == "dark" else "light"
    answer = make_response(plots.rungs_over_time(course, tone, speaker()))
    answer.mimetype = "image/svg+xml"
    return _private(answer, PLOT_POLICY)


@blueprint.errorhandler(NotFound)
def closed(_: NotFound) -> Response:
    """One notice for unknown, expired and revoked links, which reveals nothing."""
    return _private(make_response(render_template("closed.html"), 404))


@blueprint.errorhandler(TooManyRequests)
def slower(_: TooManyRequests) -> Response:
    """The notice for too many requests."""
    return _private(make_response(render_template("slower.html"), 429))


@blueprint.errorhandler(Exception)
def trouble(error: Exception) -> Response:
    """A fault of ours, or a database that does not answer: told to a parent as a page, too."""
    db.session.rollback()
    if isinstance(error, HTTPException):
        return _private(error.get_response())
    current_app.logger.error("unforeseen error", exc_info=error)
    busy = isinstance(error, OperationalError)
    answer = _private(make_response(render_template("trouble.html"), 503 if busy else 500))
    answer.headers["Retry-After"] = "60"
    return answer


def _fencer(token: str) -> Fencer:
    fencer = resolve_link(token)
    if fencer is None:
        abort(404)
    return fencer


def _private(answer: Response, policy: str | None = None) -> Response:
    answer.headers.update(HEADERS)
    if policy:
        answer.headers["Content-Security-Policy"] = policy
    return answer
