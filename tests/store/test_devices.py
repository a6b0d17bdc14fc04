"""Two and three devices on one fencer the same evening: the order of arrival changes nothing."""

import random
from datetime import datetime, timedelta

from hypothesis import HealthCheck, given
from hypothesis import strategies as st
from sqlalchemy import select

from cueladder.rules import fresh
from cueladder.store.db.engine import db
from cueladder.store.db.models import LessonDrill, Standing
from cueladder.store.log.charts import chart_of
from cueladder.store.log.fields import sortable
from cueladder.store.log.fold import fold_history
from cueladder.store.log.ingest import take_in
from tests.examples import examples

EVENING = datetime.fromisoformat("2026-03-02T18:20:00+01:00")
KINDS = ["correct"] * 7 + ["late", "early"]


class Written:
    """An event as the fold reads it, straight from the device."""

    def __init__(self, event):
        self.id, self.type, self.n = event["id"], event["type"], event["n"]
        self.device_id, self.coach_id = event["device"], event["coach"]
        self.drill_id, self.payload = event.get("drill"), event


def evening(club, rng, coaches):
    """One evening of one fencer on two or three devices, each with a clock up to a day off.

    The devices share lessons (a coach with two phones) or hold lessons of their own (two coaches);
    a second coach who marks in another's lesson observes. Marks are corrected later, also those of
    another device of the same coach. Returns the events of each device.
    """
    devices, opened, marked = [], [], []
    for _ in range(rng.choice([2, 3])):
        phone = club.phone(rng.choice(coaches))
        off = timedelta(minutes=rng.choice([0, 0, 3, -7, 24 * 60, -24 * 60]))
        written = []
        for lesson in range(rng.choice([1, 1, 2])):
            clock = EVENING + off + timedelta(minutes=30 * lesson)
            joins = [each for each in opened if rng.random() < 0.5]
            if joins:
                phone.lesson = rng.choice(joins)["id"]
            else:
                own = phone.open(day=clock.date().isoformat(), at=clock.isoformat())
                opened.append(own)
                written.append(own)
            owner = next(each["coach"] for each in opened if each["id"] == phone.lesson)
            made = marks(phone, rng, clock, own=owner == phone.coach)
            earlier = [
                e for e in marked if (e["lesson"], e["coach"]) == (phone.lesson, phone.coach)
            ]
            if earlier and rng.random() < 0.5:
                made.append(phone.correct(rng.choice(earlier), rng.choice(KINDS)))
            marked += [event for event in made if event["type"] == "cue_marked"]
            written += made
        devices.append(written)
    return devices


def marks(phone, rng, clock, own):
    """Marks and slips; the lesson's own coach also sets rungs and rests the drill."""
    made = []
    for k in range(rng.randint(0, 20)):
        cues = [e for e in made if e["type"] == "cue_marked"]
        at = (clock + timedelta(seconds=20 * k + rng.randint(-90, 90))).isoformat()
        chance = rng.random()
        if chance < 0.12 and cues:
            made.append({**phone.void(rng.choice(cues)), "at": at})
        elif chance < 0.2 and cues:
            made.append({**phone.correct(rng.choice(cues), rng.choice(KINDS)), "at": at})
        elif chance < 0.24 and own:
            made.append({**phone.set_rung(rng.randint(0, 4)), "at": at})
        elif chance < 0.26 and own:
            made.append({**phone.rest(), "at": at})
        else:
            made.append({**phone.cue(rng.choice(KINDS)), "at": at})
    return made


def arrive(club, devices, rng):
    """Push everything as a bad line does; what is refused or lost is sent again until it is taken.

    Batches of all devices are mixed, some are lost, some come twice, some late.
    """
    unsent = [list(events) for events in devices]
    late = []
    while any(unsent) or late:
        if late and (rng.random() < 0.4 or not any(unsent)):
            take_in(club.id, late.pop(rng.randrange(len(late))))
            continue
        queue = rng.choice([events for events in unsent if events])
        batch = queue[: rng.choice([1, 4, 30])]
        rng.shuffle(batch)
        fate = rng.random()
        if fate < 0.2:
            continue
        if fate < 0.4:
            late.append(batch)
        results = take_in(club.id, batch).results
        if fate < 0.6:
            continue
        taken = {each["id"] for each in results if each["status"] != "refused"}
        queue[:] = [event for event in queue if event["id"] not in taken]


def folded(club, devices):
    """One fold of everything the devices wrote."""
    everything = [event for events in devices for event in events]
    lessons = []
    for opened in everything:
        if opened["type"] == "lesson_opened":
            own = [Written(event) for event in everything if event["lesson"] == opened["id"]]
            at = sortable(opened["at"])
            lessons.append((opened["day"], at, opened["id"], opened["coach"], own))
    walk = fold_history(chart_of, club.chart, club.drill, lessons)
    return walk.to_json() if walk else None


@examples(20, suppress_health_check=[HealthCheck.function_scoped_fixture], derandomize=True)
@given(seed=st.integers(0, 2**32))
def test_devices_that_share_an_evening_come_to_one_standing_whatever_arrives_when(club, seed):
    rng = random.Random(seed)
    coaches = [club.coach, club.add_coach(f"Odile {rng.random()}", "coach")]
    club.fencer = club.add_fencer(f"Fencer {seed}")
    devices = evening(club, rng, coaches)
    arrive(club, devices, rng)
    mine = (Standing.club_id == club.id, Standing.fencer_id == club.fencer)
    stood = db.session.scalar(select(Standing.walk).where(*mine))
    assert stood == (folded(club, devices) or (stood and fresh(chart_of(club.chart)).to_json()))
    before = None
    for row in rows_of(club):
        assert row.before == before
        before = row.after
    assert before == folded(club, devices)
    db.session.remove()


def rows_of(club):
    """The fencer's lessons in the order of the fold."""
    return db.session.scalars(
        select(LessonDrill)
        .where(LessonDrill.club_id == club.id, LessonDrill.fencer_id == club.fencer)
        .order_by(LessonDrill.day, LessonDrill.opened_at, LessonDrill.lesson_id)
    ).all()


def test_a_clock_a_day_off_moves_the_lesson_and_loses_nothing(club):
    right, wrong = club.phone(), club.phone()
    ahead = (EVENING + timedelta(days=1)).isoformat()
    first = [right.open(day="2026-03-02"), *right.cues(3)]
    second = [wrong.open(day="2026-03-03", at=ahead), *wrong.cues(3)]
    club.browser.push(*second)
    reply = club.browser.push(*first)
    assert [row["lesson"] for row in reply["lessons"]] == [right.lesson, wrong.lesson]
    (standing,) = club.browser.get("/api/standings").get_json()["standings"]
    assert standing["walk"] == folded(club, [first, second])
