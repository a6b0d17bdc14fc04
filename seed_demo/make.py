"""Make the demo database: the club, its drills, and a season by simulated fencers."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta

import numpy as np

from cueladder.rules import Chart, Kind
from cueladder.store.access.clubs import add_coach, club_named
from cueladder.store.access.links import create_link
from cueladder.store.db.engine import db, writing
from cueladder.store.db.migrate import up
from cueladder.store.db.models import Chart as KeptChart
from cueladder.store.db.models import Club
from cueladder.store.drills.library import library
from cueladder.store.drills.versions import add_drill, drills_of
from cueladder.store.fencers.bookings import plan_day
from cueladder.store.fencers.draws import bout_days, drawn
from cueladder.store.fencers.edit import add_fencer, fencer_in
from cueladder.store.log.seed import import_events
from cueladder.story.lesson_plan import plan_for

from .chance import EVERY, course
from .club import CLUB, COACHES, FENCERS, PASSPHRASE, consent_to_noise
from .ids import uuid4
from .season import WEEKS, Pupil, choose_drills, season

SEED = 20260901
LESSON_MINUTES = 20
# Vera, a foil fencer of the head coach, has the plan by chance.
DRAWN_FOR = 21


@dataclass(frozen=True)
class Made:
    """What was made.

    Attributes:
        club: the club.
        coach: name to sign in with.
        token: of one progress link.
        events: events stored.
        started: drills with a standing.
    """

    club: Club
    coach: str
    token: str
    events: int
    started: int


def make(today: date, weeks: int = WEEKS, seed: int = SEED) -> Made:
    """Fill an empty database (inside an application context).

    The same seed makes the same club, whatever the day: only its dates move along.

    Args:
        today: the demo's present day; the last lesson was before it, the next ones are on it.
        weeks: length of the season so far.
        seed: of all chance.
    """
    rng = np.random.default_rng(seed)
    up()
    club = club_named(CLUB)
    coaches = [add_coach(club.id, c["name"], PASSPHRASE, c["role"], uuid4(rng)).id for c in COACHES]
    for document in library():
        add_drill(club.id, document, drill_id=uuid4(rng))
    pupils = _pupils(club, coaches, rng)
    _draw(club, pupils[DRAWN_FOR], today - timedelta(days=weeks * 7), weeks)
    events = import_events(club, season(pupils, today, rng, weeks))
    for coach in coaches:
        _book(club, coach, [p for p in pupils if p.coach == coach], today)
    token = create_link(club.id, pupils[0].id, coaches[0]).token
    started = {drill for p in pupils for drill in p.walks}
    return Made(club, COACHES[0]["name"], token, events, len(started))


def _pupils(club: Club, coaches: list[str], rng: np.random.Generator) -> list[Pupil]:
    documents = [
        {"id": drill.id, "chart": version.chart_id, **version.document}
        for drill, version in drills_of(club.id)
    ]
    devices = [uuid4(rng) for _ in coaches]
    pupils = []
    for i, person in enumerate(FENCERS):
        fencer, _ = add_fencer(
            club.id,
            {
                "id": uuid4(rng),
                "nickname": person.nickname,
                "born": person.born,
                "weapon": person.weapon,
                "hand": person.hand,
                "consent": date(2026, 8, 1),
                **consent_to_noise(person),
            },
        )
        chosen = choose_drills(documents, person.weapon, i // 3)
        pupils.append(
            Pupil(
                id=fencer.id,
                coach=coaches[person.coach],
                second=coaches[(person.coach + 1) % len(coaches)],
                device=devices[person.coach],
                model=person.model,
                evening=i // 3 % 5,
                at=f"{17 + i // 9}:{i % 3 * 20:02}",
                drills=[(d["id"], _chart(d["chart"])) for d in chosen],
            )
        )
    return pupils


def _draw(club: Club, pupil: Pupil, begins: date, weeks: int) -> None:
    """One fencer's plan by chance, drawn on its first bout day before anything was watched."""
    worked = {drill for drill, _ in pupil.drills}
    fencer = fencer_in(db.session(), club.id, pupil.id)
    # what is answered in bouts can be counted there: drills to read, none the fencer knows
    others = [
        (drill.id, _chart(version.chart_id))
        for drill, version in drills_of(club.id)
        if drill.id not in worked
        and fencer.weapon in version.document["weapon"]
        and version.document["kind"] == Kind.SENSITIZATION
        and version.document.get("blades", True)
    ]
    pupil.course = course(others, begins, weeks)
    if pupil.course is None:
        return
    one = pupil.course.plan
    days = bout_days(one.first, EVERY, (one.last - one.first).days // EVERY + 1)
    with writing() as session:
        row = drawn(fencer, uuid4(pupil.course.rng), pupil.coach, one.drills, days, one.seed)
        row.drawn_at = datetime.combine(one.first, time(12), UTC)
        session.add(row)


def _chart(chart_id: str) -> Chart:
    return Chart.from_json(db.session.get_one(KeptChart, chart_id).body)


def _book(club: Club, coach: str, pupils: list[Pupil], today: date) -> None:
    """This evening's lessons of a coach, one after the other, as the planner would have them."""
    lessons = []
    for i, pupil in enumerate(pupils):
        start = timedelta(hours=17, minutes=LESSON_MINUTES * i)
        fencer = fencer_in(db.session(), club.id, pupil.id)
        blocks = plan_for(fencer, LESSON_MINUTES, today)["blocks"]
        lessons.append(
            {
                "fencer": pupil.id,
                "at": f"{start.seconds // 3600}:{start.seconds // 60 % 60:02}",
                "minutes": LESSON_MINUTES,
                "plan": [
                    {"drill": b["drill"], "role": b["role"], "minutes": max(1, round(b["minutes"]))}
                    for b in blocks
                ],
            }
        )
    plan_day(club.id, today.isoformat(), coach, lessons)
