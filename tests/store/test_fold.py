"""The fold: the same marks give the same standing, in whatever order they arrive."""

import random
from dataclasses import dataclass, field

import pytest
from hypothesis import HealthCheck, given
from hypothesis import strategies as st
from sqlalchemy import select

from cueladder.rules import Given, enter, fresh, step, suggestion
from cueladder.store.db.engine import db
from cueladder.store.db.models import Event, Lesson, LessonDrill, Standing
from cueladder.store.log.charts import chart_of
from cueladder.store.log.fields import sortable
from cueladder.store.log.fold import WALKED, fold_history, mark_of
from cueladder.store.log.ingest import take_in
from cueladder.store.replay.trials import trials_of
from tests.examples import examples
from tests.store.club import statuses

DAYS = ["2026-03-02", "2026-03-02", "2026-03-09", "2026-04-20", "2026-09-01"]


@dataclass
class Season:
    """A random season of one fencer: lessons, marks, slips, on several devices."""

    club: object
    rng: random.Random
    kinds: dict = field(default_factory=dict)

    def events(self):
        everything = []
        for day in self.rng.sample(DAYS, self.rng.randint(1, len(DAYS))):
            phones = [self.club.phone() for _ in range(self.rng.choice([1, 1, 2]))]
            hour = self.rng.randint(10, 20)
            at = f"{day}T{hour}:00:00.000+0{self.rng.randint(0, 9)}:00"
            opened = phones[0].open(day=day, at=at)
            everything.append(opened)
            for phone in phones:
                phone.lesson = opened["id"]
                everything += self._lesson(phone)
            if self.rng.random() < 0.5:
                everything.append(phones[0].event("lesson_closed"))
        return everything

    def _lesson(self, phone):
        events = []
        skill = self.rng.choice([0.5, 0.9, 1.0])
        for _ in range(self.rng.randint(0, 25)):
            drill, charts = self.rng.choice(list(self.kinds.items()))
            chart = chart_of(self.rng.choice(charts))
            chance = self.rng.random()
            if chance < 0.04:
                place = self.rng.randrange(len(chart.places))
                events.append(phone.set_rung(place, drill=drill, chart=chart.id))
            elif chance < 0.07:
                rested = phone.rest(drill=drill, chart=chart.id)
                if self.rng.random() < 0.3:  # as an older phone sends it
                    del rested["chart"]
                events.append(rested)
            elif chance < 0.1 and chart.find:
                events.append(phone.seek(drill=drill, chart=chart.id))
            elif chance < 0.2 and events:
                slip = self.rng.choice(events)
                again = phone.rest(drill=drill, chart=chart.id)
                events.append(phone.void(slip) if slip["type"] in WALKED else again)
            else:
                given = self.rng.choice(list(chart.meaning))
                marks = list(chart.meaning[given])
                mark = "correct" if self.rng.random() < skill else self.rng.choice(marks).value
                tense = mark == "correct+tense"
                cue = phone.cue("correct" if tense else mark, tense=tense, given=given.value)
                events.append({**cue, "drill": drill, "chart": chart.id})
        return events


def shuffled_into_batches(events, rng):
    """A random order of arrival: each lesson is opened first, some events arrive again."""
    rest = [e for e in events if e["type"] != "lesson_opened"]
    rest += rng.sample(rest, min(3, len(rest)))
    rng.shuffle(rest)
    opened = [e for e in events if e["type"] == "lesson_opened"]
    rng.shuffle(opened)
    together = rng.random() < 0.3
    batches = [opened] if together else []
    todo = rest if together else []
    if not together:
        for lesson in opened:
            todo.append(lesson)
            todo += [e for e in rest if e["lesson"] == lesson["id"]]
    while todo:
        size = rng.choice([2, 10, 40])
        batches.append(todo[:size])
        todo = todo[size:]
    return batches


@pytest.fixture
def kinds(club):
    """Two drills, one of them with a second version: drill id → chart ids."""
    mixed, chart = club.add_drill("discrimination", rule={"family": "run", "n": 3}, cap=9)
    old = club.browser.get("/api/drills").get_json()["drills"]
    document = next(d["document"] for d in old if d["id"] == club.drill)
    shorter = {**document, "read": document["read"][:3], "rule": {"family": "run", "n": 2}}
    answer = club.browser.send("PUT", f"/api/drills/{club.drill}", {"document": shorter})
    return {club.drill: [club.chart, answer.get_json()["chart"]], mixed: [chart]}


@examples(20, suppress_health_check=[HealthCheck.function_scoped_fixture], derandomize=True)
@given(seed=st.integers(0, 2**32))
def test_folding_what_arrives_equals_folding_the_whole_history(club, kinds, seed):
    rng = random.Random(seed)
    club.fencer = club.add_fencer(f"Fencer {seed}")
    events = Season(club, rng, kinds).events()
    for batch in shuffled_into_batches(events, rng):
        taken = take_in(club.id, batch)
        assert {r["status"] for r in taken.results} <= {"stored", "already"}
    for drill, charts in kinds.items():
        mine = (Standing.club_id == club.id, Standing.fencer_id == club.fencer)
        standing = db.session.scalar(select(Standing).where(*mine, Standing.drill_id == drill))
        whole = _whole_of(club, drill, charts[0])
        if standing is None:
            assert whole is None
            continue
        assert standing.walk == (whole or fresh(chart_of(charts[0])).to_json())
        _check_lessons(club, drill, standing.walk if whole else None)
    db.session.remove()


