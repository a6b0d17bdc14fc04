"""A mark corrected in After, with and without a network, also in a lesson of an earlier day."""

import re

import pytest
from playwright.sync_api import expect

from tests.browser.database import read
from tests.browser.server import call, cookie_of
from tests.browser.strip import all_sent, events, mark, open_lesson, screen

pytestmark = pytest.mark.browser
DRILL = "distance-parry-late"


def after(page, salle, lesson):
    page.goto(f"{salle.phone.url}/after/{lesson}")
    expect(page.get_by_test_id("after")).to_be_visible()


def weigh(page, cue, verdict, drill=DRILL):
    """Choose how a cue should have been marked; what the app says it would change."""
    cues = page.get_by_test_id(f"cues-{drill}")
    if cues.get_attribute("open") is None:
        cues.locator("summary").click()
    page.get_by_test_id(f"cue-{drill}-{cue}").click()
    page.get_by_test_id(f"was-{verdict}").click()
    said = page.get_by_test_id("weighed")
    expect(said).not_to_have_text("Opening…")
    return said.inner_text()


def keep(page):
    page.get_by_test_id("keep-correction").click()
    expect(page.get_by_text("The correction is kept.")).to_be_visible()


def standings(salle, page):
    cookie = cookie_of(page)
    return call(salle.server, cookie, "/api/standings?after=0&limit=500")["standings"]


def test_a_correction_is_weighed_then_kept_and_moves_the_rung_on_phone_and_server(salle):
    page = salle.open()
    expect(page.get_by_role("button", name="Start:").first).to_be_visible()
    page.context.set_offline(True)
    salle.server.stop()
    lesson = open_lesson(page, DRILL)
    mark(page, "correct", 20)
    assert page.get_by_test_id("cue").get_attribute("data-move") == "climb"
    mark(page, "correct", 2)

    # After opens with no server, and says what the phone itself knows
    after(page, salle, lesson)
    expect(page.get_by_test_id("offline")).to_contain_text("come with the next connection")
    card = page.get_by_test_id(f"after-{DRILL}")
    expect(card).to_contain_text("22 cues, 22 of them right.")
    expect(card).to_contain_text("Held:")
    expect(card.get_by_test_id("next")).to_contain_text("re-check")

    # weighed only: nothing is written
    before = events(page, lesson)
    said = weigh(page, 12, "late")
    assert re.search(r"would stand at rung 1 instead of rung 2", said), said
    page.keyboard.press("Escape")
    assert events(page, lesson) == before
    weigh(page, 12, "late")
    keep(page)
    expect(card).to_contain_text("22 cues, 21 of them right.")
    expect(card).not_to_contain_text("Held:")
    expect(page.get_by_test_id(f"cue-{DRILL}-12")).to_contain_text("corrected")
    new = [e for e in events(page, lesson) if "instead_of" in e]
    assert len(new) == 1 and new[0]["mark"] == "late"

    # the strip goes on from there, also after a restart
    salle.phone.close()
    page = salle.open(f"/strip/{lesson}")
    expect(page.get_by_test_id("mark-correct")).to_be_visible()
    shown = screen(page)
    salle.server.start()
    page.reload()
    all_sent(page)
    assert screen(page)["progress"] == shown["progress"]
    fencer = next(e["fencer"] for e in before if e["type"] == "lesson_opened")
    told = next(
        s for s in standings(salle, page)
        if s["fencer"] == fencer and s["drill"] == new[0]["drill"]
    )  # fmt: skip
    assert told["walk"]["place"] == 0 and told["walk"]["met"] is None
    count = told["suggestion"]["progress"][0]
    assert f"{count['have']} of {count['need']}" in shown["progress"]
    after(page, salle, lesson)
    expect(page.get_by_test_id(f"after-{DRILL}")).to_contain_text("22 cues, 21 of them right.")
    expect(page.get_by_test_id("offline")).to_have_count(0)


@pytest.mark.thorough
def test_a_correction_can_be_corrected_and_a_cue_taken_out(salle):
    page = salle.open()
    lesson = open_lesson(page, DRILL)
    mark(page, "correct", 4)
    after(page, salle, lesson)
    weigh(page, 2, "late")
    keep(page)
    assert "stays on the same rung" in weigh(page, 2, "correct+tense")
    keep(page)
    expect(page.get_by_test_id(f"cue-{DRILL}-2")).to_contain_text("Correct, but tense")
    weigh(page, 1, "none")
    keep(page)
    card = page.get_by_test_id(f"after-{DRILL}")
    expect(card).to_contain_text("3 cues, 3 of them right.")
    expect(page.get_by_test_id(f"cue-{DRILL}-2")).to_be_visible()
    expect(page.get_by_test_id(f"cue-{DRILL}-1")).to_have_count(0)
    chain = sorted((e for e in events(page, lesson) if "instead_of" in e), key=lambda e: e["n"])
    assert chain[1]["instead_of"] == chain[0]["id"]
    all_sent(page)


@pytest.mark.thorough
def test_a_lesson_of_an_earlier_day_is_corrected_and_the_later_ones_count_anew(salle, season):
    page = salle.open()
    expect(page.get_by_role("button", name="Start:").first).to_be_visible()
    fencer, drill, slug, lesson = earlier_lesson(salle, page)
    page.context.set_offline(True)
    page.goto(f"{salle.phone.url}/fencers/{fencer}")
    expect(page.get_by_test_id("lessons-of").get_by_role("link").first).to_be_visible()
    page.goto(f"{salle.phone.url}/after/{lesson}")
    expect(page.get_by_test_id("after")).to_be_visible()
    said = weigh(page, 1, "early", slug)
    assert re.search(r"later lessons? with this drill (is|are) counted anew", said), said
    keep(page)
    own = standing_of(page, fencer, drill)
    page.context.set_offline(False)
    page.goto(salle.phone.url)
    all_sent(page)
    told = next(
        s for s in standings(salle, page) if (s["fencer"], s["drill"]) == (fencer, drill)
    )  # fmt: skip
    assert own["walk"] == told["walk"]
    assert own["suggestion"] == told["suggestion"]


def earlier_lesson(salle, page):
    """(fencer, drill, its slug, lesson) of a lesson of this coach with a later one on the drill."""
    cookie = cookie_of(page)
    club = call(salle.server, cookie, "/api/club")
    me = next(c["id"] for c in club["coaches"] if c["name"] == salle.coach)
    slugs = {d["id"]: d["slug"] for d in club["drills"] if d["kind"] == "sensitization"}
    found, after_ = [], 0
    while True:
        reply = call(salle.server, cookie, f"/api/events?after={after_}&limit=500")
        found += reply["events"]
        after_ = reply["next"]
        if not reply["more"]:
            break
    opened = {e["id"]: e for e in found if e["type"] == "lesson_opened"}
    worked = {}
    for event in found:
        if event["type"] == "cue_marked" and event["drill"] in slugs:
            lesson = opened[event["lesson"]]
            worked.setdefault((lesson["fencer"], event["drill"]), {})[lesson["day"]] = lesson
    for (fencer, drill), days in sorted(worked.items()):
        first = days[min(days)]
        if len(days) > 1 and first["coach"] == me:
            return fencer, drill, slugs[drill], first["id"]
    raise AssertionError("the season has no drill worked on two days")


def standing_of(page, fencer, drill):
    """Where the phone says the fencer stands."""
    [row] = read(page.evaluate, ("standings", "get", [fencer, drill]))
    return row
