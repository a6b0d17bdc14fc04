"""Replies on a fencer's story."""

from __future__ import annotations

from marshmallow import fields

from ...rules import Mark
from .base import Claimed, PartSchema, Ready, Reply, Words, choice, counts, pair
from .beyond import (
    BoutsSchema,
    NamedDrillSchema,
    PartnersSchema,
    StrangersSchema,
    WhereSchema,
)
from .by_lesson import ByLessonSchema, DrillByLessonSchema

STATUS = ("working", "secure")


class RungSchema(Reply):
    """A rung of a ladder, counted from 1."""

    rung = fields.Integer()
    of = fields.Integer()
    label = fields.String()


class PlaceSchema(Reply):
    """A place: a rung on each ladder the drill has."""

    place = fields.Integer()
    read = fields.Nested(RungSchema, allow_none=True)
    heat = fields.Nested(RungSchema, allow_none=True)


class StatusSchema(Claimed):
    """Where a fencer stands on a drill: the places met, secure and now."""

    status = choice(*STATUS, allow_none=True)
    met = fields.Nested(PlaceSchema, allow_none=True)
    secure = fields.Nested(PlaceSchema, allow_none=True)
    now = fields.Nested(PlaceSchema)
    top = fields.Boolean(metadata={"description": "whether the whole ladder is met"})


class CourseLessonSchema(Reply):
    """Rungs met at the end of a lesson, from 1; 0 is none yet, null is no such ladder."""

    lesson = fields.String()
    day = fields.String()
    read = fields.Integer(allow_none=True)
    heat = fields.Integer(allow_none=True)
    steps = fields.Integer()
    status = choice(*STATUS, allow_none=True)
    cues = fields.Integer()


class CourseSchema(Reply):
    """Rungs over time; ``change`` is null where the lessons are too few for a trend."""

    lessons = fields.List(fields.Nested(CourseLessonSchema))
    change = fields.Integer(allow_none=True)
    words = Words()


class MarksSchema(Reply):
    """How often each mark was given."""

    total = fields.Integer()
    lessons = fields.Integer()
    by_mark = counts()
    words = Words()


class ReliabilitySchema(Claimed):
    """How often right at one rung; ``low`` to ``high`` holds at all looks of a season."""

    place = fields.Integer()
    rung = Words()
    right = fields.Integer()
    trials = fields.Integer()
    percent = fields.Integer(allow_none=True)
    low = fields.Float(allow_none=True)
    high = fields.Float(allow_none=True)


class ReachSchema(PartSchema):
    """How far up a ladder answers hold, in rungs from 0; ``by_rung`` is [right, cues]."""

    position = fields.Float()
    low = fields.Integer()
    high = fields.Integer()
    target = fields.Float()
    tried = fields.Integer()
    top = fields.Integer()
    trials = fields.Integer()
    by_rung = fields.List(pair())


class DetectionSchema(PartSchema):
    """How well cues to answer are told from those to leave alone: d′ as ``sensitivity``, c as
    ``criterion``."""

    hits = fields.Integer()
    attacks = fields.Integer()
    false_alarms = fields.Integer()
    decoys = fields.Integer()
    hit_rate = fields.Float()
    false_alarm_rate = fields.Float()
    sensitivity = fields.Float()
    criterion = fields.Float()
    beta = fields.Float()
    error = fields.Float()
    lean_error = fields.Float()
    low = fields.Float(allow_none=True)
    high = fields.Float(allow_none=True)
    confidence = fields.Float()
    lean = fields.Nested(PartSchema, allow_none=True)


class HeatKindSchema(Reply):
    """Loud cues of one kind against soft ones; ``difference`` is the share right on loud minus on
    soft."""

    soft = pair()
    loud = pair()
    cues = fields.Integer()
    odds_ratio = fields.Float(allow_none=True)
    odds_low = fields.Float(allow_none=True)
    odds_high = fields.Float(allow_none=True)
    difference = fields.Float()
    low = fields.Float()
    high = fields.Float()
    confidence = fields.Float()
    statistic = fields.Float(allow_none=True)
    p = fields.Float()
    uneven_p = fields.Float(allow_none=True)