def _whole_of(club, drill, first_chart):
    lessons = []
    mine = (Lesson.club_id == club.id, Lesson.fencer_id == club.fencer)
    for lesson in db.session.scalars(select(Lesson).where(*mine)):
        events = db.session.scalars(
            select(Event).where(Event.club_id == club.id, Event.lesson_id == lesson.id)
        ).all()
        lessons.append((lesson.day, lesson.opened_at, lesson.id, lesson.coach_id, events))
    random.Random(1).shuffle(lessons)
    walk = fold_history(chart_of, first_chart, drill, lessons)
    return walk.to_json() if walk else None


def _check_lessons(club, drill, last):
    """Each lesson starts where the one before ended."""
    rows = db.session.scalars(
        select(LessonDrill)
        .where(
            LessonDrill.club_id == club.id,
            LessonDrill.fencer_id == club.fencer,
            LessonDrill.drill_id == drill,
        )
        .order_by(LessonDrill.day, LessonDrill.opened_at, LessonDrill.lesson_id)
    ).all()
    before = None
    for row in rows:
        assert row.before == before
        before = row.after
    assert before == last


def test_the_fold_is_the_walk_of_the_rules(club):
    phone = club.phone()
    opened = phone.open()
    cues = [phone.cue(mark) for mark in ["correct", "late", "correct", "early", "early"]]
    chart = chart_of(club.chart)
    walk = enter(chart, fresh(chart), opened["day"])
    for cue in cues:
        walk = step(chart, walk, Given.ATTACK, mark_of(cue))
    standing = club.browser.push(opened, *cues)["standings"][0]
    assert standing["walk"] == walk.to_json()
    assert standing["suggestion"] == _as_data(suggestion(chart, walk).to_json())


def _as_data(value):
    return {k: [*v] if isinstance(v, tuple) else v for k, v in value.items()} | {
        "progress": [dict(p) for p in value["progress"]]
    }


def test_a_void_takes_back_its_mark(club):
    phone = club.phone()
    opened, first, slip = phone.open(), phone.cue(), phone.cue("late")
    clean = club.browser.push(opened, first)["standings"][0]["walk"]
    club.browser.push(slip)
    reply = club.browser.push(phone.void(slip))
    assert reply["standings"][0]["walk"] == clean
    assert reply["lessons"][0]["after"] == clean


def test_a_void_may_arrive_before_its_mark(club):
    phone = club.phone()
    opened, first, slip = phone.open(), phone.cue(), phone.cue("late")
    clean = club.browser.push(opened, first, phone.void(slip))["standings"][0]["walk"]
    assert club.browser.push(slip)["lessons"][0]["after"] == clean


def test_a_drill_whose_every_mark_is_voided_is_fresh_again(club):
    phone = club.phone()
    opened, cue = phone.open(), phone.cue()
    club.browser.push(opened, cue)
    reply = club.browser.push(phone.void(cue))
    assert reply["standings"][0]["walk"] == fresh(chart_of(club.chart)).to_json()
    assert reply["lessons"][0]["before"] is None
    assert db.session.scalars(select(LessonDrill)).all() == []


@pytest.mark.parametrize("kind", ["set_rung", "rest", "seek"])
def test_what_is_taken_back_leaves_no_trace(club, kind):
    phone, other = club.phone(), club.phone()
    before = club.browser.push(phone.open(), *phone.cues(4))["standings"][0]["walk"]
    act = phone.set_rung(3) if kind == "set_rung" else getattr(phone, kind)()
    after = club.browser.push(act)["standings"][0]["walk"]
    assert after != before
    assert club.browser.push(phone.void(act))["standings"][0]["walk"] == before
    # the slip may come after what takes it back
    other.lesson, late = phone.lesson, phone.rest()
    assert statuses(club.browser.push(phone.void(late), late)) == ["stored", "stored"]
    assert club.browser.push(phone.cue())["standings"][0]["suggestion"]["progress"][0]["have"] == 5


def test_a_note_cannot_be_taken_back(club):
    phone = club.phone()
    opened, note = phone.open(), phone.event("note_written", text="Good eyes.", drill=None)
    reply = club.browser.push(opened, note, phone.void(note))
    assert statuses(reply)[2] == "refused"
    assert "cannot be taken back" in reply["results"][2]["why"]["mark"][0]


def test_a_drill_rested_before_its_first_cue_stands_on_the_chart_it_names(club):
    document = club.browser.get("/api/drills").get_json()["drills"][0]["document"]
    changed = {**document, "read": document["read"][:3]}
    answer = club.browser.send("PUT", f"/api/drills/{club.drill}", {"document": changed})
    chart, phone = answer.get_json()["chart"], club.phone()
    assert chart != club.chart
    reply = club.browser.push(phone.open(), phone.rest(chart=chart))
    assert reply["standings"][0]["walk"]["chart"] == chart


