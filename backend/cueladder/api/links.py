"""Links to a fencer's progress page."""

from __future__ import annotations

from typing import Any

from flask import request
from flask_smorest import Blueprint
from marshmallow import Schema

from ..store import links
from ..store.event_fields import Whole
from .guard import COACHES, actor, signed_in

blueprint = Blueprint(
    "links", __name__, url_prefix="/api/fencers/<fencer_id>/links", description="Progress links"
)


class LinkSchema(Schema):
    """For how many days the link opens."""

    days = Whole(1, 366, required=False, load_default=links.DAYS)


@blueprint.get("")
@signed_in(*COACHES)
@blueprint.response(200)
def open_links(fencer_id: str) -> dict[str, Any]:
    """Links that still open; where they lead is not kept."""
    return {
        "links": [
            {
                "id": links.link_id(link),
                "created": link.created_at.isoformat(),
                "expires": link.expires_at.isoformat(),
                "opened": link.opened_at.isoformat() if link.opened_at else None,
            }
            for link in links.links_of(actor().club_id, fencer_id)
        ]
    }


@blueprint.post("")
@signed_in(*COACHES)
@blueprint.arguments(LinkSchema)
@blueprint.response(201)
def create(body: dict[str, int], fencer_id: str) -> dict[str, str]:
    """A new link; its address is shown this once."""
    link = links.create_link(actor().club_id, fencer_id, actor().coach_id, body["days"])
    return {
        "url": f"{request.host_url}p/{link.token}",
        "expires": link.expires_at.isoformat(),
    }


@blueprint.delete("")
@signed_in(*COACHES)
@blueprint.response(204)
def revoke(fencer_id: str) -> None:
    """Close every link of the fencer."""
    links.revoke_links(actor().club_id, fencer_id, actor().coach_id)


@blueprint.delete("/<link_id>")
@signed_in(*COACHES)
@blueprint.response(204)
def revoke_one(fencer_id: str, link_id: str) -> None:
    """Close one link."""
    links.revoke_link(actor().club_id, fencer_id, link_id, actor().coach_id)