class HeatShiftSchema(Reply):
    """Change of d′ and c from soft to loud, each with its error, over the ``rungs`` compared.

    ``attacks`` and ``decoys`` are [soft, loud], each [right, cues].
    """

    sensitivity = fields.Float()
    sensitivity_error = fields.Float()
    criterion = fields.Float()
    criterion_error = fields.Float()
    attacks = fields.List(pair())
    decoys = fields.List(pair())
    rungs = fields.Integer()


class HeatEffectSchema(PartSchema):
    """Loud cues against soft ones by kind: ``all``, or ``attack`` and ``decoy``."""

    kinds = fields.Dict(keys=fields.String(), values=fields.Nested(HeatKindSchema))
    shift = fields.Nested(HeatShiftSchema, allow_none=True)


class PaceSchema(Reply):
    """Seconds from cue to cue."""

    seconds = fields.Float()
    gaps = fields.Integer()
    words = Words()


class ForecastSchema(Claimed):
    """Lessons to the top if the pace lasts; null is too early where ``early``, else very many."""

    lessons = fields.Integer(allow_none=True)
    low = fields.Integer(allow_none=True)
    high = fields.Integer(allow_none=True)
    confidence = fields.Float()
    early = fields.Boolean()
    remaining = fields.Integer()
    seen = fields.Integer()


class ComfortRowSchema(Reply):
    """How comfortable the fencer felt in one lesson, 0 to 10; null where nothing was said."""

    lesson = fields.String()
    day = fields.String()
    before = fields.Integer(allow_none=True)
    after = fields.Integer(allow_none=True)


class ComfortSchema(ByLessonSchema):
    """Comfort, lesson by lesson."""

    rows = fields.List(fields.Nested(ComfortRowSchema))


class PracticeSchema(Reply):
    """Days a drill was practised at home, oldest first."""

    days = fields.List(fields.String())
    words = Words()


class DrillStorySchema(Reply):
    """One drill; each part carries its exact figures and ``words``, or is null."""

    drill = fields.Nested(NamedDrillSchema)
    chart = fields.String()
    day = fields.String()
    standing = fields.Nested(StatusSchema)
    first = fields.Nested(Claimed)
    rungs = fields.Nested(CourseSchema)
    cues = fields.Nested(MarksSchema)
    reliability = fields.Nested(ReliabilitySchema, allow_none=True)
    smallest_read = fields.Nested(ReachSchema, allow_none=True)
    fiercest_held = fields.Nested(ReachSchema, allow_none=True)
    detection = fields.Nested(DetectionSchema, allow_none=True)
    heat = fields.Nested(HeatEffectSchema, allow_none=True)
    pace = fields.Nested(PaceSchema, allow_none=True)
    by_giver = fields.Nested(Claimed, allow_none=True)
    strangers = fields.Nested(StrangersSchema, allow_none=True)
    first_cue = fields.Nested(Claimed, allow_none=True)
    forecast = fields.Nested(ForecastSchema)
    by_lesson = fields.Nested(DrillByLessonSchema)
    practice = fields.Nested(PracticeSchema)
    where = fields.Nested(WhereSchema, allow_none=True)


class NoteSchema(Reply):
    """What a coach noted in a lesson."""

    day = fields.String()
    coach = fields.String(metadata={"description": "the coach's name"})
    text = fields.String()


class StorySchema(Reply):
    """A fencer's drills, the one worked last first; ``notes`` newest first, none to observers."""

    fencer = fields.String()
    drills = Ready(DrillStorySchema, many=True)
    bouts = Ready(BoutsSchema, many=True)
    partners = Ready(PartnersSchema, many=True)
    comfort = Ready(ComfortSchema)
    notes = fields.List(fields.Nested(NoteSchema))


def mark() -> fields.String:
    """A mark as it is stored."""
    return choice(*(each.value for each in Mark))
