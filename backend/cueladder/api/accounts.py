"""Accounts: setting up a club, inviting, passphrases, roles."""

from __future__ import annotations

from typing import Any

from flask import Response, abort, request
from flask_smorest import Blueprint
from marshmallow import Schema

from ..rules.said import say
from ..store import accounts, clubs, codes
from ..store.db import writing
from ..store.event_fields import Flag, Id, Text, Word
from ..store.models.club import ROLES
from .fields import Change
from .guard import EVERYONE, HEADS, actor, signed_in
from .limits import limit_own_passphrase, limit_pairing
from .qr import qr_code
from .session import label, welcome

blueprint = Blueprint("accounts", __name__, url_prefix="/api", description="Accounts")

GONE = say("This code is not valid any more. Ask for a new one.")


class CodeSchema(Schema):
    """A one-time code and the device it is used on."""

    code = Text(60)
    passphrase = Text(clubs.LONGEST)
    device = Id()


class JoinSchema(CodeSchema):
    """The same with the name of a new coach."""

    name = Text(80)


class SetupSchema(JoinSchema):
    """The same with the name of a new club."""

    club = Text(120)


class InvitationSchema(Schema):
    """What the invited will be."""

    role = Word(*ROLES, required=False, load_default="coach")


class PassphraseSchema(Schema):
    """The passphrase as it is and as it shall be."""

    old = Text(clubs.LONGEST)
    passphrase = Text(clubs.LONGEST)


class CoachChangeSchema(Change):
    """A coach's role, and whether the coach is still with the club."""

    role = Word(*ROLES, required=False)
    active = Flag(required=False)


@blueprint.get("/setup")
@blueprint.response(200)
def setup_state() -> dict[str, bool]:
    """Whether there is no club yet, so that the first is to be set up."""
    return {"needed": accounts.is_empty()}


@blueprint.post("/setup")
@limit_pairing
@blueprint.arguments(SetupSchema)
@blueprint.response(200)
def setup(body: dict[str, str]) -> Response:
    """Set up the first club by the code that ``cueladder setup`` prints; signs its head in."""
    return _in(
        accounts.set_up(
            body["code"], body["club"], body["name"], body["passphrase"], body["device"], label()
        )
    )


@blueprint.post("/session/join")
@limit_pairing
@blueprint.arguments(JoinSchema)
@blueprint.response(200)
def join(body: dict[str, str]) -> Response:
    """Become a coach by an invitation; signs in."""
    return _in(
        accounts.join(body["code"], body["name"], body["passphrase"], body["device"], label())
    )


@blueprint.post("/session/reset")
@limit_pairing
@blueprint.arguments(CodeSchema)
@blueprint.response(200)
def reset(body: dict[str, str]) -> Response:
    """Set a new passphrase by a code of the head coach; signs in here and out elsewhere."""
    return _in(accounts.reset(body["code"], body["passphrase"], body["device"], label()))


@blueprint.put("/session/passphrase")
@limit_own_passphrase
@signed_in(*EVERYONE)
@blueprint.arguments(PassphraseSchema)
@blueprint.response(204)
def own_passphrase(body: dict[str, str]) -> None:
    """Change one's own passphrase; other devices of the coach are signed out."""
    me = actor()
    accounts.change_passphrase(
        me.club_id, me.coach_id, me.device_id, body["old"], body["passphrase"]
    )


@blueprint.get("/invitations")
@signed_in(*HEADS)
@blueprint.response(200)
def invitations() -> dict[str, Any]:
    """Invitations that still open; their codes are not kept."""
    return {
        "invitations": [
            {
                "id": code.id,
                "role": code.role,
                "by": name,
                "created": code.created_at.isoformat(),
                "expires": code.expires_at.isoformat(),
            }
            for code, name in codes.open_invitations(actor().club_id)
        ]
    }


@blueprint.post("/invitations")
@signed_in(*HEADS)
@blueprint.arguments(InvitationSchema)
@blueprint.response(201)
def invite(body: dict[str, str]) -> dict[str, Any]:
    """A one-time code for a new coach; it is shown this once."""
    return _shown(accounts.invite(actor().club_id, actor().coach_id, body["role"]), "join")


@blueprint.delete("/invitations/<code_id>")
@signed_in(*HEADS)
@blueprint.response(204)
def withdraw(code_id: str) -> None:
    """Withdraw an invitation."""
    with writing() as session:
        codes.withdraw_invitation(session, actor().club_id, code_id)


@blueprint.get("/coaches")
@signed_in(*HEADS)
@blueprint.response(200)
def coaches() -> dict[str, Any]:
    """The coaches of the club, those who have left too."""
    return {"coaches": clubs.coaches_of(actor().club_id)}


@blueprint.patch("/coaches/<coach_id>")
@signed_in(*HEADS)
@blueprint.arguments(CoachChangeSchema)
@blueprint.response(200)
def change_coach(body: dict[str, Any], coach_id: str) -> dict[str, Any]:
    """Give a coach another role or let one go: signed out at once; what was marked stays."""
    coach = accounts.change_coach(actor().club_id, coach_id, **body)
    return {"id": coach.id, "name": coach.name, "role": coach.role, "active": coach.active}


@blueprint.post("/coaches/<coach_id>/reset")
@signed_in(*HEADS)
@blueprint.response(201)
def reset_code(coach_id: str) -> dict[str, Any]:
    """A one-time code by which this coach sets a new passphrase; it is shown this once."""
    return _shown(accounts.new_reset_code(actor().club_id, coach_id, actor().coach_id), "reset")


def _in(token: str | None) -> Response:
    if token is None:
        abort(401, GONE)
    return welcome(token)


def _shown(new: codes.NewCode, page: str) -> dict[str, Any]:
    url = f"{request.host_url}{page}#{new.code}"
    return {
        "id": new.id,
        "code": new.code,
        "url": url,
        "seconds": new.seconds,
        "expires": new.expires_at.isoformat(),
        "svg": qr_code(url),
    }
