"""Replies on editing drills and trying out their rules."""

from __future__ import annotations

from marshmallow import fields

from ...rules.drill import GIVES
from .base import Reply, Words, choice


class OfferSchema(Reply):
    """A rung that would be valid here."""

    words = Words()
    grades = fields.Dict(keys=fields.String(), values=fields.Integer())


class DraftRungSchema(Reply):
    """A rung of a ladder being written."""

    label = Words()
    changed = Words()
    before = fields.List(fields.Nested(OfferSchema))


class DraftLadderSchema(Reply):
    """A ladder being written."""

    rungs = fields.List(fields.Nested(DraftRungSchema))
    next = fields.List(fields.Nested(OfferSchema))


class DraftReplySchema(Reply):
    """Every error by field, and the rungs that may come next on each ladder."""

    errors = fields.Dict(keys=fields.String(), values=fields.List(Words()))
    ladders = fields.Dict(
        keys=fields.String(), values=fields.Nested(DraftLadderSchema, allow_none=True)
    )
    gives = fields.List(choice(*GIVES))
    scales = fields.Dict(keys=fields.String(), values=fields.List(fields.String()))


class StandsSchema(Reply):
    """A rung and its cue, in words."""

    rung = Words()
    cue = Words()


class MidwaySchema(Reply):
    """Where a fencer is on the drill now, and where the changed drill would continue."""

    fencer = fields.String()
    nickname = fields.String()
    day = fields.String()
    running = fields.Boolean()
    now = fields.Nested(StandsSchema)
    then = fields.Nested(StandsSchema)
    same = fields.Boolean()


class EffectSchema(Reply):
    """Whom a change of the drill affects."""

    judged = fields.Boolean()
    fencers = fields.List(fields.Nested(MidwaySchema))
    words = Words()


class VersionSchema(Reply):
    """One version of a drill; ``changed`` names the fields that differ from the one before."""

    version = fields.Integer()
    at = fields.DateTime()
    coach = fields.String(allow_none=True)
    chart = fields.String()
    changed = fields.List(fields.String())
    rule = Words()


class VersionsSchema(Reply):
    """All versions, newest first."""

    versions = fields.List(fields.Nested(VersionSchema))


class SpreadSchema(Reply):
    """The expected course of one count, with 80 % ranges."""

    climb = fields.Float()
    climb_low = fields.Float()
    climb_high = fields.Float()
    back = fields.Float()
    rests = fields.Float()
    cues = fields.Float()
    cues_low = fields.Integer()
    cues_high = fields.Integer()
    claim = fields.String()
    words = Words()


class WhatIfReplySchema(Reply):
    """The drill's present rule compared with another, for one fencer."""

    fencer = fields.String()
    drill = fields.String()
    place = fields.Integer()
    seen = Words()
    few = fields.Boolean()
    present = fields.Nested(SpreadSchema)
    edited = fields.Nested(SpreadSchema)
    rule = Words()
    words = Words()
