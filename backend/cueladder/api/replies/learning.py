"""Replies on what the club's own lessons teach."""

from __future__ import annotations

from marshmallow import fields

from ...rules import Kind
from .base import Claimed, Ready, Reply, Words, choice


def three() -> fields.Tuple:
    """Middle, low and high end of an 80 % range."""
    return fields.Tuple((fields.Float(), fields.Float(), fields.Float()))


class ServedSchema(Claimed):
    """How a rule serves: lessons a rung, share of early climbs, share who never climb."""

    lessons = three()
    early = three()
    never = three()


class LearnedSettingSchema(ServedSchema):
    """A setting on fencers like the club's; ``now``: the club has it."""

    name = fields.String()
    now = fields.Boolean()


class HeldChecksSchema(Claimed):
    """Re-checks after breaks of one row."""

    begun = fields.Integer()
    held = fields.Integer()


class BreakRowSchema(Reply):
    """Rungs lower to start ("half" the ladder in the last row), and the share of a count left."""

    back = fields.Raw(metadata={"type": ["integer", "string"]})
    keep = fields.Float()


class AcceptedSchema(Reply):
    """A suggestion that was accepted (``taken``) or taken back."""

    what = choice("rule", "breaks")
    taken = fields.Boolean()
    coach = fields.String(allow_none=True)
    at = fields.String()


class LearnedKindSchema(Reply):
    """One kind of drill."""

    kind = choice(*Kind)
    title = Words()
    seen = Words()
    figures = Ready(Claimed, many=True)
    settings = Ready(LearnedSettingSchema, many=True)
    did = Ready(ServedSchema, allow_none=True)
    setting = Ready(Claimed, allow_none=True)
    suggested = fields.String(allow_none=True)
    checks = Ready(HeldChecksSchema, many=True)
    breaks = Ready(Claimed, allow_none=True)
    new_breaks = Ready(BreakRowSchema, many=True, allow_none=True)
    plots = fields.Boolean()
    accepted = fields.List(fields.String())
    history = Ready(AcceptedSchema, many=True)


class LearningSchema(Reply):
    """The last look: whether another is under way, when it was, and its kinds of drill."""

    running = fields.Boolean()
    trouble = fields.Boolean()
    at = fields.String(allow_none=True)
    kinds = Ready(LearnedKindSchema, many=True)


class NumbersKindSchema(Reply):
    """Numbers of one kind of drill, of many fencers together."""

    kind = choice(*Kind)
    marks = fields.Integer()
    setting = fields.String()
    figures = fields.Dict(keys=fields.String(), values=fields.List(fields.Float()))
    right = fields.Dict(keys=fields.String(), values=fields.List(fields.List(fields.Float())))
    lessons_a_rung = fields.Dict(keys=fields.String(), values=fields.List(fields.Float()))
    early_climbs = fields.Dict(keys=fields.String(), values=fields.List(fields.Float()))


class NumbersSchema(Reply):
    """The file of numbers alone."""

    format = fields.Integer()
    kinds = fields.List(fields.Nested(NumbersKindSchema))
