"""Authorisation: sign-in, roles, and the header that protects against cross-site requests."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

from flask import Response, abort, current_app, g, request

from ..rules.said import say
from ..store.access.sessions import LASTS, Actor, who
from ..store.log.fields import BROKEN

COOKIE = "cue_ladder"
HEADER = "X-Cue-Ladder"
EVERYONE = ("head", "coach", "observer")
COACHES = ("head", "coach")
HEADS = ("head",)


def signed_in(*roles: str) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """Restrict a view to these roles; the view finds the coach in `actor`.

    Every view needs it but sign-in, set-up and health.
    """

    def decorate(view: Callable[..., Any]) -> Callable[..., Any]:
        @wraps(view)
        def guarded(*args: Any, **kwargs: Any) -> Any:
            found = who(request.cookies.get(COOKIE, ""))
            if found is None:
                abort(401, say("Sign in to go on. What is on this device stays here until then."))
            g.actor, g.renewed = found
            if g.actor.role not in roles:
                abort(
                    403,
                    say(
                        "This needs the role %(roles)s; yours is %(role)s.",
                        roles=", ".join(roles),
                        role=g.actor.role,
                    ),
                )
            return view(*args, **kwargs)

        guarded.roles = roles
        return guarded

    return decorate


def actor() -> Actor:
    """The coach who is signed in."""
    return g.actor


def check_text() -> None:
    """Refuse an address that no database can hold, before it gets to one.

    In a body every field sees to it by itself.
    """
    if BROKEN.search(request.path):
        abort(404)
    said = (text for name, values in request.args.lists() for text in (name, *values))
    if any(BROKEN.search(text) for text in said):
        abort(400, say("The address contains a broken character: remove it."))


def check_header() -> None:
    """Refuse a change without our header, which a cross-site form cannot send (CSRF)."""
    if request.method in ("GET", "HEAD", "OPTIONS") or request.headers.get(HEADER):
        return
    if request.path.startswith("/api/"):
        abort(403, f"Send the header {HEADER}: 1 with every change.")


def renew_cookie(answer: Response) -> Response:
    """Send the cookie again when the session was extended."""
    if g.get("renewed"):
        set_cookie(answer, request.cookies[COOKIE])
    return answer


def set_cookie(answer: Response, token: str) -> None:
    """Set the session cookie."""
    answer.set_cookie(
        COOKIE,
        token,
        max_age=LASTS,
        httponly=True,
        samesite="Lax",
        secure=request.is_secure or current_app.config.get("SECURE_COOKIE", False),
        path="/",
    )
