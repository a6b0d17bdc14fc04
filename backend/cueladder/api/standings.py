"""Standings."""

from __future__ import annotations

from typing import Any

from ..store.log.cursor import standings_after
from .blueprint import Blueprint
from .fields import Cursor
from .guard import EVERYONE, actor, signed_in
from .replies.log import StandingsSchema

blueprint = Blueprint(
    "standings", __name__, url_prefix="/api/standings", description="Where fencers stand"
)


@blueprint.get("")
@signed_in(*EVERYONE)
@blueprint.arguments(Cursor, location="query")
@blueprint.response(200, StandingsSchema)
def pull(query: dict[str, int]) -> dict[str, Any]:
    """Standings renewed after a cursor."""
    page = standings_after(actor().club_id, query["after"], query["limit"])
    return {"standings": page.rows, "next": page.next, "more": page.more}
