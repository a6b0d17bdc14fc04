"""Replies on a lesson afterwards."""

from __future__ import annotations

from marshmallow import fields

from .base import Claimed, Ready, Reply, Words, counts, pair
from .beyond import NamedDrillSchema, WhereSchema
from .story import PlaceSchema, mark


class RungGivenSchema(PlaceSchema):
    """A rung given in the lesson, and what came of it."""

    rung = Words()
    cue = Words()
    cues = fields.Integer()
    right = fields.Integer()
    tense = fields.Integer()
    by_mark = counts()
    held = fields.Boolean()
    broke = fields.Boolean()
    stumbled = fields.Boolean(metadata={"description": "whether it broke before it held"})
    failed = fields.Boolean(metadata={"description": "whether a re-check failed there"})
    words = Words()


class StartSchema(PlaceSchema):
    """Where the next lesson starts up to a day; null in the last row."""

    until = fields.String(allow_none=True)
    cue = Words()


class NextStartSchema(Reply):
    """Where the next lesson starts, by its day; ``due`` is the last day before it starts lower."""

    starts = fields.List(fields.Nested(StartSchema))
    recheck = fields.Boolean()
    due = fields.String(allow_none=True)
    words = Words()


class RunsSchema(Reply):
    """The runs test of an order."""

    runs = fields.Integer()
    expected = fields.Float()
    deviation = fields.Float()
    z = fields.Float()
    p = fields.Float()
    exact = fields.Boolean()


class GuessingSchema(Reply):
    """How a watchful fencer would have guessed the next cue."""

    guesses = fields.Integer()
    right = fields.Float()
    share = fields.Float()
    chance = fields.Float()
    gain = fields.Float()
    p = fields.Float()


class OrderSchema(Claimed):
    """Whether the order given could be guessed; null where the cues are too few to say."""

    guessable = fields.Boolean(allow_none=True)
    runs = fields.Nested(RunsSchema)
    guessing = fields.Nested(GuessingSchema)


class DifferingSchema(Reply):
    """A cue that two people marked differently."""

    number = fields.Integer(allow_none=True)
    rung = Words()
    cue = Words()
    coach = mark()
    second = mark()


class AgreedSchema(Reply):
    """Agreement of coach and observer; the figures are absent where no cue was marked by both."""

    absent = (
        "claim", "largest", "error", "p", "low", "high", "confidence", "observed", "chance",
        "trials", "marks", "table", "differ",
    )  # fmt: skip

    claim = fields.String()
    kappa = fields.Float(allow_none=True)
    p = fields.Float()
    largest = fields.Float(allow_none=True)
    error = fields.Float(allow_none=True)
    low = fields.Float(allow_none=True)
    high = fields.Float(allow_none=True)
    confidence = fields.Float()
    observed = fields.Float()
    chance = fields.Float()
    trials = fields.Integer()
    marks = fields.List(fields.String())
    table = fields.List(fields.List(fields.Integer()))
    differ = fields.List(fields.Tuple((fields.String(), fields.String(), fields.Integer())))
    pairs = fields.Integer()
    alone = pair()
    apart = fields.List(fields.Nested(DifferingSchema))
    words = Words()


class DrillAfterSchema(Reply):
    """What one drill of a lesson came to."""

    drill = fields.Nested(NamedDrillSchema)
    cues = fields.Integer()
    rungs = fields.List(fields.Nested(RungGivenSchema))
    held = fields.List(Words())
    broke = fields.List(Words())
    next = fields.Nested(NextStartSchema)
    order = fields.Nested(OrderSchema, allow_none=True)
    observers = fields.Dict(keys=fields.String(), values=fields.Nested(AgreedSchema))
    alone = Words()
    where = fields.Nested(WhereSchema, allow_none=True)
    words = Words()


class AfterSchema(Reply):
    """A lesson afterwards."""

    lesson = fields.String()
    fencer = fields.String()
    coach = fields.String()
    day = fields.String()
    closed = fields.Boolean()
    drills = Ready(DrillAfterSchema, many=True)


class NextCuesSchema(Reply):
    """How far a lesson's coach has come: for whoever marks along on a second phone."""

    drill = fields.String(allow_none=True, metadata={"description": "the one last marked"})
    numbers = fields.Dict(
        keys=fields.String(),
        values=fields.Integer(),
        metadata={"description": "number of the next cue, by drill"},
    )
