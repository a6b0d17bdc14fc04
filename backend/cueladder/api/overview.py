"""The club on one page: who is due, who is stuck, what is given, and how alike coaches mark."""

from __future__ import annotations

from datetime import date
from typing import Any

from flask import Response, abort
from flask_smorest import Blueprint
from marshmallow import Schema, ValidationError, fields, validate, validates

from ..language import told as spoken
from ..rules.said import say
from ..store.audit import note_looks
from ..store.db import now
from ..store.event_fields import Day
from ..story.club import Asked, overview
from ..story.sheet import csv_of, sheets
from .fields import Query, Words
from .guard import COACHES, EVERYONE, actor, signed_in

blueprint = Blueprint("overview", __name__, url_prefix="/api/club", description="The club's tables")

WEEKS, FEWEST, MOST = 16, 4, 53
DAYS = ("1900-01-01", "2999-12-31")


class OverviewQuery(Query):
    """The local day on the device (the server's own where it is left out), and how far back."""

    day = Day(required=False)
    weeks = fields.Integer(load_default=WEEKS, validate=validate.Range(FEWEST, MOST))

    @validates("day")
    def _check_day(self, day: str, **_: Any) -> None:
        low, high = DAYS
        if not low <= day <= high:
            why = say("should be a day from %(low)s to %(high)s", low=low, high=high)
            raise ValidationError(why)


class DueSchema(Schema):
    """One fencer: when the next drill starts lower than it was left."""

    fencer = fields.String()
    name = fields.String()
    state = fields.String(metadata={"description": "lower, soon, new or kept"})
    last = fields.String(allow_none=True)
    days = fields.Integer(allow_none=True)
    until = fields.String(allow_none=True)
    lower = fields.List(fields.String())
    booked = fields.List(fields.String(), allow_none=True)
    words = Words()


class WaitSchema(Schema):
    """One fencer on one drill: a wait at a rung that luck does not explain."""

    fencer = fields.String()
    name = fields.String()
    state = fields.String(metadata={"description": "stuck, or long: perhaps only luck"})
    drill = fields.String()
    title = fields.String()
    rung = Words()
    cue = fields.String()
    cues = fields.Integer()
    lessons = fields.Integer()
    right = fields.Integer()
    chance = fields.Float()
    marks = fields.Dict(keys=fields.String(), values=fields.Integer())
    rests = fields.Integer()
    why = Words()
    advice = Words()
    words = Words()


class StuckSchema(Schema):
    """Who is stuck, out of how many drills."""

    rows = fields.List(fields.Nested(WaitSchema))
    looked = fields.Integer()
    early = fields.Integer()
    words = Words()


class LoadSchema(Schema):
    """One coach in one week."""

    week = fields.String()
    coach = fields.String()
    name = fields.String()
    lessons = fields.Integer()
    cues = fields.Integer()
    minutes = fields.Integer(allow_none=True)
    timed = fields.Integer()


class AgreementSchema(Schema):
    """A coach and an observer."""

    coach = fields.String()
    observer = fields.String()
    name = fields.String()
    other = fields.String()
    sets = fields.Integer()
    uneven = fields.Integer()
    trials = fields.Integer()
    kappa = fields.Float(allow_none=True)
    low = fields.Float(allow_none=True)
    high = fields.Float(allow_none=True)
    observed = fields.Float(allow_none=True)
    words = Words()


class OrdersSchema(Schema):
    """A coach's orders of attacks and decoys."""

    coach = fields.String()
    name = fields.String()
    judged = fields.Integer()
    guessable = fields.Integer()
    short = fields.Integer()
    p = fields.Float()
    words = Words()


class SeasonRowSchema(Schema):
    """A fencer, week by week."""

    fencer = fields.String()
    name = fields.String()
    lessons = fields.List(fields.Integer())
    gained = fields.List(fields.Integer())
    all = fields.List(fields.Integer())


class SeasonSchema(Schema):
    """Weeks by their Mondays, and the fencers."""

    weeks = fields.List(fields.String())
    rows = fields.List(fields.Nested(SeasonRowSchema))


class OverviewSchema(Schema):
    """All tables."""

    day = fields.String()
    weeks = fields.Integer()
    due = fields.List(fields.Nested(DueSchema))
    stuck = fields.Nested(StuckSchema)
    load = fields.List(fields.Nested(LoadSchema))
    agreement = fields.List(fields.Nested(AgreementSchema))
    orders = fields.List(fields.Nested(OrdersSchema))
    season = fields.Nested(SeasonSchema)


@blueprint.get("/overview")
@signed_in(*EVERYONE)
@blueprint.arguments(OverviewQuery, location="query")
@blueprint.response(200, OverviewSchema)
def read(query: dict[str, Any]) -> dict[str, Any]:
    """Every table; those about coaches tell a head coach of all, anyone else of themselves."""
    told = overview(_asked(query))
    # what the marks say of one child is a look; who is due and the rungs are on every phone
    named = {row["fencer"] for row in told["stuck"]["rows"]}
    note_looks(actor().club_id, named, actor().coach_id)
    return told


@blueprint.get("/sheets/<name>.csv")
@signed_in(*COACHES)
@blueprint.arguments(OverviewQuery, location="query")
def sheet(query: dict[str, Any], name: str) -> Response:
    """One of the tables for a spreadsheet: due, stuck, load, agreement, orders or season."""
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
