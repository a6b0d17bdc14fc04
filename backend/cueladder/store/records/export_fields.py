"""The data dictionary of an export."""

from __future__ import annotations

from typing import Any, NamedTuple

from ..db.models import (
    Audit,
    Booking,
    Bout,
    Change,
    Competition,
    Draw,
    Event,
    Fencer,
    Goal,
    HeldLesson,
    Lesson,
    LessonDrill,
    PartnerSet,
    Practice,
    ProgressLink,
    Standing,
)

# Internal columns that are not exported.
HIDDEN = frozenset({"club_id", "token_hash"})

_LESSON = "Lesson, see lessons.id"
_FENCER = "Fencer, see fencer.id"
_COACH = "Coach, by number; coaches are named in the club's own list"
_DRILL = "Drill, by number; what it says is in the club's own list"
_SETTING = {
    "giver_id": "Coach who gave the cues, by number; empty where it was not told",
    "giver_hand": "The giver's hand: right or left",
    "place": "Where the lesson was given, in the club's words",
    "state": "fresh, or after bouting",
}
_WALK = "Where the drill stood: place, phase, counts, rungs met and secure, and why"
_SUGGESTED = "What the app proposed next"


class Table(NamedTuple):
    """One table of an export: its name, rows, key, order, title and fields with their meaning."""

    name: str
    model: type[Any]
    key: tuple[str, ...]
    order: tuple[str, ...]
    title: str
    fields: dict[str, str]


