"""Replies on charts, standings and the event log.

Charts, walks, suggestions and events are made and checked by `rules/` and `store/log/`; here they
have a name and the fields that never change.
"""

from __future__ import annotations

from marshmallow import INCLUDE, fields

from ...store.log.schemas import SCHEMAS
from .base import Ready, Reply, choice


class Open(Reply):
    """Base of data with further fields."""

    class Meta:
        """Options."""

        unknown = INCLUDE


class ChartSchema(Open):
    """A drill's rule compiled to a finite table, with every text the phone shows of it."""

    id = fields.String()
    version = fields.Integer()
    kind = fields.String()


class ChartsSchema(Reply):
    """Several charts."""

    charts = Ready(ChartSchema, many=True)


class WalkSchema(Open):
    """Where one fencer is on one chart."""

    chart = fields.String()
    day = fields.String(allow_none=True)
    place = fields.Integer()


class SuggestionSchema(Open):
    """What to give now, in words."""

    place = fields.Integer()
    cue = fields.List(fields.String())


class StandingSchema(Reply):
    """Where a fencer stands on a drill."""

    fencer = fields.String()
    drill = fields.String()
    walk = Ready(WalkSchema)
    suggestion = Ready(SuggestionSchema)
    secure = choice("working", "secure", allow_none=True)
    day = fields.String(allow_none=True)
    seq = fields.Integer()


class StandingsSchema(Reply):
    """Standings renewed after a cursor, and the next cursor."""

    standings = Ready(StandingSchema, many=True)
    next = fields.Integer()
    more = fields.Boolean()


class EventSchema(Open):
    """One event of a lesson; its further fields depend on its type."""

    absent = ("seq",)

    id = fields.UUID()
    type = choice(*SCHEMAS)
    device = fields.UUID()
    n = fields.Integer(metadata={"minimum": 1})
    at = fields.DateTime()
    coach = fields.UUID()
    lesson = fields.UUID()
    seq = fields.Integer(metadata={"description": "the server's number; never in a push"})


class EventsSchema(Reply):
    """Events stored after a cursor, and the next cursor."""

    events = Ready(EventSchema, many=True)
    next = fields.Integer()
    more = fields.Boolean()


class ResultSchema(Reply):
    """What became of one event; a refused one has the reasons by field."""

    absent = ("why",)

    id = fields.String(allow_none=True)
    status = choice("stored", "already", "refused")
    why = fields.Dict(keys=fields.String(), values=fields.List(fields.String()))


class FoldedSchema(Reply):
    """A drill of a lesson that was folded again, with the walks before and after the lesson."""

    lesson = fields.String()
    fencer = fields.String()
    drill = fields.String()
    before = Ready(WalkSchema, allow_none=True)
    after = Ready(WalkSchema)


MOST = 500
# Documents the body of a push; it is checked event by event, not by this.
PUSH = {
    "required": True,
    "content": {
        "application/json": {
            "schema": {
                "type": "object",
                "required": ["events"],
                "properties": {"events": {"type": "array", "maxItems": MOST, "items": EventSchema}},
            }
        }
    },
}


class PushedSchema(Reply):
    """What became of each event in the order sent, and where the drills touched stand now."""

    results = Ready(ResultSchema, many=True)
    lessons = Ready(FoldedSchema, many=True)
    standings = Ready(StandingSchema, many=True)
    seq = fields.Integer()
