"""Replies on a drill lesson by lesson."""

from __future__ import annotations

from marshmallow import fields

from .base import Reply, Words, pair


class LessonFigureSchema(Reply):
    """A figure of one lesson with its range."""

    day = fields.String()
    value = fields.Float()
    low = fields.Float()
    high = fields.Float()


class ApartRowSchema(LessonFigureSchema):
    """d′ of one lesson, with c and what it was worked out from."""

    c = fields.Float()
    hits = fields.Integer()
    attacks = fields.Integer()
    false_alarms = fields.Integer()
    decoys = fields.Integer()


class HeatRowSchema(LessonFigureSchema):
    """Loud minus soft in one lesson; each pair is [right, cues]."""

    soft = pair()
    loud = pair()


class PaceRowSchema(LessonFigureSchema):
    """Seconds a cue in one lesson: the median and the middle half."""

    gaps = fields.Integer()


class ByLessonSchema(Reply):
    """Base of figures lesson by lesson; ``left_out`` lessons have too few cues."""

    left_out = fields.Integer()
    words = Words()


class ApartByLessonSchema(ByLessonSchema):
    """Attacks told from decoys, lesson by lesson."""

    rows = fields.List(fields.Nested(ApartRowSchema))


class HeatByLessonSchema(ByLessonSchema):
    """Loud minus soft, lesson by lesson."""

    rows = fields.List(fields.Nested(HeatRowSchema))


class PaceByLessonSchema(ByLessonSchema):
    """Seconds a cue, lesson by lesson."""

    rows = fields.List(fields.Nested(PaceRowSchema))


class DrillByLessonSchema(Reply):
    """A drill's figures lesson by lesson; null where the drill has no such figure."""

    apart = fields.Nested(ApartByLessonSchema, allow_none=True)
    heat = fields.Nested(HeatByLessonSchema, allow_none=True)
    pace = fields.Nested(PaceByLessonSchema)
