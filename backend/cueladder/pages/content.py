"""Content of the progress page."""

from __future__ import annotations

from datetime import date
from typing import Any

from sqlalchemy import select

from ..evidence.claims import REGISTER
from ..rules import Chart, Walk
from ..rules.entry import finished
from ..rules.said import Said, joined, later, say, say_day, say_n
from ..store.access.sessions import digest_of
from ..store.db.engine import db, now
from ..store.db.models import Club, Fencer, ProgressLink
from ..store.fencers.bookings import bookings_on
from ..store.replay.practice import practised
from ..store.replay.trials import points_of, trials_of
from ..store.replay.worked import Worked, worked_by
from ..story.answers import heat_effect
from ..story.beyond.bouts import in_bouts
from ..story.beyond.where import Around, where_held
from ..story.course import course
from ..story.drill_text import drill_text
from ..story.standing import cue_words, ladders_of, standing
from .lesson import last_lesson

ON_PAPER = 6
ROWS = 12
COMPARED = 20
KINDS = {
    "sensitization": later("Reading the cue"),
    "desensitization": later("Staying calm"),
    "discrimination": later("Answer or leave"),
}
IS = {
    "secure": later("secure"),
    "working": later("done once"),
    "next": later("now"),
    "below": later("not needed: the coach began higher"),
    "ahead": later("later"),
    None: later("just begun"),
}


Numbered = tuple[int, Worked]


def page(fencer: Fencer, token: str) -> dict[str, Any]:
    """Everything the template shows, in words; figures only where the data suffice."""
    session = db.session
    today = now().astimezone().date()
    drills = sorted(_worked(fencer), key=lambda each: (each[1].day, each[0]), reverse=True)
    lesson = last_lesson(fencer, today, {each.drill_id: each for _, each in drills})
    club = session.scalar(select(Club.name).where(Club.id == fencer.club_id))
    until = session.scalar(
        select(ProgressLink.expires_at).where(ProgressLink.token_hash == digest_of(token))
    )
    home = practised(fencer.club_id, fencer.id, today)
    around = Around.of(fencer.club_id, today)
    bouts = {
        each["drill"]["id"]: each["words"]
        for each in in_bouts(fencer.club_id, fencer.id, [each for _, each in drills])
    }
    return {
        "token": token,
        "name": fencer.nickname,
        "club": club,
        "today": say_day(today),
        "until": say_day(until.astimezone().date()) if until else None,
        "booked": None if lesson and lesson["today"] else _booked(fencer, today),
        "lesson": lesson,
        "drills": [
            {
                **_card(fencer, n, each),
                "where": _where(fencer, each, around),
                "bouts": bouts.get(each.drill_id),
                **_home(home.get(each.drill_id, []), today),
            }
            for n, each in drills
        ],
        "on_paper": ON_PAPER,
        "heat": _heat(fencer, [each for _, each in drills]),
    }


def _home(days: list[str], today: date) -> dict[str, Any]:
    """Whether the drill is ticked off for today, and the days it was practised, in words."""
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
    """Rungs over time of the page's drill ``n`` with its ladders, or None if there is none."""
    found = dict(_worked(fencer)).get(n)
    if found is None:
        return None
    points = points_of(fencer.club_id, fencer.id, found.drill_id, found.chart)
    return _course(found, points)


def _worked(fencer: Fencer) -> list[Numbered]:
    """The drills, numbered independently of the order they are shown in."""
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
        "name": drill_text(worked.document, "name"),
        "kind": say(KINDS[chart.kind]),
        "purpose": drill_text(worked.document, "purpose"),
        "alone": drill_text(worked.document, "alone"),
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


def _where(fencer: Fencer, each: Worked, around: Around) -> Said | None:
    told = where_held(fencer.club_id, fencer.id, each.drill_id, each.chart, each.walk, around)
    return told and told["unnamed"]


def _course(worked: Worked, points: list[Any]) -> dict[str, Any]:
    ladders = {family: (name, labels) for family, name, labels in ladders_of(worked.chart)}
    return {**course(worked.chart, points), "ladders": ladders}


def _next(chart: Chart, walk: Walk) -> int | None:
    """The place in training, or None where the top is met."""
    return None if finished(chart, walk.counters) else walk.work


def _stairs(
    family: str, name: str, labels: list[str], chart: Chart, walk: Walk, coming: int | None
) -> dict[str, Any]:
    """A ladder with the state of each rung."""

    def rung(place: int | None) -> int:
        return -1 if place is None else getattr(chart.places[place], family)

    met = {rung(each.place) for each in walk.rungs}
    secure, ahead = rung(walk.secure), rung(coming)

    def state(k: int) -> str:
        if k in met:
            return "secure" if k <= secure else "working"
        if k == ahead:
            return "next"
        return "below" if k < max(ahead, *met, -1) else "ahead"

    states = [state(k) for k in range(len(labels))]
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
    """Caption of the table of lessons."""
    if lessons > ROWS:
        return say(
            "The last %(rows)s of %(lessons)s lessons, newest first", rows=ROWS, lessons=lessons
        )
    if lessons > 1:
        return say("%(lessons)s lessons, newest first", lessons=lessons)
    return say_n("%(n)s lesson", "%(n)s lessons", lessons)


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
    """Alternative text of the plot."""
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
        "Rungs done at the end of %(lessons)s lessons between %(first)s and %(last)s. %(parts)s. "
        "As it stands: %(status)s.",
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


def _heat(fencer: Fencer, drills: list[Worked]) -> Said | None:
    """Soft and loud cues in the drill worked last that has both; only where something is found."""
    for each in drills:
        if each.chart.ladders["heat"] is None:
            continue
        trials = trials_of(fencer.club_id, fencer.id, each.drill_id, each.chart, COMPARED)
        found = heat_effect(each.chart, trials)
        if found is not None:
            if REGISTER[found["claim"]].kind != "finding":
                return None
            return say("%(drill)s: %(words)s", drill=each.document["name"], words=found["words"])
    return None
