"""A club of the version before: its lessons mean the same, and its fencers go on from there."""

import sqlite3
from datetime import date, timedelta
from pathlib import Path

import pytest
from sqlalchemy import select

from cueladder.app import create_app
from cueladder.rules import Walk, status, table
from cueladder.store.db import migrate
from cueladder.store.db.engine import db
from cueladder.store.db.models import Coach, Event, Lesson, Standing
from cueladder.store.drills.versions import drills_of, renew_charts, versions_of
from cueladder.store.log.charts import chart_of
from cueladder.store.whole.transfer import disagreements
from cueladder.store.whole.upgrade import upgrade
from tests.conftest import CHEAP
from tests.store.club import Club, statuses

MADE = Path(__file__).with_name("first_club.sql")  # by make_first_club.py


@pytest.fixture
def club(tmp_path):
    app = create_app({"DATA": tmp_path, "DATABASE_URL": None, **CHEAP})
    with app.app_context():
        migrate.up("0004")
        path = db.engine.url.database
        db.session.remove()
        with sqlite3.connect(path) as connection:
            connection.executescript(MADE.read_text())
        before = standings()
        upgrade()
        yield of_old(app, before)
        db.session.remove()
        db.engine.dispose()


def of_old(app, before):
    """The club as a test's club: signed in, with what stood before the update."""
    club = object.__new__(Club)
    coach = db.session.scalar(select(Coach))
    club.app, club.id, club.coach, club.before = app, coach.club_id, coach.id, before
    club.drill, club.chart = "", ""
    club.browser = club.sign_in(coach.name)
    return club


def standings():
    rows = db.session.execute(select(Standing.fencer_id, Standing.drill_id, Standing.walk))
    return {(fencer, drill): walk for fencer, drill, walk in rows}


def test_every_drill_gets_a_chart_of_today_under_the_same_document(club):
    for drill, version in drills_of(club.id):
        newer, older = (each for each, _ in versions_of(club.id, drill.id))
        assert (version.chart_id, older.version, newer.version) == (newer.chart_id, 1, 2)
        assert newer.document == older.document
        assert [chart_of(each.chart_id).version for each in (older, newer)] == [1, 2]


def test_a_second_start_renews_nothing(club):
    migrate.up()
    assert {drill.version for drill, _ in drills_of(club.id)} == {2}


def test_a_drill_whose_rule_is_too_large_for_a_chart_of_today_goes_on_with_the_one_it_has(
    club, monkeypatch
):
    drill, version = drills_of(club.id)[0]
    version.chart_id = versions_of(club.id, drill.id)[1][0].chart_id
    db.session.commit()
    monkeypatch.setattr(table, "MOST_STATES", 10)
    table.compile_count.cache_clear()
    assert renew_charts() == 0
    monkeypatch.undo()
    assert renew_charts() == 1


def test_nothing_stored_changes_and_all_of_it_folds_to_what_is_stored(club):
    assert standings() == club.before
    assert len(club.before) == 6
    assert {walk["chart"][:3] for walk in club.before.values()} == {"c1."}
    assert disagreements() == []


def test_a_late_mark_of_an_old_phone_moves_an_old_lesson_as_it_did_then(club):
    """Put in and taken back it leaves every standing as it was."""
    old = db.session.scalars(select(Event).where(Event.type == "cue_marked")).all()
    for event in old[::40]:
        lesson = db.session.get(Lesson, (club.id, event.lesson_id))
        phone = club.phone()
        phone.lesson, club.fencer = lesson.id, lesson.fencer_id
        named = {"drill": event.drill_id, "chart": event.payload["chart"]}
        late = phone.cue("late", **named)
        reply = club.browser.push(late)
        assert statuses(reply) == ["stored"]
        assert reply["lessons"][0]["after"]["chart"] == event.payload["chart"]
        club.browser.push(phone.void(late))
    now = {key: Walk.from_json(walk) for key, walk in standings().items()}
    assert now == {key: Walk.from_json(walk) for key, walk in club.before.items()}


def test_each_fencer_goes_on_where_he_stood_at_the_first_touch(club):
    now = {drill.id: version.chart_id for drill, version in drills_of(club.id)}
    for (fencer, drill), walk in club.before.items():
        club.fencer, club.drill, club.chart = fencer, drill, now[drill]
        was, phone = Walk.from_json(walk), club.phone()
        day = date.fromisoformat(was.day) + timedelta(days=7)
        reply = club.browser.push(phone.open(day=day.isoformat()), phone.cue())
        after = Walk.from_json(reply["standings"][0]["walk"])
        new, old = chart_of(after.chart), chart_of(was.chart)
        assert (after.chart, new.version) == (club.chart, 2)
        assert (after.met, status(new, after)) == (was.met, status(old, was))
        # no re-check of what failed one under the old rules and is trained again, nor so soon of
        # what has held
        trained = was.met is None or (was.phase, was.place) == ("train", was.met)
        left_alone = trained or status(old, was) == "secure"
        assert after.phase == ("train" if left_alone else "check")
        assert len(after.rungs) == (0 if was.met is None else new.places[was.met].height + 1)
    assert disagreements() == []


def test_a_second_lesson_after_the_update_keeps_the_count_of_the_first(club):
    (fencer, drill), _ = next(
        (key, walk) for key, walk in club.before.items() if walk["met"] is None and walk["day"]
    )
    now = {each.id: version.chart_id for each, version in drills_of(club.id)}
    club.fencer, club.drill, club.chart = fencer, drill, now[drill]
    phone = club.phone()
    club.browser.push(phone.open(day="2026-04-06"), *phone.cues(5))
    reply = club.browser.push(phone.open(day="2026-04-13"), phone.cue())
    assert reply["standings"][0]["suggestion"]["progress"][0]["have"] == 6
