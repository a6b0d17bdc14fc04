"""Replies on plans by chance."""

from __future__ import annotations

from marshmallow import fields

from .base import Claimed, Ready, Reply, Words, counts
from .beyond import NamedDrillSchema


class WatchedSideSchema(Reply):
    """Bouts before a drill's turn, or from it on: of ``chances`` real ones ``met`` were answered,
    on so many ``days``."""

    days = fields.Integer()
    met = fields.Integer()
    chances = fields.Integer()


class DrawnDrillSchema(Reply):
    """A drill of a plan: from when it may be begun, the day of its first lesson, and its bouts.

    ``overlap`` compares bout days before and after, once the plan has ended.
    """

    drill = fields.Nested(NamedDrillSchema)
    begins = fields.String()
    begun = fields.String(allow_none=True)
    before = fields.Nested(WatchedSideSchema)
    after = fields.Nested(WatchedSideSchema)
    overlap = fields.Nested(Claimed, allow_none=True)


class FitSchema(Reply):
    """How many of all orders fit the bouts at least ``as_good`` as the drawn one, itself included;
    ``p`` is their share, exact and one-sided."""

    as_good = fields.Integer()
    orders = fields.Integer()
    p = fields.Float()
    gain = fields.Float()


class DrawSchema(Reply):
    """A plan by chance, its drills in the drawn order; one that was withdrawn is not judged."""

    id = fields.String()
    drawn = fields.String()
    coach = fields.String(metadata={"description": "name of who had it drawn"})
    seed = fields.String()
    first = fields.String()
    last = fields.String()
    withdrawn = fields.String(allow_none=True)
    withdrawn_by = fields.String(allow_none=True)
    over = fields.Boolean()
    next = Words(allow_none=True)
    did = fields.Nested(Claimed, allow_none=True)
    fit = fields.Nested(FitSchema, allow_none=True)
    drills = fields.List(fields.Nested(DrawnDrillSchema))


class TogetherSchema(Reply):
    """Plans of several fencers that end in the half of a year up to ``last``: ``waits`` until that
    day is over, then ``did``."""

    last = fields.String()
    plans = fields.Integer()
    waits = Words(allow_none=True)
    did = fields.Nested(Claimed, allow_none=True)
    fit = fields.Nested(FitSchema, allow_none=True)


class AllTogetherSchema(Reply):
    """Halves of a year in which two plans or more end, the newest first."""

    together = Ready(TogetherSchema, many=True)


class DrawsSchema(Reply):
    """A fencer's plans, newest first; ``open``: drills another may be drawn of; ``needs``: the
    fewest bout days by number of drills."""

    draws = Ready(DrawSchema, many=True)
    open = Ready(NamedDrillSchema, many=True)
    needs = counts()
