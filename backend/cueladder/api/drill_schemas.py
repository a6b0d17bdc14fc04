"""What goes in and out of the drill routes."""

from __future__ import annotations

from marshmallow import Schema, fields

from ..store.event_fields import Flag, Id
from .fields import Words, sound


class DrillSchema(Schema):
    """A drill: its document, and an id made on the device if one likes."""

    id = Id(required=False)
    document = fields.Dict(keys=fields.String(), required=True, validate=sound)


class DrillChangeSchema(Schema):
    """A drill's new document."""

    document = fields.Dict(keys=fields.String(), required=True, validate=sound)
    archived = Flag(required=False, load_default=False)


class DraftSchema(Schema):
    """A drill document in whatever state."""

    document = fields.Dict(keys=fields.String(), required=True, validate=sound)


class OfferSchema(Schema):
    """A rung that may stand at this place of the ladder."""

    words = Words()
    grades = fields.Dict(keys=fields.String(), values=fields.Integer())


class DraftRungSchema(Schema):
    """A rung of a ladder being written."""

    label = Words()
    changed = Words()
    before = fields.List(fields.Nested(OfferSchema))


class DraftLadderSchema(Schema):
    """A ladder being written."""

    rungs = fields.List(fields.Nested(DraftRungSchema))
    next = fields.List(fields.Nested(OfferSchema))


class DraftReplySchema(Schema):
    """All that is wrong, by field, and what may come next on each ladder."""

    errors = fields.Dict(keys=fields.String(), values=fields.List(Words()))
    ladders = fields.Dict(
        keys=fields.String(), values=fields.Nested(DraftLadderSchema, allow_none=True)
    )
    gives = fields.List(fields.String())
    scales = fields.Dict(keys=fields.String(), values=fields.List(fields.String()))


class StandsSchema(Schema):
    """A rung and its cue in words."""

    rung = Words()
    cue = Words()


class MidwaySchema(Schema):
    """Where a fencer is on the drill, and where the changed one goes on."""

    fencer = fields.String()
    nickname = fields.String()
    day = fields.String()
    running = fields.Boolean()
    now = fields.Nested(StandsSchema)
    then = fields.Nested(StandsSchema)
    same = fields.Boolean()


class EffectSchema(Schema):
    """Whom a change reaches."""

    judged = fields.Boolean()
    fencers = fields.List(fields.Nested(MidwaySchema))
    words = Words()


class VersionSchema(Schema):
    """One version of a drill; ``changed`` names the fields that differ from the one before."""

    version = fields.Integer()
    at = fields.DateTime()
    coach = fields.String(allow_none=True)
    chart = fields.String()
    changed = fields.List(fields.String())
    rule = Words()


class VersionsSchema(Schema):
    """All versions, newest first."""

    versions = fields.List(fields.Nested(VersionSchema))


class WhatIfSchema(Schema):
    """A rule to try."""

    rule = fields.Dict(keys=fields.String(), required=True, validate=sound)


class SpreadSchema(Schema):
    """What to expect of one count; the ranges hold 8 times in 10."""

    climb = fields.Float()
    climb_low = fields.Float()
    climb_high = fields.Float()
    back = fields.Float()
    rests = fields.Float()
    cues = fields.Float()
    cues_low = fields.Integer()
    cues_high = fields.Integer()
    words = Words()


class WhatIfReplySchema(Schema):
    """The drill's rule of today beside another, for one fencer."""

    fencer = fields.String()
    drill = fields.String()
    place = fields.Integer()
    seen = Words()
    few = fields.Boolean()
    present = fields.Nested(SpreadSchema)
    edited = fields.Nested(SpreadSchema)
    rule = Words()
    words = Words()
