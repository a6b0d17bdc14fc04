"""Who may do what: sign-in, role, and the header that no foreign page can send."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

from flask import Response, abort, current_app, g, request

from ..rules.said import say
from ..store.access import LASTS, Actor, who

COOKIE = "cue_ladder"
HEADER = "X-Cue-Ladder"
EVERYONE = ("head", "coach", "observer")
COACHES = ("head", "coach")
HEADS = ("head",)


def signed_in(*roles: str) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """Let only these roles in; every view but signing in and health carries it.

    The view finds the coach in `actor`.
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


def check_header() -> None:
    """Refuse a change without our header: another site's page cannot add it unasked."""
    if request.method in ("GET", "HEAD", "OPTIONS") or request.headers.get(HEADER):
        return
    if request.path.startswith("/api/"):
        abort(403, f"Send the header {HEADER}: 1 with every change.")


def renew_cookie(answer: Response) -> Response:
    """Send the cookie again when the sign-in was prolonged."""
    if g.get("renewed"):
        set_cookie(answer, request.cookies[COOKIE])
    return answer


def set_cookie(answer: Response, token: str) -> None:
    """Give the browser its token."""
    answer.set_cookie(
        COOKIE,
        token,
        max_age=LASTS,
        httponly=True,
        samesite="Lax",
        secure=request.is_secure or current_app.config.get("SECURE_COOKIE", False),
        path="/",
    )
