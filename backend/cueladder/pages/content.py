"""What the progress page says about one fencer."""

from __future__ import annotations

from datetime import date
from typing import Any

from sqlalchemy import select

from ..evidence.guards import LEAST_TRIALS
from ..evidence.invariance import across_lessons
from ..evidence.words import count
from ..rules import Chart, Walk
from ..store.access import digest_of
from ..store.bookings import bookings_on
from ..store.db import db, now
from ..store.lived import lived
from ..store.models import Club, Fencer, Lesson, LessonDrill, ProgressLink
from ..store.practice import practised
from ..store.trials import points_of, trials_of
from ..store.worked import Worked, worked_by
from ..story.after import after
from ..story.answers import soft_and_loud
from ..story.course import course
from ..story.plain import day_words, rungs_listed, short_day
from ..story.standing import cue_words, ladders_of, standing

ON_PAPER = 6
ROWS = 12
COMPARED = 20
KINDS = {
    "sensitization": "Reading the cue",
    "desensitization": "Staying calm",
    "discrimination": "Telling attack from decoy",
}


Numbered = tuple[int, Worked]


def page(fencer: Fencer, token: str) -> dict[str, Any]:
    """Everything the template shows; words only, no figure without its guard."""
    session = db.session
    today = now().astimezone().date()
    drills = sorted(_worked(fencer), key=lambda each: (each[1].day, each[0]), reverse=True)
    lesson = _lesson(fencer, today, {each.drill_id: each for _, each in drills})
    club = session.scalar(select(Club.name).where(Club.id == fencer.club_id))
    until = session.scalar(
        select(ProgressLink.expires_at).where(ProgressLink.token_hash == digest_of(token))
    )
    home = practised(fencer.club_id, fencer.id, today)
    return {
        "token": token,
        "name": fencer.nickname,
        "club": club,
        "today": day_words(today),
        "until": day_words(until.astimezone().date()) if until else None,
        "booked": None if lesson and lesson["today"] else _booked(fencer, today),
        "lesson": lesson,
        "drills": [
            {**_card(fencer, n, each), **_home(home.get(each.drill_id, []), today)}
            for n, each in drills
        ],
        "on_paper": ON_PAPER,
        "heat": _heat(fencer, [each for _, each in drills]),
    }


def _home(days: list[str], today: date) -> dict[str, Any]:
    """Whether the drill is ticked off for today, and on how many days it was."""
    done = today.isoformat() in days
    earlier = f"{count(len(days), 'day')} in the last four weeks." if days else ""
    return {"done": done, "home": earlier or "Tick it off when it is done."}


def course_of(fencer: Fencer, n: int) -> dict[str, Any] | None:
    """Rungs over time of the page's drill ``n``, with its ladders, or None."""
    found = dict(_worked(fencer)).get(n)
    if found is None:
        return None
    points = points_of(fencer.club_id, fencer.id, found.drill_id, found.chart)
    return _course(found, points)


def _worked(fencer: Fencer) -> list[Numbered]:
    """The drills with their numbers on the page, which stay whatever was worked last."""
    return list(enumerate(worked_by(fencer.club_id, fencer.id), start=1))


def _card(fencer: Fencer, n: int, worked: Worked) -> dict[str, Any]:
    chart, walk = worked.chart, worked.walk
    where = standing(chart, walk)
    points = points_of(fencer.club_id, fencer.id, worked.drill_id, chart)
    told = _course(worked, points)
    coming = _next(chart, walk)
    return {
        "n": n,
        "id": worked.drill_id,
        "name": worked.document["name"],
        "kind": KINDS[chart.kind],
        "purpose": worked.document["purpose"],
        "alone": worked.document["alone"],
        "day": day_words(worked.day),
        "words": where["words"],
        "ladders": [
            _stairs(family, name, labels, chart, walk, coming)
            for family, name, labels in ladders_of(chart)
        ],
        "next": None if coming is None else cue_words(chart, coming),
        "plot": len(points) > 1,
        "alt": _alt(told),
        "trend": told["words"],
        "rows": [_row(lesson) for lesson in reversed(told["lessons"][-ROWS:])],
        "more": len(points) > ROWS,
        "lessons": count(len(points), "lesson"),
    }


def _course(worked: Worked, points: list[Any]) -> dict[str, Any]:
    ladders = {family: (name, labels) for family, name, labels in ladders_of(worked.chart)}
    return {**course(worked.chart, points), "ladders": ladders}


def _next(chart: Chart, walk: Walk) -> int | None:
    """The place worked on next, or None where the top is met."""
    if walk.met is None:
        return walk.place if walk.phase == "train" else 0
    coming = chart.places[walk.met].climb
    here = chart.places[walk.place]
    if walk.phase == "train" and here.height > chart.places[walk.met].height:
        return walk.place
    return coming


