"""Devices that are signed in."""

from __future__ import annotations

from typing import Any

from marshmallow import Schema

from ..store.access import sessions as access
from ..store.log.fields import Text
from .blueprint import Blueprint
from .guard import EVERYONE, actor, signed_in
from .replies.access import DevicesSchema

blueprint = Blueprint("devices", __name__, url_prefix="/api/devices", description="Devices")


class DeviceNameSchema(Schema):
    """What the coach calls the device; null for no name."""

    name = Text(60, blank=False, allow_none=True)


@blueprint.get("")
@signed_in(*EVERYONE)
@blueprint.response(200, DevicesSchema)
def devices() -> dict[str, Any]:
    """The coach's own devices; the whole club's for a head coach."""
    return {
        "devices": [
            {
                "id": device.id,
                "coach": device.coach_id,
                "label": device.label,
                "name": device.name,
                "first_seen": device.first_seen,
                "last_seen": device.last_seen,
                "this": device.id == actor().device_id,
            }
            for device in access.devices_of(actor().club_id, _whose())
        ]
    }


@blueprint.patch("/<device_id>")
@signed_in(*EVERYONE)
@blueprint.arguments(DeviceNameSchema)
@blueprint.response(204)
def name(body: dict[str, Any], device_id: str) -> None:
    """Name a device."""
    access.name_device(actor().club_id, device_id, _whose(), body["name"])


@blueprint.delete("/<device_id>")
@signed_in(*EVERYONE)
@blueprint.response(204)
def revoke(device_id: str) -> None:
    """Sign a device out; what it has not sent yet stays on it."""
    access.revoke_device(actor().club_id, device_id, _whose())


def _whose() -> str | None:
    return None if actor().role == "head" else actor().coach_id
