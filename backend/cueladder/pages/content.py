"""What the progress page says about one fencer."""

from __future__ import annotations

from datetime import date
from typing import Any

from sqlalchemy import select

from ..evidence.guards import LEAST_TRIALS
from ..evidence.invariance import across_lessons
from ..evidence.words import cues
from ..rules import Chart, Walk
from ..rules.said import Said, joined, later, say, say_day, say_n
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
from ..story.plain import rungs_listed
from ..story.standing import cue_words, ladders_of, standing

ON_PAPER = 6
ROWS = 12
COMPARED = 20
KINDS = {
    "sensitization": later("Reading the cue"),
    "desensitization": later("Staying calm"),
    "discrimination": later("Telling attack from decoy"),
}
IS = {
    "secure": later("secure"),
    "working": later("working"),
    "next": later("next"),
    "ahead": later("still ahead"),
    None: later("just begun"),
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
        "today": say_day(today),
        "until": say_day(until.astimezone().date()) if until else None,
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
    if not days:
        return {"done": done, "home": say("Tick it off when it is done.")}
    return {
        "done": done,
        "home": say_n(
            "%(n)s day in the last four weeks.", "%(n)s days in the last four weeks.", len(days)
        ),
    }


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
        "kind": say(KINDS[chart.kind]),
        "purpose": worked.document["purpose"],
        "alone": worked.document["alone"],
        "day": say_day(worked.day),
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
        "table": _table(len(points)),
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
    return {
        "family": family,
        "name": name,
        "of": len(labels),
        "rungs": [
            {"label": label, "state": state, "said": say(IS[state])}
            for label, state in zip(labels, states, strict=True)
        ],
    }


def _table(lessons: int) -> Said:
    """What the table of lessons holds."""
    if lessons > ROWS:
        return say(
            "The last %(rows)s of %(lessons)s lessons, newest first", rows=ROWS, lessons=lessons
        )
    return say_n("%(n)s lesson", "%(n)s lessons, newest first", lessons)


def _row(lesson: dict[str, Any]) -> dict[str, str]:
    read, heat = lesson["read"], lesson["heat"]
    rung: str = str(read if read is not None else heat)
    if read is not None and heat is not None:
        rung = say("reading %(read)s, calm %(heat)s", read=read, heat=heat)
    status = lesson["status"]
    if status is None:
        rung = say("none yet")
    return {
        "day": say_day(lesson["day"], "short"),
        "rung": rung,
        "status": say(IS[status]),
        "cues": str(lesson["cues"]),
    }


def _alt(told: dict[str, Any]) -> Said:
    """The plot in one sentence."""
    lessons = told["lessons"]
    status, parts = lessons[-1]["status"], []
    for family, (name, labels) in told["ladders"].items():
        first, last = lessons[0][family], lessons[-1][family]
        values = {"ladder": name, "first": first, "last": last, "of": len(labels)}
        if first == last == 0:
            parts.append(say("%(ladder)s: at the start, of %(of)s rungs", **values))
        elif first == last:
            parts.append(say("%(ladder)s: on rung %(last)s of %(of)s", **values))
        elif first == 0:
            parts.append(say("%(ladder)s: from the start to rung %(last)s of %(of)s", **values))
        elif last == 0:
            parts.append(say("%(ladder)s: from rung %(first)s of %(of)s to the start", **values))
        else:
            parts.append(
                say("%(ladder)s: from rung %(first)s to rung %(last)s of %(of)s", **values)
            )
    return say(
        "Rungs met at the end of %(lessons)s lessons between %(first)s and %(last)s. %(parts)s. "
        "Now: %(status)s.",
        lessons=len(lessons),
        first=say_day(lessons[0]["day"]),
        last=say_day(lessons[-1]["day"]),
        parts=joined(parts, "; "),
        status=say(IS[status]),
    )


def _booked(fencer: Fencer, today: date) -> str | None:
    for booking in bookings_on(fencer.club_id, today.isoformat()):
        if booking.fencer_id == fencer.id:
            return say(
                "Planned today: %(time)s, %(minutes)s min.",
                time=booking.at,
                minutes=booking.minutes,
            )
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
    title = say("Today's lesson")
    if not here:
        title = say("Last lesson, %(day)s", day=say_day(lesson.day))
    return {"today": here, "title": title, "drills": sorted(parts, key=lambda part: part["name"])}


def _came(came: dict[str, Any]) -> Said:
    """What one drill of the lesson came to, for the fencer."""
    held, again = (
        rungs_listed([rung for rung in came["rungs"] if rung[how]]) for how in ("held", "broke")
    )
    values = {"cues": cues(came["cues"]), "held": held, "again": again}
    if held and again:
        return say("%(cues)s: %(held)s held; %(again)s will come again.", **values)
    if held:
        return say("%(cues)s: %(held)s held.", **values)
    if again:
        return say("%(cues)s: %(again)s asked a lot, so a smaller step comes first.", **values)
    return say("%(cues)s: good practice, to be continued.", **values)


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
