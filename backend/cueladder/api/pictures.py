"""Plots of a fencer's story."""

from __future__ import annotations

from typing import Any

from flask import Response, abort
from marshmallow import fields

from ..language import language, told
from ..rules.said import say
from ..store.db.engine import db
from ..store.fencers.edit import fencer_in
from ..store.log.audit import note_look
from ..store.replay.comfort import comfort_of
from ..store.replay.worked import worked_by
from ..story.by_lesson import comfort
from ..story.told import figures_of
from .blueprint import Blueprint
from .drawn import drawn
from .fields import Query
from .guard import EVERYONE, actor, signed_in
from .replies.base import FILE

blueprint = Blueprint("pictures", __name__, url_prefix="/api/fencers", description="Pictures")


class ToneQuery(Query):
    """``tone``: ``dark`` on a dark page."""

    tone = fields.String(load_default="light")


@blueprint.get("/<fencer_id>/comfort.svg")
@signed_in(*EVERYONE)
@blueprint.arguments(ToneQuery, location="query")
@blueprint.response(200, FILE, content_type="image/svg+xml")
def comfort_picture(query: dict[str, str], fencer_id: str) -> Response:
    """Comfort before and after, lesson by lesson."""
    fencer_in(db.session(), actor().club_id, fencer_id)
    found = comfort(comfort_of(actor().club_id, fencer_id))
    return _drawn("comfort", found if found["rows"] else None, query["tone"], fencer_id)


@blueprint.get("/<fencer_id>/drills/<drill_id>/<name>.svg")
@signed_in(*EVERYONE)
@blueprint.arguments(ToneQuery, location="query")
@blueprint.response(200, FILE, content_type="image/svg+xml")
def picture(query: dict[str, str], fencer_id: str, drill_id: str, name: str) -> Response:
    """One plot of a drill: course, reach, apart, heat or pace."""
    fencer_in(db.session(), actor().club_id, fencer_id)
    found = next(
        (one for one in worked_by(actor().club_id, fencer_id) if one.drill_id == drill_id), None
    )
    if found is None:
        abort(404, say("This fencer has not worked such a drill."))
    figures = figures_of(actor().club_id, fencer_id, found, name)
    return _drawn(name, figures, query["tone"], fencer_id)


def _drawn(name: str, figures: dict[str, Any] | None, tone: str, fencer_id: str) -> Response:
    if figures is None:
        abort(404, say("There is nothing to draw of this yet."))
    from ..pages import story_plots  # matplotlib takes a second to import

    note_look(actor().club_id, fencer_id, actor().coach_id)
    tone = "dark" if tone == "dark" else "light"
    return drawn(story_plots.draw(name, told(figures), tone, language()))