def test_a_search_places_a_fencer_and_nothing_counts_as_met(club):
    phone = club.phone()
    club.browser.push(phone.open(), phone.seek())
    walk = None
    for _ in range(12):
        walk = club.browser.push(phone.cue())["standings"][0]["walk"]
        if walk["phase"] == "train":
            break
    assert (walk["why"], walk["rungs"], walk["counters"]) == ("placed", [], [0])
    assert walk["place"] == walk["work"] > 0


def test_the_cues_of_a_search_are_not_among_a_fencers_trials(club):
    phone, chart = club.phone(), chart_of(club.chart)

    def counted():
        return len(trials_of(club.id, club.fencer, club.drill, chart))

    club.browser.push(phone.open(), *phone.cues(3, "late"), phone.seek())
    cues, phase = 0, "find"
    while phase == "find":
        assert counted() == 3
        phase = club.browser.push(phone.cue())["standings"][0]["walk"]["phase"]
        cues += 1
    assert (cues > 3, counted()) == (True, 3)
    club.browser.push(*phone.cues(2))
    assert counted() == 5
    # one left unfinished ends with whatever comes between
    club.browser.push(phone.seek(), phone.cue(), phone.rest(), phone.cue())
    assert counted() == 6


def test_a_drill_without_a_search_refuses_one(club):
    mixed, chart = club.add_drill("discrimination")
    phone = club.phone()
    reply = club.browser.push(phone.open(), phone.seek(drill=mixed, chart=chart))
    assert "no search" in reply["results"][1]["why"]["chart"][0]


def test_a_mark_of_another_lesson_cannot_be_voided(club):
    phone = club.phone()
    first, cue = phone.open(day="2026-03-02"), phone.cue()
    second = phone.open(day="2026-03-03")
    assert statuses(club.browser.push(first, cue, second, phone.void(cue)))[3] == "refused"


def test_a_late_lesson_is_folded_in_before_the_later_ones(club):
    late, phone = club.phone(), club.phone()
    first, cues = late.open(day="2026-03-02"), late.cues(15)
    club.browser.push(phone.open(day="2026-03-04"), *phone.cues(2))
    reply = club.browser.push(first, *cues)
    assert [row["lesson"] for row in reply["lessons"]] == [late.lesson, phone.lesson]
    assert reply["lessons"][1]["before"] == reply["lessons"][0]["after"]
    assert reply["lessons"][1]["after"]["phase"] == "check"
    assert reply["standings"][0]["walk"] == reply["lessons"][1]["after"]


def test_marks_of_one_lesson_are_ordered_by_the_devices_counter(club):
    phone = club.phone()
    opened, *cues = phone.open(), phone.cue("late"), phone.cue(), phone.cue("late"), phone.cue()
    club.browser.push(opened)
    for cue in reversed(cues):
        last = club.browser.push(cue)
    again = club.phone()
    club.fencer = club.add_fencer("Jona")
    opened, *same = again.open(), again.cue("late"), again.cue(), again.cue("late"), again.cue()
    in_order = club.browser.push(opened, *same)
    assert last["standings"][0]["walk"] == in_order["standings"][0]["walk"]


def test_a_push_folds_one_lesson_however_long_the_history_is(club):
    for day in range(1, 21):
        phone = club.phone()
        club.browser.push(phone.open(day=f"2026-05-{day:02d}"), *phone.cues(4))
    assert len(club.browser.push(phone.cue())["lessons"]) == 1


@pytest.mark.parametrize(
    ("moment", "sorts_as"),
    [
        ("2026-03-02T18:20:00.123456+01:00", "2026-03-02T17:20:00.123Z"),
        ("2026-03-02T18:20:00Z", "2026-03-02T18:20:00.000Z"),
        ("2026-03-02T18:20", "2026-03-02T18:20:00.000Z"),
        ("0001-01-01T00:00:00+14:00", "0001-01-01T00:00:00.000Z"),
    ],
)
def test_moments_sort_as_text_in_utc(moment, sorts_as):
    assert sortable(moment) == sorts_as


def test_a_stop_is_kept_and_undone_like_any_other_act(club):
    drill, chart = club.add_drill("desensitization")
    named = {"drill": drill, "chart": chart}
    phone = club.phone()
    club.browser.push(phone.open(), phone.set_rung(2, **named))
    stop = phone.stop(**named)
    reply = club.browser.push(stop)
    walk = reply["standings"][0]["walk"]
    assert (walk["phase"], walk["why"], walk["work"]) == ("close", "stopped", 1)
    walk = club.browser.push(phone.void(stop))["standings"][0]["walk"]
    assert (walk["phase"], walk["work"]) == ("train", 2)


def test_a_stop_in_a_drill_without_heat_is_refused_and_says_what_to_do(club):
    phone = club.phone()
    reply = club.browser.push(phone.open(), phone.stop())
    assert statuses(reply) == ["stored", "refused"]
    assert "stop the drill for today" in str(reply["results"][1])
