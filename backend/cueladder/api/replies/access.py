"""Replies on sign-in, devices, one-time codes and links."""

from __future__ import annotations

from marshmallow import fields

from ...store.db.models.club import ROLES
from .base import Reply, choice


class SignedInCoachSchema(Reply):
    """The coach who is signed in."""

    id = fields.String()
    name = fields.String()
    role = choice(*ROLES)


class SignedInClubSchema(Reply):
    """The club of the coach who is signed in."""

    id = fields.String()
    name = fields.String()


class SessionSchema(Reply):
    """Who is signed in, and on which device."""

    coach = fields.Nested(SignedInCoachSchema)
    club = fields.Nested(SignedInClubSchema)
    device = fields.String()


class SetupStateSchema(Reply):
    """Whether there is no club yet."""

    needed = fields.Boolean()


class PairingSchema(Reply):
    """A one-time code, shown once: as text, as an address and as a QR code (SVG)."""

    code = fields.String()
    url = fields.String()
    seconds = fields.Integer()
    svg = fields.String()


class NewCodeSchema(PairingSchema):
    """A one-time code for an invitation or a new passphrase."""

    id = fields.String()
    expires = fields.DateTime()


class InvitationSchema(Reply):
    """An open invitation."""

    id = fields.String()
    role = choice(*ROLES)
    by = fields.String()
    created = fields.DateTime()
    expires = fields.DateTime()


class InvitationsSchema(Reply):
    """Open invitations."""

    invitations = fields.List(fields.Nested(InvitationSchema))


class DeviceSchema(Reply):
    """A device; ``label`` is what its browser calls itself."""

    id = fields.String()
    coach = fields.String()
    label = fields.String()
    name = fields.String(allow_none=True)
    first_seen = fields.DateTime()
    last_seen = fields.DateTime()
    this = fields.Boolean()


class DevicesSchema(Reply):
    """Devices that are signed in."""

    devices = fields.List(fields.Nested(DeviceSchema))


class LinkSchema(Reply):
    """An open link to a progress page."""

    id = fields.String()
    created = fields.DateTime()
    expires = fields.DateTime()
    opened = fields.DateTime(allow_none=True)


class LinksSchema(Reply):
    """Open links."""

    links = fields.List(fields.Nested(LinkSchema))


class NewLinkSchema(Reply):
    """A new link; its address is shown only here."""

    url = fields.String()
    expires = fields.DateTime()


class HealthSchema(Reply):
    """The server answers, and so does its database."""

    status = choice("ok")
    version = fields.String()
