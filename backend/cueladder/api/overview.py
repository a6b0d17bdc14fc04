"""The club overview: who is due or stuck, workload, agreement between coaches."""

from __future__ import annotations

from datetime import date
from typing import Any

from flask import Response, abort
from marshmallow import ValidationError, fields, validate, validates

from ..language import told as spoken
from ..rules.said import say
from ..store.db.engine import now
from ..store.log.audit import note_looks
from ..store.log.fields import Day
from ..story.club import Asked, overview
from ..story.sheet import csv_of, sheets
from .blueprint import Blueprint
from .fields import Query
from .guard import COACHES, EVERYONE, actor, signed_in
from .replies.base import FILE
from .replies.overview import OverviewSchema

blueprint = Blueprint("overview", __name__, url_prefix="/api/club", description="The club's tables")

WEEKS, FEWEST, MOST = 16, 4, 53
DAYS = ("1900-01-01", "2999-12-31")


class OverviewQuery(Query):
    """The device's local day (default: the server's) and how many weeks back."""

    day = Day(required=False)
    weeks = fields.Integer(load_default=WEEKS, validate=validate.Range(FEWEST, MOST))

    @validates("day")
    def _check_day(self, day: str, **_: Any) -> None:
        low, high = DAYS
        if not low <= day <= high:
            why = say("should be a day from %(low)s to %(high)s", low=low, high=high)
            raise ValidationError(why)


@blueprint.get("/overview")
@signed_in(*EVERYONE)
@blueprint.arguments(OverviewQuery, location="query")
@blueprint.response(200, OverviewSchema)
def read(query: dict[str, Any]) -> dict[str, Any]:
    """Every table; those about coaches cover everyone for a head coach, else only oneself."""
    told = overview(_asked(query))
    # only what is said about one fencer's marks counts as a look; the rest is on every phone
    named = {row["fencer"] for row in told["stuck"]["rows"]}
    note_looks(actor().club_id, named, actor().coach_id)
    return told


@blueprint.get("/sheets/<name>.csv")
@signed_in(*COACHES)
@blueprint.arguments(OverviewQuery, location="query")
@blueprint.response(200, FILE, content_type="text/csv")
def sheet(query: dict[str, Any], name: str) -> Response:
    """One table as CSV: due, stuck, load, agreement, orders or season."""
    asked = _asked(query)
    told = spoken(overview(asked))
    if name not in (tables := sheets(told)):
        abort(404, say("No such table: it is one of %(tables)s.", tables=", ".join(tables)))
    rows = {"due": told["due"], "stuck": told["stuck"]["rows"], "season": told["season"]["rows"]}
    taken = {row["fencer"] for row in rows.get(name, [])}
    note_looks(actor().club_id, taken, actor().coach_id, "exported", [f"table {name}"])
    answer = Response(csv_of(*tables[name]), mimetype="text/csv")
    file = f"{name}-{asked.today.isoformat()}.csv"
    answer.headers["Content-Disposition"] = f'attachment; filename="{file}"'
    return answer


def _asked(query: dict[str, Any]) -> Asked:
    day = query.get("day")
    today = date.fromisoformat(day) if day else now().astimezone().date()
    only = None if actor().role == "head" else actor().coach_id
    return Asked(actor().club_id, today, query["weeks"], only)
