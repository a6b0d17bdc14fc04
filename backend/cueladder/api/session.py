"""Sign-in, sign-out, and pairing a phone with a code."""

from __future__ import annotations

from typing import Any

from flask import Response, abort, jsonify, request
from marshmallow import Schema

from ..rules.said import say
from ..store.access import clubs
from ..store.access import sessions as access
from ..store.log.fields import Id, Text
from .blueprint import Blueprint
from .guard import COOKIE, EVERYONE, actor, set_cookie, signed_in
from .limits import limit_pairing, limit_sign_in
from .qr import qr_code
from .replies.access import PairingSchema, SessionSchema

blueprint = Blueprint("session", __name__, url_prefix="/api", description="Signing in and out")


# What a phone of an older version says of itself. It decides nothing: anyone can say it.
SAID = Id(required=False, metadata={"deprecated": True})


class SignInSchema(Schema):
    """Name and passphrase."""

    name = Text(80)
    passphrase = Text(clubs.LONGEST)
    device = SAID


class PairSchema(Schema):
    """A code from a device that is signed in already."""

    code = Text(40)
    device = SAID


@blueprint.post("/session")
@limit_sign_in
@blueprint.arguments(SignInSchema)
@blueprint.response(200, SessionSchema)
def sign_in(body: dict[str, str]) -> Response:
    """Sign in."""
    token = access.sign_in(body["name"], body["passphrase"], browser())
    if token is None:
        abort(401, say("Name or passphrase is wrong."))
    return welcome(token)


@blueprint.get("/session")
@signed_in(*EVERYONE)
@blueprint.response(200, SessionSchema)
def session() -> dict[str, Any]:
    """Who is signed in."""
    return _who(actor())


@blueprint.delete("/session")
@blueprint.response(204)
def sign_out() -> Response:
    """Sign out; does nothing when nobody is signed in."""
    access.sign_out(request.cookies.get(COOKIE, ""))
    answer = Response(status=204)
    answer.delete_cookie(COOKIE, path="/")
    return answer


@blueprint.post("/pairings")
@signed_in(*EVERYONE)
@blueprint.response(201, PairingSchema)
def new_pairing() -> dict[str, Any]:
    """Create a pairing code, also as a QR code that opens the app with it."""
    code = access.new_pairing(actor().club_id, actor().coach_id)
    url = f"{request.host_url}pair#{code}"
    seconds = int(access.PAIRING_LASTS.total_seconds())
    return {"code": code, "url": url, "seconds": seconds, "svg": qr_code(url)}


@blueprint.post("/session/pair")
@limit_pairing
@blueprint.arguments(PairSchema)
@blueprint.response(200, SessionSchema)
def pair(body: dict[str, str]) -> Response:
    """Sign in by a code."""
    token = access.pair(body["code"], browser())
    if token is None:
        abort(401, say("This code is not valid any more. Show a new one on the other device."))
    return welcome(token)


def welcome(token: str) -> Response:
    """Reply with the session, and set its cookie."""
    found = access.who(token)
    assert found is not None
    answer = jsonify(_who(found[0]))
    set_cookie(answer, token)
    return answer


def _who(coach: access.Actor) -> dict[str, Any]:
    return {
        "coach": {"id": coach.coach_id, "name": coach.name, "role": coach.role},
        "club": {"id": str(coach.club_id), "name": coach.club},
        "device": coach.device_id,
    }


def browser() -> access.Browser:
    """The browser that asks."""
    label = request.user_agent.string[:120] or "unknown device"
    return access.Browser(label, request.cookies.get(COOKIE, ""))
