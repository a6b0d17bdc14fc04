"""Rate limits on guessing."""

from __future__ import annotations

from flask import Response, current_app, request
from flask_limiter.util import get_remote_address

from ..limits import limiter
from ..store.access.clubs import sign_in_name

__all__ = ["limit_own_passphrase", "limit_pairing", "limit_sign_in", "limiter"]


def _address_and_name() -> str:
    body = request.get_json(silent=True)
    name = body.get("name") if isinstance(body, dict) else None
    return f"{get_remote_address()} {sign_in_name(name) if isinstance(name, str) else ''}"


def _name() -> str:
    return _address_and_name().partition(" ")[2]


def _failed(answer: Response) -> bool:
    return answer.status_code == 401


def _limits() -> str:
    return current_app.config["SIGN_IN_LIMITS"]


def limit_sign_in(view):  # type: ignore[no-untyped-def]
    """Limit failed attempts by address and name, by address alone, and by name from everywhere.

    The last is wide: whoever would lock a coach out by it only keeps new devices out for a while.
    """
    each = limiter.limit(_limits, key_func=_address_and_name, deduct_when=_failed)
    anywhere = limiter.limit("100 per hour", key_func=_name, deduct_when=_failed)
    return each(anywhere(limiter.limit("60 per minute", deduct_when=_failed)(view)))


def _wrong(answer: Response) -> bool:
    return answer.status_code == 422


def limit_own_passphrase(view):  # type: ignore[no-untyped-def]
    """Limit failed attempts at one's own passphrase by address."""
    return limiter.limit(_limits, deduct_when=_wrong)(view)


def limit_pairing(view):  # type: ignore[no-untyped-def]
    """Limit wrong codes by address."""
    return limiter.limit(_limits, deduct_when=_failed)(view)
