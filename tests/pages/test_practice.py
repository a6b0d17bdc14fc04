"""Practice at home, ticked off by the fencer on the progress page."""

from __future__ import annotations

import re
from datetime import timedelta

import pytest
from sqlalchemy import select

from cueladder.store.access.links import revoke_links
from cueladder.store.db.engine import db
from cueladder.store.db.models import Practice
from tests.pages.conftest import TODAY


def ticks():
    db.session.remove()
    return [(row.drill_id, row.day) for row in db.session.scalars(select(Practice))]


def post(fencer, token=None, **form):
    client = fencer.club.app.test_client()
    return client.post(f"/p/{token or fencer.token}/practice", data=form)


def everything():
    """All rows of all tables but the ticks, their entries in the audit and times of opening."""
    db.session.remove()
    left_out = {"practice", "audit", "progress_link"}
    tables = [table for table in db.metadata.sorted_tables if table.name not in left_out]
    return {table.name: db.session.execute(table.select()).all() for table in tables}


def test_a_drill_is_ticked_off_by_the_form_of_the_page_and_shown_as_done(opened):
    fencer = opened(lessons=2, drills=1, each=1)
    text = fencer.text()
    form = re.search(r"<form .*?</form>", text, re.S)[0]
    assert f'action="/p/{fencer.token}/practice?lang=en"' in form and 'method="post"' in form
    fields = dict(re.findall(r'name="(\w+)" value="(.*?)"', form))
    answer = post(fencer, **fields)
    assert answer.status_code == 303
    assert answer.headers["Location"].split("#")[0] == f"/p/{fencer.token}?lang=en&ticked=1"
    assert answer.headers["Location"].split("#")[1] in re.findall(r'id="(.*?)"', text)
    assert ticks() == [(fencer.drills[0][0], TODAY.isoformat())]
    assert "Practised today.</b> 1 day in the last four weeks." in fencer.text()


def test_ticking_twice_is_ticking_once_and_a_tick_can_be_taken_back(opened):
    fencer = opened(lessons=1, drills=1, each=1)
    drill = fencer.drills[0][0]
    for _ in range(3):
        post(fencer, drill=drill)
    assert len(ticks()) == 1
    for _ in range(2):
        assert post(fencer, drill=drill, done="no").status_code == 303
    assert ticks() == []
    assert "I practised this today" in fencer.text()


def test_yesterdays_tick_stays_whatever_is_done_today(opened, clock):
    fencer = opened(lessons=1, drills=1, each=1)
    drill = fencer.drills[0][0]
    post(fencer, drill=drill)
    clock.tick(timedelta(days=1))
    assert "I practised this today" in fencer.text()
    post(fencer, drill=drill)
    post(fencer, drill=drill, done="no")
    assert ticks() == [(drill, TODAY.isoformat())]


def test_the_coach_sees_the_days_in_the_story(opened, clock):
    fencer = opened(lessons=1, drills=2, each=2)
    drill, other = (each for each, _ in fencer.drills)
    post(fencer, drill=drill)
    clock.tick(timedelta(days=10))
    post(fencer, drill=drill)
    story = fencer.club.browser.get(f"/api/fencers/{fencer.club.fencer}/story").get_json()
    told = {each["drill"]["id"]: each["practice"] for each in story["drills"]}
    assert told[drill]["days"] == ["2026-11-25", "2026-12-05"]
    assert told[drill]["words"] == (
        "Practised at home on 2 days of the last 28, 1 of them in the last week."
    )
    assert told[other]["days"] == []
    clock.tick(timedelta(days=40))
    story = fencer.club.browser.get(f"/api/fencers/{fencer.club.fencer}/story").get_json()
    assert [each["practice"]["days"] for each in story["drills"]] == [[], []]


@pytest.mark.parametrize("drill", ["", "x", "01890a5d-ac96-774b-bcce-b302099a8057", "\0"])
def test_an_unknown_drill_is_not_ticked_off(opened, drill):
    fencer = opened(lessons=1, drills=1, each=1)
    assert post(fencer, drill=drill).status_code == 404
    assert ticks() == []


def test_a_drill_the_fencer_has_not_worked_is_not_ticked_off(opened):
    fencer = opened(lessons=1, drills=1, each=1)
    assert post(fencer, drill=fencer.club.drill).status_code == 404
    assert ticks() == []


def test_a_link_that_does_not_open_ticks_nothing_off(opened):
    fencer = opened(lessons=1, drills=1, each=1)
    drill = fencer.drills[0][0]
    assert post(fencer, token="A" * 22, drill=drill).status_code == 404
    revoke_links(fencer.club.id, fencer.club.fencer)
    closed = post(fencer, drill=drill)
    assert (closed.status_code, "This link does not open" in closed.text) == (404, True)
    assert ticks() == []


def test_nothing_but_the_tick_can_be_written(opened):
    fencer = opened(lessons=1, drills=1, each=1)
    before = everything()
    sent = {"drill": fencer.drills[0][0], "day": "2020-01-01", "nickname": "Other", "note": "x",
            "fencer_id": "y", "club_id": "2"}  # fmt: skip
    assert post(fencer, **sent).status_code == 303
    assert everything() == before
    assert ticks() == [(fencer.drills[0][0], TODAY.isoformat())]


def test_the_form_may_only_be_sent_to_the_own_site(opened):
    fencer = opened(lessons=1, drills=1, each=1)
    policy = fencer.get().headers["Content-Security-Policy"]
    assert "form-action 'self'" in policy
    assert "Set-Cookie" not in post(fencer, drill=fencer.drills[0][0]).headers
