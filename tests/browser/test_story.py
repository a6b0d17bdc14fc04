"""The main job from end to end: mark with no network, lose the browser, sync, see progress."""

from datetime import date

import pytest
from playwright.sync_api import expect

from seed_demo.club import PASSPHRASE
from tests.browser.hands import marked
from tests.browser.strip import (
    MIXED_DRILL,
    READ_DRILL,
    choose,
    events,
    mark,
    screen,
    sign_in,
    standing_marks,
)

pytestmark = pytest.mark.browser
HEADERS = {"X-Cue-Ladder": "1"}


def api(page, server, path, body=None):
    call = page.context.request
    if body is None:
        answer = call.get(server.url + path, headers=HEADERS)
    else:
        answer = call.post(server.url + path, headers=HEADERS, data=body)
    assert answer.ok, answer.text()
    return answer.json()


def test_a_lesson_marked_offline_survives_everything_and_reaches_the_progress_page(
    phone, server, season
):
    page = phone.start()
    sign_in(page, season[1].coach, PASSPHRASE)
    # Chromium writes cookies down within half a minute or on closing: sign in, put it away
    phone.close()
    page = phone.start()
    expect(page.get_by_role("heading", name="Today")).to_be_visible()
    club = api(page, server, "/api/club")
    drills = {d["slug"]: d["id"] for d in club["drills"]}
    coach = next(c["id"] for c in club["coaches"] if c["name"] == season[1].coach)
    fencer = next(b["fencer"] for b in club["today"] if b["coach"] == coach)
    worked = {
        s["drill"]
        for s in api(page, server, "/api/standings?after=0")["standings"]
        if s["fencer"] == fencer
    }
    fresh = [s for s in (READ_DRILL, MIXED_DRILL) if drills[s] not in worked]
    assert fresh == [READ_DRILL, MIXED_DRILL], "the story starts on drills new to the fencer"
    page.get_by_test_id(f"start-{fencer}").click()
    expect(page.get_by_test_id("strip")).to_be_visible()
    choose(page, READ_DRILL)

    # the cellar: no network, no server; the app opens again all the same
    server.stop()
    page.context.set_offline(True)
    page.reload()
    expect(page.get_by_test_id("mark-correct")).to_be_visible()
    first_cue = screen(page)["cue"]

    # 40 trials: a climb, then four late together and a step back, then on
    mark(page, "correct", 20)
    assert page.get_by_test_id("cue").get_attribute("data-move") == "climb"
    assert screen(page)["cue"] != first_cue
    mark(page, "correct", 2)
    mark(page, "late", 4)
    assert page.get_by_test_id("cue").get_attribute("data-move") == "back"
    mark(page, "correct", 5)
    mark(page, "early", 1)
    mark(page, "correct", 7)
    mark(page, "late", 1)
    assert len(standing_marks(page)) == 40
    page.get_by_test_id("undo").click()
    expect(page.get_by_role("dialog")).to_be_hidden()
    marked(page, 39)
    read_screen = screen(page)

    # 20 of a discrimination drill, its caution first
    choose(page, MIXED_DRILL)
    for kind in ["correct", "correct", "late", "decoy", "early"] * 4:
        mark(page, kind)
    mixed_screen = screen(page)
    kept = standing_marks(page)
    assert len(kept) == 59
    assert {m["given"] for m in kept[39:]} == {"attack", "decoy"}

    # the battery dies; everything is there again, and says the same
    phone.kill()
    page = phone.start()
    page.context.set_offline(True)
    page.get_by_test_id(f"go-on-{fencer}").click()
    expect(page.get_by_test_id("mark-correct")).to_be_visible()
    assert [m["id"] for m in standing_marks(page)] == [m["id"] for m in kept]
    assert screen(page) == mixed_screen
    choose(page, READ_DRILL)
    assert screen(page) == read_screen | {"move": screen(page)["move"]}
    expect(page.get_by_test_id("sync")).not_to_have_attribute("data-unsent", "0")

    # the server comes back: everything is sent, and its fold says the same
    server.start()
    page.context.set_offline(False)
    page.reload()
    expect(page.get_by_test_id("sync")).to_have_attribute("data-unsent", "0")
    assert screen(page)["cue"] == read_screen["cue"]
    standings = {
        s["drill"]: s
        for s in api(page, server, "/api/standings?after=0")["standings"]
        if s["fencer"] == fencer
    }
    for slug, shown in ((READ_DRILL, read_screen), (MIXED_DRILL, mixed_screen)):
        said = standings[drills[slug]]["suggestion"]
        for count in said["progress"]:
            owed = f"{-count['have']} to make up"
            said_so = f"{count['have']} of {count['need']}" if count["have"] >= 0 else owed
            assert said_so in shown["progress"]
        # on its mildest rung a mixed drill shows no heat: there is nothing to give
        for rung in said["cue"][:1]:
            for grade in rung.split(" · "):
                assert grade in shown["cue"]
    assert standings[drills[READ_DRILL]]["day"] == date.today().isoformat()

    # sent twice, stored once
    mine = events(page)
    again = api(page, server, "/api/events", {"events": mine})
    assert {r["status"] for r in again["results"]} == {"already"}
    assert again["seq"] == api(page, server, "/api/events", {"events": mine})["seq"]

    # the parent's page shows today
    link = api(page, server, f"/api/fencers/{fencer}/links", {})
    page.goto(link["url"])
    today = page.get_by_role("region", name="Today's lesson")
    names = {d["id"]: d["name"] for d in club["drills"]}
    for slug in (READ_DRILL, MIXED_DRILL):
        expect(today.get_by_text(names[drills[slug]])).to_be_visible()
