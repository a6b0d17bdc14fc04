"""What a push and a progress page read does not grow with the log: SQLite's own plans say so."""

import re

import pytest
from sqlalchemy import event

from cueladder.store.access.links import create_link
from cueladder.store.db.engine import db

GROWING = ("event", "lesson", "lesson_drill", "standing")


@pytest.fixture
def plans(app):
    """The plans of every query made so far, as (query, steps)."""
    if db.engine.dialect.name != "sqlite":
        pytest.skip("PostgreSQL's plans depend on what it has counted")
    asked = []

    def note(_connection, _cursor, statement, parameters, _context, many):
        if re.match("SELECT|UPDATE|DELETE", statement):
            asked.append((statement, parameters[0] if many else parameters))

    def told():
        with db.engine.connect() as connection:
            driver = connection.connection.driver_connection
            return [
                (query, [row[3] for row in driver.execute(f"EXPLAIN QUERY PLAN {query}", words)])
                for query, words in asked
            ]

    event.listen(db.engine, "before_cursor_execute", note)
    yield told
    event.remove(db.engine, "before_cursor_execute", note)


def steps_on(plans, table):
    return [step for _, steps in plans for step in steps if re.match(rf"\w+ {table}\b", step)]


def test_a_push_looks_events_up_by_id_or_by_lesson(club, plans):
    phone = club.phone()
    club.browser.push(phone.open(), *phone.cues(3))
    slip = phone.cue("late")
    club.browser.push(slip)
    club.browser.push(phone.void(slip))
    on_events = steps_on(plans(), "event")
    assert on_events
    for step in on_events:
        assert re.search(r"club_id=\? AND (id=\?|fencer_id=\? AND lesson_id=\?)", step), step


def test_a_push_and_a_progress_page_scan_no_table_that_grows(club, plans):
    phone = club.phone()
    club.browser.push(phone.open(), *phone.cues(12))
    token = create_link(club.id, club.fencer, club.coach).token
    assert club.browser.get(f"/p/{token}").status_code == 200
    told = plans()
    for table in GROWING:
        for step in steps_on(told, table):
            assert step.startswith("SEARCH"), step
