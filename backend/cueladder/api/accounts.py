"""Accounts: setting up a club, invitations, passphrases, roles."""

from __future__ import annotations

from typing import Any

from flask import Response, abort, request
from marshmallow import Schema

from ..rules.said import say
from ..store.access import accounts, clubs, codes
from ..store.db.engine import writing
from ..store.db.models.club import ROLES, Coach
from ..store.log.fields import Flag, Text, Word
from .blueprint import Blueprint
from .fields import Change
from .guard import EVERYONE, HEADS, actor, signed_in
from .limits import limit_own_passphrase, limit_pairing
from .qr import qr_code
from .replies.access import InvitationsSchema, NewCodeSchema, SessionSchema, SetupStateSchema
from .replies.club import CoachesSchema, CoachSchema
from .session import SAID, browser, welcome

blueprint = Blueprint("accounts", __name__, url_prefix="/api", description="Accounts")

GONE = say("This code is not valid any more. Ask for a new one.")


class CodeSchema(Schema):
    """A one-time code and the passphrase that is set with it."""

    code = Text(60)
    passphrase = Text(clubs.LONGEST)
    device = SAID


class JoinSchema(CodeSchema):
    """A `CodeSchema` with the new coach's name."""

    name = Text(80)


class SetupSchema(JoinSchema):
    """A `JoinSchema` with the new club's name."""

    club = Text(120)


class InviteSchema(Schema):
    """The role an invitation gives."""

    role = Word(*ROLES, required=False, load_default="coach")


class PassphraseSchema(Schema):
    """The present passphrase and the new one."""

    old = Text(clubs.LONGEST)
    passphrase = Text(clubs.LONGEST)


class CoachChangeSchema(Change):
    """A coach's role, and whether the account is active."""

    role = Word(*ROLES, required=False)
    active = Flag(required=False)


@blueprint.get("/setup")
@blueprint.response(200, SetupStateSchema)
def setup_state() -> dict[str, bool]:
    """Whether the first club still has to be set up."""
    return {"needed": accounts.is_empty()}


@blueprint.post("/setup")
@limit_pairing
@blueprint.arguments(SetupSchema)
@blueprint.response(200, SessionSchema)
def setup(body: dict[str, str]) -> Response:
    """Set up the first club with the code from ``cueladder setup``; signs in its head coach."""
    return _in(
        accounts.set_up(body["code"], body["club"], body["name"], body["passphrase"], browser())
    )


@blueprint.post("/session/join")
@limit_pairing
@blueprint.arguments(JoinSchema)
@blueprint.response(200, SessionSchema)
def join(body: dict[str, str]) -> Response:
    """Become a coach by an invitation; signs in."""
    return _in(accounts.join(body["code"], body["name"], body["passphrase"], browser()))


@blueprint.post("/session/reset")
@limit_pairing
@blueprint.arguments(CodeSchema)
@blueprint.response(200, SessionSchema)
def reset(body: dict[str, str]) -> Response:
    """Set a new passphrase by a code of the head coach; signs in here and out elsewhere."""
    return _in(accounts.reset(body["code"], body["passphrase"], browser()))


@blueprint.put("/session/passphrase")
@limit_own_passphrase
@signed_in(*EVERYONE)
@blueprint.arguments(PassphraseSchema)
@blueprint.response(204)
def own_passphrase(body: dict[str, str]) -> None:
    """Change one's own passphrase; signs out the coach's other devices."""
    me = actor()
    accounts.change_passphrase(
        me.club_id, me.coach_id, me.device_id, body["old"], body["passphrase"]
    )


@blueprint.get("/invitations")
@signed_in(*HEADS)
@blueprint.response(200, InvitationsSchema)
def invitations() -> dict[str, Any]:
    """Open invitations; the codes themselves are not stored."""
    return {
        "invitations": [
            {
                "id": code.id,
                "role": code.role,
                "by": name,
                "created": code.created_at,
                "expires": code.expires_at,
            }
            for code, name in codes.open_invitations(actor().club_id)
        ]
    }


@blueprint.post("/invitations")
@signed_in(*HEADS)
@blueprint.arguments(InviteSchema)
@blueprint.response(201, NewCodeSchema)
def invite(body: dict[str, str]) -> dict[str, Any]:
    """Create an invitation; its code is shown only in this reply."""
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
@blueprint.response(200, CoachesSchema)
def coaches() -> dict[str, Any]:
    """The club's coaches, including those who have left."""
    return {"coaches": clubs.coaches_of(actor().club_id)}


@blueprint.patch("/coaches/<coach_id>")
@signed_in(*HEADS)
@blueprint.arguments(CoachChangeSchema)
@blueprint.response(200, CoachSchema)
def change_coach(body: dict[str, Any], coach_id: str) -> Coach:
    """Change a coach's role or deactivate one, who is signed out at once; their marks stay."""
    return accounts.change_coach(actor().club_id, coach_id, body, actor().coach_id)


@blueprint.post("/coaches/<coach_id>/reset")
@signed_in(*HEADS)
@blueprint.response(201, NewCodeSchema)
def reset_code(coach_id: str) -> dict[str, Any]:
    """Create a passphrase reset code for a coach; it is shown only in this reply."""
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
        "expires": new.expires_at,
        "svg": qr_code(url),
    }
