"""The built front end, and the headers of every response."""

from __future__ import annotations

from pathlib import Path

from flask import Blueprint, Flask, Response, abort, current_app, request, send_from_directory
from werkzeug.security import safe_join

site = Blueprint("site", __name__)

POLICY = "; ".join(
    (
        "default-src 'self'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data: blob:",
        "worker-src 'self'",
        "manifest-src 'self'",
        "connect-src 'self'",
        "object-src 'none'",
        "base-uri 'none'",
        "form-action 'self'",
        "frame-ancestors 'none'",
    )
)
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(self), microphone=(), geolocation=(), payment=()",
}
# File names with a content hash.
HASHED = "assets/"


def init_app(app: Flask) -> None:
    """Register the front end and the headers."""
    app.register_blueprint(site)
    app.after_request(_headers)


@site.get("/", defaults={"name": ""})
@site.get("/<path:name>")
def front_end(name: str) -> Response:
    """A file of the front end, or its page for every route of the app.

    A missing file is a 404, never the page: caches must not store the page as if it were code.
    """
    if name == "api" or name.startswith(("api/", "p/", "guide/")):
        abort(404)
    folder = Path(current_app.config["STATIC"])
    known = bool(name) and _is_file(folder, name)
    if not known and (name.startswith(HASHED) or "." in name.rsplit("/", 1)[-1]):
        abort(404, "No such file. If the app was just updated, load it again.")
    if not known and not (folder / "index.html").is_file():
        abort(404, "The front end is not built. Build it, then start the server again.")
    answer = send_from_directory(folder, name if known else "index.html", conditional=True)
    fixed = known and name.startswith(HASHED)
    answer.headers["Cache-Control"] = "public, max-age=31536000, immutable" if fixed else "no-cache"
    return answer


def _is_file(folder: Path, name: str) -> bool:
    """Whether there is such a file in the folder; what lies outside is not looked at."""
    inside = safe_join(str(folder), name)
    try:
        return inside is not None and Path(inside).is_file()
    except (OSError, ValueError):  # too long for a name, or no name at all
        return False


def _headers(answer: Response) -> Response:
    for name, value in HEADERS.items():
        answer.headers.setdefault(name, value)
    if request.is_secure:
        answer.headers.setdefault("Strict-Transport-Security", "max-age=31536000")
    if request.path.startswith("/api"):
        answer.headers.setdefault("Cache-Control", "no-store")
    return answer
