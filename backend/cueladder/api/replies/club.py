"""Replies on a club, its people and its drills."""

from __future__ import annotations

from marshmallow import fields

from ...rules.drill import GIVES, WEAPONS
from ...store.db.models.club import ROLES
from ...store.db.models.fencer import HANDS
from .base import Ready, Reply, Words, choice


class CoachSchema(Reply):
    """A coach of the club; ``active`` is false for one who has left."""

    id = fields.String()
    name = fields.String()
    role = choice(*ROLES)
    active = fields.Boolean()


class CoachesSchema(Reply):
    """The club's coaches, including those who have left."""

    coaches = Ready(CoachSchema, many=True)


class FencerSchema(Reply):
    """A fencer."""

    id = fields.String()
    nickname = fields.String()
    born = fields.Integer(allow_none=True)
    weapon = choice(*WEAPONS)
    hand = choice(*HANDS)
    joined = fields.Date(allow_none=True)
    consent = fields.Date(allow_none=True)
    noise_self = fields.Date(allow_none=True)
    noise_guardian = fields.Date(allow_none=True)
    note = fields.String(allow_none=True)
    archived = fields.Boolean()


class FencersSchema(Reply):
    """All fencers."""

    fencers = fields.List(fields.Nested(FencerSchema))


class ScaleSchema(Reply):
    """A scale of a drill: the ladder it belongs to, its grades in words and their times."""

    absent = ("takes", "gone", "answer")

    family = choice("read", "heat")
    grades = fields.List(Words())
    takes = fields.List(
        fields.Integer(allow_none=True),
        metadata={"description": "ms each grade adds to the cue, null for no limit"},
    )
    gone = fields.List(
        fields.Float(), metadata={"description": "share of the cue over before it can be told"}
    )
    answer = fields.List(
        fields.Integer(), metadata={"description": "ms each grade adds to the answer"}
    )


def ladder() -> fields.List:
    """Rungs, each scale name → grade number; null where the drill has no such ladder."""
    row = fields.Dict(keys=fields.String(), values=fields.Integer())
    return fields.List(row, allow_none=True)


class DrillDocumentSchema(Reply):
    """A drill as it is written and stored."""

    absent = (
        "cap", "read", "heat", "paired", "rule", "level", "cues", "counts", "feet", "time",
        "blades", "loud_from", "language", "breaks", "usual", "startles",
    )  # fmt: skip

    slug = fields.String()
    name = Words()
    kind = fields.String()
    weapon = fields.List(fields.String())
    action = Words()
    purpose = Words()
    how = Words()
    safety = Words()
    alone = Words()
    gives = choice(*GIVES)
    scales = fields.Dict(keys=fields.String(), values=fields.Nested(ScaleSchema))
    read = ladder()
    heat = ladder()
    paired = fields.String(allow_none=True)
    rule = fields.Dict(keys=fields.String(), allow_none=True)
    cap = fields.Integer()
    level = fields.String()
    cues = fields.Dict(keys=fields.String(), values=Words())
    counts = fields.Dict(keys=fields.String(), values=Words())
    feet = Words()
    time = fields.Dict()
    blades = fields.Boolean()
    loud_from = fields.Integer()
    language = fields.String(metadata={"description": "of a club's own drill"})
    breaks = fields.List(fields.Dict(), metadata={"description": "its own start after breaks"})
    usual = fields.Integer(metadata={"description": "cues a lesson usually gives it"})
    startles = fields.Integer(
        metadata={"description": "startled answers running that lead one rung back"}
    )


class PartnerCardSchema(Reply):
    """What a partner's card may ask for; None where the drill stays with a coach."""

    heat = fields.Integer(metadata={"description": "heat rung at which a mixed drill is given"})
    cues = fields.Integer()


class DrillSchema(Reply):
    """A drill as it is now."""

    id = fields.String()
    slug = fields.String()
    version = fields.Integer()
    archived = fields.Boolean()
    own = fields.Boolean(
        metadata={"description": "whether a coach of the club wrote it as it is now"}
    )
    rule = Words(metadata={"description": "the rule in words"})
    name = Words()
    kind = fields.String()
    weapon = fields.List(fields.String())
    action = Words()
    purpose = Words()
    how = Words()
    safety = Words()
    alone = Words()
    paired = fields.String(allow_none=True)
    chart = fields.String()
    document = Ready(DrillDocumentSchema)
    language = fields.String(metadata={"description": "the texts are in"})
    grades = fields.Dict(keys=fields.String(), values=Words())
    care = fields.List(Words())
    left = fields.Dict(metadata={"description": "ms each rung leaves to react in, by ladder"})
    loud_from = fields.Integer(
        allow_none=True, metadata={"description": "heat rung from which loud and soft differ"}
    )
    noisy_from = fields.Integer(
        allow_none=True,
        metadata={"description": "heat rung from which voice or stamp needs the fencer's consent"},
    )
    partner = fields.Nested(PartnerCardSchema, allow_none=True)


class DrillsSchema(Reply):
    """All drills."""

    drills = Ready(DrillSchema, many=True)


class PlannedBlockSchema(Reply):
    """One part of a planned lesson."""

    drill = fields.String()
    role = fields.String()
    minutes = fields.Integer()


class BookingSchema(Reply):
    """A planned lesson."""

    id = fields.String()
    day = fields.String()
    fencer = fields.String(attribute="fencer_id")
    coach = fields.String(attribute="coach_id")
    at = fields.String()
    minutes = fields.Integer()
    plan = Ready(PlannedBlockSchema, many=True)


class BookingsSchema(Reply):
    """Planned lessons."""

    bookings = fields.List(fields.Nested(BookingSchema))


class DaySchema(Reply):
    """The lessons planned for a day."""

    today = fields.List(fields.Nested(BookingSchema))


class NotesSchema(Reply):
    """What was noted in a fencer's last lesson."""

    fencer = fields.String()
    day = fields.String()
    texts = fields.List(fields.String())


class ClubSchema(DaySchema):
    """What a phone needs of a club.

    ``week`` has the lessons from a week before to almost two weeks after: one's own, and a head
    coach's all.
    """

    id = fields.String()
    name = fields.String()
    coaches = Ready(CoachSchema, many=True)
    fencers = fields.List(fields.Nested(FencerSchema))
    drills = Ready(DrillSchema, many=True)
    week = fields.List(fields.Nested(BookingSchema))
    notes = fields.List(
        fields.Nested(NotesSchema),
        metadata={"description": "of the last lessons of those who come next; none to observers"},
    )
    removed = fields.List(fields.String(), metadata={"description": "lessons a head coach removed"})
    places = fields.List(
        fields.String(), metadata={"description": "where lessons are given, the commonest first"}
    )