TABLES = (
    Table("fencer", Fencer, ("id",), ("id",), "The fencer", {
        "id": "Number of the fencer, made at random",
        "nickname": "What the fencer is called in the club",
        "born": "Year of birth",
        "weapon": "foil, epee or sabre",
        "hand": "right or left",
        "joined": "Day the fencer joined the club",
        "consent": "Day consent to keeping these records was given",
        "noise_self": "Day the fencer agreed to voice and stamps in lessons",
        "noise_guardian": "Day a parent or guardian agreed to voice and stamps in lessons",
        "note": "A note of the coaches on the fencer",
        "archived": "Whether the fencer was put away from the lists",
        "created_at": "When this record was made",
        "import_id": "Number of the table it was imported with, if it was",
    }),
    Table("lessons", Lesson, ("id",), ("day", "opened_at", "id"), "Lessons", {
        "id": "Number of the lesson",
        "fencer_id": _FENCER,
        "coach_id": _COACH,
        "day": "Day of the lesson where it was given",
        "opened_at": "When it began by the coach's device, in UTC",
        "closed": "Whether the coach closed it",
        **_SETTING,
    }),
    Table("held_lessons", HeldLesson, ("id",), ("day", "opened_at", "id"),
          "Lessons dated past tomorrow, waiting for their day", {
        "id": "Number of the lesson",
        "fencer_id": _FENCER,
        "coach_id": _COACH,
        "day": "Day of the lesson where it was given",
        "opened_at": "When it began by the coach's device, in UTC",
        "closed": "Whether the coach closed it",
        **_SETTING,
    }),
    Table("events", Event, ("id",), ("seq",), "Everything noted in lessons, in the order stored", {
        "id": "Number of the event",
        "seq": "Order of storing within the club",
        "type": "What happened: lesson_opened, cue_marked, mark_voided, rung_set, drill_rested, "
        "start_sought, stop_called, comfort_rated, note_written, setting_told, lesson_closed, "
        "bout_watched, bout_voided, partner_marked or partner_voided",
        "device_id": "Device that noted it",
        "n": "Order on that device",
        "at": "Clock of the device",
        "coach_id": _COACH,
        "lesson_id": _LESSON + "; or the bout or partner's set, see bouts.id and partner_sets.id",
        "fencer_id": _FENCER,
        "drill_id": _DRILL,
        "payload": "What was noted. A cue: chart, place (rung), given (attack or decoy), mark "
        "(correct, late, early, decoy), tense, loud, wait in seconds; instead_of: the mark that "
        "this one corrects; number: of a second person's mark, which cue of the drill it was "
        "(its place is always 0). A comfort: 0 to 10. "
        "A note: its text. A setting: giver (coach), hand, where, state (fresh or bouting)",
        "received_at": "When the server stored it",
    }),
    Table("lesson_drills", LessonDrill, ("lesson_id", "drill_id"), ("day", "opened_at"),
          "Each drill of each lesson, before and after", {
        "lesson_id": _LESSON,
        "drill_id": _DRILL,
        "fencer_id": _FENCER,
        "day": "Day of the lesson",
        "opened_at": "When the lesson began, in UTC",
        "before": _WALK + ", before the lesson",
        "after": _WALK + ", after the lesson",
        "trials": "Cues that count",
    }),
    Table("standings", Standing, ("drill_id",), ("seq",), "Where the fencer stands now", {
        "fencer_id": _FENCER,
        "drill_id": _DRILL,
        "walk": _WALK,
        "suggestion": _SUGGESTED,
        "secure": "working or secure; empty before a rung is met",
        "day": "Day of the last lesson with this drill",
        "seq": "Order of storing within the club",
    }),
    Table("bookings", Booking, ("id",), ("day", "at", "id"), "Lessons planned", {
        "id": "Number of the plan",
        "day": "Day",
        "at": "Time of day",
        "fencer_id": _FENCER,
        "coach_id": _COACH,
        "minutes": "How long",
        "plan": "Drills with their minutes",
    }),
    Table("bouts", Bout, ("id",), ("day", "watched_at", "id"), "Bouts watched", {
        "id": "Number of the bout",
        "fencer_id": _FENCER,
        "coach_id": "Who watched, by number",
        "drill_id": _DRILL + "; its action was watched for",
        "day": "Day of the bout",
        "watched_at": "When it was noted first by the watcher's device, in UTC",
        "met": "Real ones the fencer met",
        "answered": "Of these, answered",
        "shown": "Feints shown to the fencer",
        "fallen": "Of these, fallen for",
        "scored": "Touches for the fencer by the action",
        "conceded": "Touches against the fencer by the action",
        "voided": "Whether it was taken back",
    }),
    Table("partner_sets", PartnerSet, ("id",), ("day", "entered_at", "id"), "Sets by a partner", {
        "id": "Number of the set",
        "fencer_id": _FENCER,
        "coach_id": "Who entered it, by number",
        "drill_id": _DRILL,
        "day": "Day of the set",
        "entered_at": "When it was entered first by the coach's device, in UTC",
        "chart": "Rule and ladders of the card, by number",
        "place": "Rung at which the cues were given, counted from 0",
        "card": "Code of the card",
        "cues": "What the card asked for, a letter a cue: a to be answered, d to be left alone",
        "ticks": "What the partner ticked, in that order: 1 right, 0 not right, - not given",
        "voided": "Whether it was taken back",
    }),
    Table("draws", Draw, ("id",), ("drawn_at", "id"), "Plans by chance", {
        "id": "Number of the plan",
        "fencer_id": _FENCER,
        "coach_id": "Coach who had it drawn, by number",
        "drawn_at": "When it was drawn",
        "seed": "What it was drawn with: the drills stand in the order of the SHA-256 of this, a "
        "colon and the drill's number",
        "drills": "Drills by number, in the order in which they are begun",
        "begins": "For each the earliest day of a lesson with it",
        "first": "First day of which bouts count",
        "last": "Last day of which bouts count",
        "withdrawn_at": "When it was given up, if it was",
        "withdrawn_by": "Coach who gave it up, by number",
    }),
    Table("goals", Goal, ("drill_id",), ("set_at", "drill_id"), "Goals by a competition", {
        "fencer_id": _FENCER,
        "drill_id": _DRILL + "; it is to be secure in two settings",
        "competition_id": "Competition by which, see competitions.id",
        "coach_id": "Coach who set it, by number",
        "set_at": "When it was set, or moved to this competition",
    }),
    Table("competitions", Competition, ("id",), ("day", "id"),
          "Competitions by which the fencer has a goal", {
        "id": "Number of the competition",
        "name": "What the club calls it",
        "day": "Its day",
        "coach_id": "Coach who noted it, by number",
        "created_at": "When it was noted",
    }),
    Table("practice", Practice, ("drill_id", "day"), ("day", "drill_id"), "Practice at home", {
        "fencer_id": _FENCER,
        "drill_id": _DRILL,
        "day": "Day the fencer ticked it off for",
        "ticked_at": "When it was ticked off",
    }),
    Table("links", ProgressLink, (), ("created_at",), "Links to the progress page", {
        "fencer_id": _FENCER,
        "coach_id": _COACH,
        "created_at": "When it was made",
        "expires_at": "Until when it opens",
        "revoked_at": "When it was closed",
        "opened_at": "When it was last opened",
    }),
    Table("changes", Change, ("id",), ("id",), "Changes of the fencer's fields", {
        "id": "Number of the change",
        "kind": "What was changed: fencer",
        "object_id": _FENCER,
        "field": "Which field",
        "old": "What it was, as JSON",
        "new": "What it became, as JSON",
        "coach_id": _COACH,
        "changed_at": "When",
    }),
    Table("audit", Audit, ("id",), ("id",), "Who looked at the record and who changed it", {
        "id": "Number of the entry",
        "fencer_id": _FENCER,
        "coach_id": "Coach, by number; empty for whoever opened a progress link",
        "action": "added, imported, changed, exported, looked, link made, links closed, "
        "page opened, practised, plan drawn, plan withdrawn, goal set or goal given up",
        "fields": "Which fields were changed",
        "at": "When",
    }),
)  # fmt: skip
