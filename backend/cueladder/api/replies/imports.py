"""Replies on roster imports."""

from __future__ import annotations

from marshmallow import fields

from ...rules.drill import WEAPONS
from ...store.db.models.fencer import HANDS
from .base import Ready, Reply, Words, choice


class SameSchema(Reply):
    """A likely duplicate of a row: a fencer of the club, or one on an earlier line."""

    id = fields.String(allow_none=True)
    line = fields.Integer(allow_none=True)
    nickname = fields.String()
    born = fields.Integer(allow_none=True)
    archived = fields.Boolean()


class RowSchema(Reply):
    """One fencer of the table."""

    line = fields.Integer()
    nickname = fields.String()
    born = fields.Integer(allow_none=True)
    weapon = choice(*WEAPONS)
    hand = choice(*HANDS)
    joined = fields.Date(allow_none=True)
    consent = fields.Date(allow_none=True)
    note = fields.String(allow_none=True)
    same = fields.Nested(SameSchema, allow_none=True)


class FaultSchema(Reply):
    """An error in one cell or line, and what to do about it."""

    line = fields.Integer()
    column = fields.String()
    value = fields.String()
    message = Words()


class LookReplySchema(Reply):
    """What the import would do."""

    text = fields.String()
    encoding = fields.String(allow_none=True)
    delimiter = fields.String()
    left_out = fields.List(fields.String())
    rows = fields.List(fields.Nested(RowSchema))
    faults = fields.List(fields.Nested(FaultSchema))


class ImportedSchema(Reply):
    """A finished import and the number of fencers added."""

    id = fields.String()
    added = fields.Integer()


class ImportSchema(ImportedSchema):
    """A recent import; ``left`` counts its fencers who are still in the club."""

    at = fields.DateTime()
    coach = fields.String()
    name = fields.String(allow_none=True)
    left = fields.Integer()
    undone = fields.DateTime(allow_none=True)


class ImportsSchema(Reply):
    """The latest imports."""

    imports = fields.List(fields.Nested(ImportSchema))


class StaysSchema(Reply):
    """A fencer who stays when an import is taken back."""

    id = fields.String()
    nickname = fields.String()
    why = Words()


class UndoneSchema(Reply):
    """How many fencers were erased, and who stays."""

    gone = fields.Integer()
    stay = Ready(StaysSchema, many=True)
