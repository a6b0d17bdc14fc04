"""The progress page of one fencer, opened by a link."""

from __future__ import annotations

from flask import Blueprint, Response, abort, make_response, render_template, request
from werkzeug.exceptions import NotFound

from ..store.links import resolve_link
from ..store.models import Fencer
from . import content, plots

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
        "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
    ),
}
# A plot opened on its own carries its own styles, and nothing else.
PLOT_POLICY = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'"


@blueprint.get("/<token>")
def page(token: str) -> Response:
    """The page, or the one page for links that do not open."""
    fencer = _fencer(token)
    return _private(make_response(render_template("progress.html", **content.page(fencer, token))))


@blueprint.get("/<token>/drill/<int:n>.svg")
def plot(token: str, n: int) -> Response:
    """Rungs over time of the page's drill ``n``; ``?tone=dark`` for a dark page."""
    fencer = _fencer(token)
    course = content.course_of(fencer, n)
    if course is None:
        abort(404)
    tone = "dark" if request.args.get("tone") == "dark" else "light"
    answer = make_response(plots.rungs_over_time(course, tone))
    answer.mimetype = "image/svg+xml"
    return _private(answer, PLOT_POLICY)


@blueprint.errorhandler(NotFound)
def closed(_: NotFound) -> Response:
    """The same for links that never were, have run out or were closed: nothing is told."""
    return _private(make_response(render_template("closed.html"), 404))


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