def _stairs(
    family: str, name: str, labels: list[str], chart: Chart, walk: Walk, coming: int | None
) -> dict[str, Any]:
    """A ladder as stairs: for each rung its words and what it is."""

    def rung(place: int | None) -> int:
        return -1 if place is None else getattr(chart.places[place], family)

    met, secure, ahead = rung(walk.met), rung(walk.secure), rung(coming)
    states = [
        "secure" if k <= secure else "working" if k <= met else "next" if k == ahead else "ahead"
        for k in range(len(labels))
    ]
    said = {"secure": "secure", "working": "working", "next": "next", "ahead": "still ahead"}
    return {
        "family": family,
        "name": name,
        "of": len(labels),
        "rungs": [
            {"label": label, "state": state, "said": said[state]}
            for label, state in zip(labels, states, strict=True)
        ],
    }


def _row(lesson: dict[str, Any]) -> dict[str, str]:
    read, heat = lesson["read"], lesson["heat"]
    both = read is not None and heat is not None
    rung = f"reading {read}, calm {heat}" if both else str(read if read is not None else heat)
    if lesson["status"] is None:
        rung = "none yet"
    return {
        "day": short_day(lesson["day"]),
        "rung": rung,
        "status": lesson["status"] or "just begun",
        "cues": str(lesson["cues"]),
    }


def _alt(told: dict[str, Any]) -> str:
    """The plot in one sentence."""
    lessons = told["lessons"]
    parts = []
    for family, (name, labels) in told["ladders"].items():
        first, last = lessons[0][family], lessons[-1][family]
        moved = f"from rung {first} to rung {last}" if first != last else f"on rung {last}"
        moved = moved.replace("rung 0", "the start")
        parts.append(f"{name.lower()} {moved} of {len(labels)}")
    status = lessons[-1]["status"] or "just begun"
    return (
        f"Rungs met at the end of {count(len(lessons), 'lesson')} between "
        f"{day_words(lessons[0]['day'])} and {day_words(lessons[-1]['day'])}: "
        f"{' and '.join(parts)}, now {status}."
    )


def _booked(fencer: Fencer, today: date) -> str | None:
    for booking in bookings_on(fencer.club_id, today.isoformat()):
        if booking.fencer_id == fencer.id:
            return f"Planned today: {booking.at}, {count(booking.minutes, 'minute')}."
    return None


def _lesson(fencer: Fencer, today: date, drills: dict[str, Worked]) -> dict[str, Any] | None:
    """The last lesson: what was worked, what held."""
    lesson = db.session.scalar(
        select(Lesson)
        .where(Lesson.club_id == fencer.club_id, Lesson.fencer_id == fencer.id)
        .order_by(Lesson.day.desc(), Lesson.opened_at.desc(), Lesson.id.desc())
        .limit(1)
    )
    if lesson is None:
        return None
    mine = (LessonDrill.club_id == fencer.club_id, LessonDrill.lesson_id == lesson.id)
    parts = []
    for drill_id in db.session.scalars(select(LessonDrill.drill_id).where(*mine)):
        if drill_id in drills:
            steps = lived(fencer.club_id, lesson, drill_id)
            came = after(steps, lesson.day)
            parts.append({"name": drills[drill_id].document["name"], "words": _came(came)})
    here = lesson.day == today.isoformat()
    title = "Today's lesson" if here else f"Last lesson, {day_words(lesson.day)}"
    return {"today": here, "title": title, "drills": sorted(parts, key=lambda part: part["name"])}


def _came(came: dict[str, Any]) -> str:
    """What one drill of the lesson came to, for the fencer."""
    cues = count(came["cues"], "cue")
    held, again = rungs_listed(came["held"]), rungs_listed(came["broke"])
    if held and again:
        return f"{cues}: {held} held; {again} will come again."
    if held:
        return f"{cues}: {held} held."
    if again:
        return f"{cues}: {again} asked a lot, so a smaller step comes first."
    return f"{cues}: good practice, to be continued."


def _heat(fencer: Fencer, drills: list[Worked]) -> str | None:
    """Soft and loud cues alike? Over the last lessons of all drills, and only from cues enough."""
    rows: list[list[int]] = []
    for each in drills:
        if each.chart.ladders["heat"] is None:
            continue
        trials = trials_of(fencer.club_id, fencer.id, each.drill_id, each.chart, COMPARED)
        rows += soft_and_loud(trials)
    if min((sum(row[k] for row in rows) for k in (1, 3)), default=0) < LEAST_TRIALS:
        return None
    return across_lessons(rows).words
