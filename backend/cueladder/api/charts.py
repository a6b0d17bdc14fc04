"""Charts. They are immutable, so clients may cache them for ever."""

from __future__ import annotations

from typing import Any

from flask import Response, abort, jsonify
from marshmallow import validate
from webargs.fields import DelimitedList

from ..store.log.charts import chart_bodies
from ..store.log.fields import Text
from .blueprint import Blueprint
from .fields import Query
from .guard import EVERYONE, actor, signed_in
from .replies.log import ChartSchema, ChartsSchema

blueprint = Blueprint("charts", __name__, url_prefix="/api/charts", description="Charts")


class IdsQuery(Query):
    """Comma-separated ids."""

    ids = DelimitedList(Text(40), required=True, validate=validate.Length(max=200))


@blueprint.get("")
@signed_in(*EVERYONE)
@blueprint.arguments(IdsQuery, location="query")
@blueprint.response(200, ChartsSchema)
def several(query: dict[str, list[str]]) -> dict[str, Any]:
    """Several charts; ids the club does not use are skipped."""
    return {"charts": list(chart_bodies(actor().club_id, query["ids"]).values())}


@blueprint.get("/<chart_id>")
@signed_in(*EVERYONE)
@blueprint.response(200, ChartSchema)
def one(chart_id: str) -> Response:
    """One chart."""
    chart_id = Text(40).deserialize(chart_id, "id")
    found = chart_bodies(actor().club_id, [chart_id]).get(chart_id)
    if found is None:
        abort(404, "No such chart in this club.")
    answer = jsonify(found)
    answer.headers["Cache-Control"] = "private, max-age=31536000, immutable"
    return answer
