"""Links to a fencer's progress page."""

from __future__ import annotations

from typing import Any

from flask import request
from marshmallow import Schema

from ..store.access import links
from ..store.log.fields import Whole
from .blueprint import Blueprint
from .guard import COACHES, actor, signed_in
from .replies.access import LinksSchema, NewLinkSchema

blueprint = Blueprint(
    "links", __name__, url_prefix="/api/fencers/<fencer_id>/links", description="Progress links"
)


class LinkDaysSchema(Schema):
    """Days until the link expires."""

    days = Whole(1, 366, required=False, load_default=links.DAYS)


@blueprint.get("")
@signed_in(*COACHES)
@blueprint.response(200, LinksSchema)
def open_links(fencer_id: str) -> dict[str, Any]:
    """Open links; their addresses are not stored."""
    return {
        "links": [
            {
                "id": links.link_id(link),
                "created": link.created_at,
                "expires": link.expires_at,
                "opened": link.opened_at,
            }
            for link in links.links_of(actor().club_id, fencer_id)
        ]
    }


@blueprint.post("")
@signed_in(*COACHES)
@blueprint.arguments(LinkDaysSchema)
@blueprint.response(201, NewLinkSchema)
def create(body: dict[str, int], fencer_id: str) -> dict[str, Any]:
    """Create a link; its address is shown only in this reply."""
    link = links.create_link(actor().club_id, fencer_id, actor().coach_id, body["days"])
    return {
        "url": f"{request.host_url}p/{link.token}",
        "expires": link.expires_at,
    }


@blueprint.delete("")
@signed_in(*COACHES)
@blueprint.response(204)
def revoke(fencer_id: str) -> None:
    """Revoke every link of the fencer."""
    links.revoke_links(actor().club_id, fencer_id, actor().coach_id)


@blueprint.delete("/<link_id>")
@signed_in(*COACHES)
@blueprint.response(204)
def revoke_one(fencer_id: str, link_id: str) -> None:
    """Revoke one link."""
    links.revoke_link(actor().club_id, fencer_id, link_id, actor().coach_id)
