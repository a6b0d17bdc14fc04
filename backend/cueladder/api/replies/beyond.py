"""Replies on what goes beyond the one lesson: other settings, bouts, sets by partners."""

from __future__ import annotations

from marshmallow import fields

from .base import Claimed, Reply, Words


class NamedDrillSchema(Reply):
    """A drill by name."""

    id = fields.String()
    name = Words()
    kind = fields.String()


class WhereSchema(Claimed):
    """In how many settings what is secure has held; ``next``: which would tell more.

    ``unnamed`` says it without names of people and places.
    """

    settings = fields.Integer()
    unnamed = Words()
    next = Words(allow_none=True)


class StrangersSchema(Reply):
    """What is foretold of somebody or somewhere new; ``teaches``: which setting would tell most."""

    first = fields.List(fields.Nested(Claimed))
    teaches = fields.Nested(Claimed, allow_none=True)


class BoutsApartSchema(Claimed):
    """Whether real ones and feints were told apart in bouts: d′ and c."""

    sensitivity = fields.Float()
    criterion = fields.Float()


class BoutsSchema(Claimed):
    """The newest bouts watched for one drill's action; ``lesson`` is [right, cues] of the last
    lessons, ``low`` to ``high`` the range of the share answered in bouts."""

    drill = fields.Nested(NamedDrillSchema)
    last = fields.String(metadata={"description": "day of the newest"})
    bouts = fields.Integer()
    met = fields.Integer()
    answered = fields.Integer()
    shown = fields.Integer()
    fallen = fields.Integer()
    scored = fields.Integer()
    conceded = fields.Integer()
    lesson = fields.Tuple((fields.Integer(), fields.Integer()), allow_none=True)
    low = fields.Float(allow_none=True)
    high = fields.Float(allow_none=True)
    apart = fields.Nested(BoutsApartSchema, allow_none=True)


class PartnersSchema(Claimed):
    """What partners ticked at a drill's rung that was given last, ``cue`` in words."""

    drill = fields.Nested(NamedDrillSchema)
    last = fields.String(metadata={"description": "day of the newest set"})
    sets = fields.Integer()
    right = fields.Integer()
    given = fields.Integer()
    cue = Words()
