"""The season page of one fencer, to print and hand on: for coaches, who decide to whom."""

from __future__ import annotations

from flask import Response, make_response, render_template

from ...language import LANGUAGES, language, told
from ...pages import season
from ...pages.progress import HEADERS
from ...store.db.engine import db
from ...store.fencers.edit import fencer_in
from ...store.log.audit import note_look
from ..blueprint import Blueprint
from ..guard import COACHES, actor, signed_in
from ..replies.base import FILE

blueprint = Blueprint("season", __name__, url_prefix="/api/fencers", description="Season page")


@blueprint.get("/<fencer_id>/season")
@signed_in(*COACHES)
@blueprint.response(200, FILE, content_type="text/html")
def season_page(fencer_id: str) -> Response:
    """The year up to today on one sheet: what is secure and where, kept, in bouts."""
    fencer = fencer_in(db.session(), actor().club_id, fencer_id)
    shown = told(season.page(fencer))
    note_look(actor().club_id, fencer_id, actor().coach_id)
    spoken = {"lang": language(), "languages": LANGUAGES}
    answer = make_response(render_template("season.html", **shown, **spoken))
    answer.headers.update(HEADERS)
    return answer
