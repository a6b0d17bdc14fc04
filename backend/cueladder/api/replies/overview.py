"""Replies on the club's tables."""

from __future__ import annotations

from marshmallow import fields

from .base import Ready, Reply, Words, choice, counts, pair


class DueSchema(Reply):
    """One fencer: when the next drill starts lower than it was left."""

    fencer = fields.String()
    name = fields.String()
    state = choice("lower", "soon", "new", "kept")
    last = fields.String(allow_none=True)
    days = fields.Integer(allow_none=True)
    until = fields.String(allow_none=True)
    lower = fields.List(fields.String())
    booked = fields.List(fields.String(), allow_none=True)
    words = Words()


class WaitSchema(Reply):
    """A wait at one rung that luck does not explain (``stuck``) or may just explain (``long``)."""

    fencer = fields.String()
    name = fields.String()
    state = choice("stuck", "long")
    drill = fields.String()
    title = Words()
    rung = Words()
    cue = Words()
    cues = fields.Integer()
    lessons = fields.Integer()
    right = fields.Integer()
    chance = fields.Float()
    marks = counts()
    rests = fields.Integer()
    why = Words()
    advice = Words()
    claim = fields.String()
    words = Words()


class StuckSchema(Reply):
    """Who is stuck, out of how many drills."""

    rows = fields.List(fields.Nested(WaitSchema))
    looked = fields.Integer()
    early = fields.Integer()
    words = Words()


class LoadSchema(Reply):
    """One coach in one week."""

    week = fields.String()
    coach = fields.String()
    name = fields.String()
    lessons = fields.Integer()
    cues = fields.Integer()
    minutes = fields.Integer(allow_none=True)
    timed = fields.Integer()


class AgreementSchema(Reply):
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
    claim = fields.String()
    words = Words()


class OrdersSchema(Reply):
    """A coach's orders of attacks and decoys."""

    coach = fields.String()
    name = fields.String()
    judged = fields.Integer()
    guessable = fields.Integer()
    short = fields.Integer()
    p = fields.Float()
    claim = fields.String()
    words = Words()


class SeasonRowSchema(Reply):
    """A fencer, week by week."""

    fencer = fields.String()
    name = fields.String()
    lessons = fields.List(fields.Integer())
    gained = fields.List(fields.Integer())
    all = pair()


class SeasonSchema(Reply):
    """Weeks, named by their Mondays, and a row a fencer."""

    weeks = fields.List(fields.String())
    rows = fields.List(fields.Nested(SeasonRowSchema))


class StopSchema(Reply):
    """A stop that a fencer called."""

    day = fields.String()
    fencer = fields.String()
    drill = Words()
    coach = Words()


class OverviewSchema(Reply):
    """All tables."""

    day = fields.String()
    weeks = fields.Integer()
    due = Ready(DueSchema, many=True)
    stuck = Ready(StuckSchema)
    load = Ready(LoadSchema, many=True)
    agreement = Ready(AgreementSchema, many=True)
    orders = Ready(OrdersSchema, many=True)
    season = Ready(SeasonSchema)
    stops = Ready(StopSchema, many=True)
