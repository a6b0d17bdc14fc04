"""The form of every type of event; one schema a type."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, ClassVar

from marshmallow import Schema, ValidationError

from ...rules.said import later
from ..db.models.fencer import HANDS
from ..db.models.lesson import STATES, WHERE
from .fields import Day, Flag, Id, Letters, Moment, Number, Text, Whole, Word

ENVELOPE = ("id", "type", "device", "n", "at", "coach", "lesson")

MOST_IN_BOUT = 200
MOST_ON_CARD = 40

Why = dict[str, list[str]]


class Envelope(Schema):
    """What every event carries."""

    id = Id()
    type = Text(16)
    device = Id()
    n = Whole(low=1)
    at = Moment()
    coach = Id()
    lesson = Id()

    error_messages: ClassVar[dict[str, str]] = {
        "unknown": later("is not known here: leave it out, or update the server"),
        "type": later("should be an object"),
    }


class LessonOpened(Envelope):
    """A lesson begins."""

    fencer = Id()
    day = Day()


class CueMarked(Envelope):
    """A cue was given and judged.

    ``instead_of`` names the mark that this one judges anew. ``number`` is a second person's: which
    cue of the drill in this lesson it was, by the coach's screen; such a mark has place 0, as the
    rung is not shown to who watches.
    """

    drill = Id()
    chart = Text(40)
    place = Whole(high=1_000_000)
    given = Word("attack", "decoy")
    mark = Word("correct", "late", "early", "decoy")
    tense = Flag()
    loud = Flag(allow_none=True)
    wait = Number(allow_none=True)
    instead_of = Id(required=False)
    number = Whole(low=1, high=100_000, required=False)


class MarkVoided(Envelope):
    """A mark was a slip of the thumb; or a rung set, a search begun, a drill left for today."""

    mark = Id()


class RungSet(Envelope):
    """The coach set the rung by hand."""

    drill = Id()
    chart = Text(40)
    place = Whole(high=1_000_000)
    reason = Text(200, allow_none=True)


class DrillRested(Envelope):
    """The coach left a drill for today. Phones of version 1 name no chart."""

    drill = Id()
    chart = Text(40, required=False)


class StartSought(Envelope):
    """A search for the start begins; its cues are marked as any others."""

    drill = Id()
    chart = Text(40)


class StopCalled(Envelope):
    """The fencer called stop: heat ends for the day. No reason is asked, and none is kept."""

    drill = Id()
    chart = Text(40)


class ComfortRated(Envelope):
    """How the fencer feels, 0 to 10."""

    when = Word("before", "after")
    value = Whole(high=10)


class NoteWritten(Envelope):
    """A note on the lesson, or on one drill in it."""

    text = Text(2000)
    drill = Id(allow_none=True)


class SettingTold(Envelope):
    """In which setting the lesson is given; the last one told counts, of the lesson's own coach.

    ``giver`` is the coach who gives the cues, ``hand`` that coach's, ``where`` the place in the
    club's own words; null is what was not told. A lesson without it, as older phones send them,
    counts as given by its own coach.
    """

    giver = Id()
    hand = Word(*HANDS, allow_none=True)
    where = Text(WHERE, blank=False, allow_none=True)
    state = Word(*STATES, allow_none=True)


class BoutWatched(Envelope):
    """A bout, watched for one drill's action.

    The first event of a bout names itself as its ``lesson``; a correction names that one. ``met``
    real ones, of them ``answered``; ``shown`` feints, of them ``fallen`` for; touches by the action
    ``scored`` and ``conceded``.
    """

    fencer = Id()
    day = Day()
    drill = Id()
    met = Whole(high=MOST_IN_BOUT)
    answered = Whole(high=MOST_IN_BOUT)
    shown = Whole(high=MOST_IN_BOUT)
    fallen = Whole(high=MOST_IN_BOUT)
    scored = Whole(high=MOST_IN_BOUT)
    conceded = Whole(high=MOST_IN_BOUT)


class BoutVoided(Envelope):
    """A bout is taken back; told anew it counts again."""


class PartnerMarked(Envelope):
    """A set that another fencer gave by a card, as the partner ticked it.

    Who the partner was is not kept. ``cues`` is what the card asked for, a letter a cue: a to be
    answered, d to be left alone; ``ticks`` what was ticked, of as many: 1 right, 0 not right, -
    not given. ``card`` is the card's own code. The first event of a set names itself as its
    ``lesson``; a correction names that one.
    """

    fencer = Id()
    day = Day()
    drill = Id()
    chart = Text(40)
    place = Whole(high=1_000_000)
    card = Text(20)
    cues = Letters("ad", MOST_ON_CARD)
    ticks = Letters("10-", MOST_ON_CARD)


class PartnerVoided(Envelope):
    """A set given by a partner is taken back; told anew it counts again."""


class LessonClosed(Envelope):
    """A lesson ends."""


SCHEMAS: dict[str, Schema] = {
    "lesson_opened": LessonOpened(),
    "cue_marked": CueMarked(),
    "mark_voided": MarkVoided(),
    "rung_set": RungSet(),
    "drill_rested": DrillRested(),
    "start_sought": StartSought(),
    "stop_called": StopCalled(),
    "comfort_rated": ComfortRated(),
    "note_written": NoteWritten(),
    "setting_told": SettingTold(),
    "lesson_closed": LessonClosed(),
    "bout_watched": BoutWatched(),
    "bout_voided": BoutVoided(),
    "partner_marked": PartnerMarked(),
    "partner_voided": PartnerVoided(),
}
_REQUIRED = {
    kind: frozenset(name for name, field in schema.load_fields.items() if field.required)
    for kind, schema in SCHEMAS.items()
}


def why_malformed(event: Any, like: Mapping[str, Any] | None = None) -> Why | None:
    """Check the form of one event.

    Args:
        event: anything at all.
        like: a well-formed event of the same type: what it says too is not looked at again.

    Returns:
        What is wrong by field, or None for a well-formed event.
    """
    if not isinstance(event, Mapping):
        return {"event": ["should be an object"]}
    kind = event.get("type")
    schema = SCHEMAS.get(kind) if isinstance(kind, str) else None
    if schema is None:
        names = ", ".join(SCHEMAS)
        return {"type": [f"should be one of {names}; for a newer one update the server"]}
    if _plainly_good(schema, event, like or {}):
        return None
    try:
        schema.load(event)
    except ValidationError as error:
        return {str(field): _flat(said) for field, said in error.normalized_messages().items()}
    return None


def why_each_malformed(events: list[Any]) -> list[Why | None]:
    """Check the form of each event of a batch, in which much is said again and again."""
    last: dict[str, Mapping[str, Any]] = {}
    verdicts: list[Why | None] = []
    for event in events:
        kind = event.get("type") if isinstance(event, dict) else None
        why = why_malformed(event, last.get(kind) if isinstance(kind, str) else None)
        if why is None:
            last[event["type"]] = event
        verdicts.append(why)
    return verdicts


def _plainly_good(schema: Schema, event: Mapping[str, Any], like: Mapping[str, Any]) -> bool:
    """Ask each field alone, which is several times as fast as a whole load; says no when in doubt.

    It leaves out field and schema validators, so the schemas above must have none.
    """
    fields = schema.load_fields
    if event.keys() != fields.keys() and event.keys() != _REQUIRED[event["type"]]:
        return False
    try:
        for name, value, again in zip(event, event.values(), map(like.get, event), strict=True):
            if value == again and type(value) is type(again) and value is not None:
                continue
            if value is not None:
                fields[name]._deserialize(value, name, event)
            elif not fields[name].allow_none:
                return False
    except ValidationError:
        return False
    return True


def _flat(said: Any) -> list[str]:
    lines = said if isinstance(said, list) else [said]
    return [line if isinstance(line, str) else str(line) for line in lines]
