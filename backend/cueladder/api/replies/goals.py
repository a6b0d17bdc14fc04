"""Replies on competitions and on goals by them."""

from __future__ import annotations

from marshmallow import fields

from .base import Claimed, Ready, Reply, Words
from .beyond import NamedDrillSchema


class CompetitionSchema(Reply):
    """A competition: a name and a day."""

    id = fields.String()
    name = fields.String()
    day = fields.String()


class CompetitionsSchema(Reply):
    """A club's competitions, by day."""

    competitions = fields.List(fields.Nested(CompetitionSchema))


class GoalSchema(Claimed):
    """A drill that is to be secure in two settings by a competition, and what has held so far.

    Of one that is over nothing is planned any more: ``room``, ``advice`` and ``left`` are null.
    """

    drill = fields.Nested(NamedDrillSchema)
    competition = fields.Nested(CompetitionSchema)
    settings = fields.Integer(metadata={"description": "in how many it has held"})
    reached = fields.Boolean()
    over = fields.Boolean()
    room = fields.Nested(Claimed, allow_none=True)
    advice = fields.Nested(Claimed, allow_none=True)
    elsewhere = Words(
        allow_none=True, metadata={"description": "which setting is missing, if one would do"}
    )
    left = fields.Integer(
        allow_none=True, metadata={"description": "lessons there is room for, by the rhythm"}
    )
    needs = fields.Integer(metadata={"description": "lessons it takes at least"})


class GoalsSchema(Reply):
    """A fencer's goals; ``open``: drills one may be set on, ``competitions`` those to come, ``of``:
    settings a goal asks for."""

    goals = Ready(GoalSchema, many=True)
    open = Ready(NamedDrillSchema, many=True)
    competitions = Ready(CompetitionSchema, many=True)
    of = fields.Integer()
