"""How a drill is begun on the strip: the start found first, a cue shown first, minutes kept."""

import pytest
from playwright.sync_api import expect

from tests.browser.phone import page_until
from tests.browser.strip import (
    READ_DRILL,
    agree_to_care,
    all_sent,
    events,
    lesson_of,
    mark,
    open_lesson,
    screen,
    standing_marks,
    tap,
)

pytestmark = pytest.mark.browser


def test_the_start_is_found_at_the_first_touch_of_a_drill_and_nothing_of_it_counts(salle):
    page = salle.open()
    open_lesson(page, READ_DRILL)
    lowest = screen(page)["cue"]
    page.get_by_test_id("find-start").click()
    expect(page.get_by_test_id("progress")).to_contain_text("to find the start")
    expect(page.get_by_test_id("find-start")).to_have_count(0)
    expect(page.get_by_test_id("last-mark")).to_contain_text("Search for the start")
    assert screen(page)["cue"] != lowest, "a search begins in the middle of the ladder"

    # taken back: as if it had not been
    page.get_by_test_id("undo").click()
    expect(page.get_by_test_id("find-start")).to_be_visible()
    assert screen(page)["cue"] == lowest

    page.get_by_test_id("find-start").click()
    expect(page.get_by_test_id("progress")).to_contain_text("to find the start")
    given = 0
    while "to find the start" in screen(page)["progress"]:
        tap(page, "correct")
        given += 1
        assert given <= 12
    assert "A good rung to start from" in screen(page)["why"]
    assert "0 of 20" in screen(page)["progress"]
    assert screen(page)["cue"] != lowest
    expect(page.get_by_test_id("find-start")).to_have_count(0)
    mark(page, "correct")
    assert "1 of 20" in screen(page)["progress"]
    told = screen(page)
    all_sent(page)
    page.reload()
    expect(page.get_by_test_id("mark-correct")).to_be_enabled()
    assert screen(page)["cue"] == told["cue"], "the server stands where the phone does"
    kinds = [one["type"] for one in events(page)]
    assert kinds.count("start_sought") == 2
    assert kinds.count("cue_marked") == given + 1


@pytest.mark.thorough
def test_a_coach_may_simply_begin_and_is_not_asked_again(salle):
    page = salle.open()
    open_lesson(page, READ_DRILL)
    expect(page.get_by_test_id("find-start")).to_be_visible()
    mark(page, "correct")
    expect(page.get_by_test_id("begin")).to_have_count(0)
    assert "1 of 20" in screen(page)["progress"]


@pytest.mark.thorough
def test_cues_shown_first_are_not_counted_until_one_tap(salle):
    page = salle.open()
    open_lesson(page, READ_DRILL)
    page.get_by_test_id("show-first").click()
    cover = page.get_by_test_id("count-from")
    expect(cover).to_be_visible()
    expect(page.get_by_test_id("begin")).to_have_count(0)
    for kind in ("correct", "late", "early"):
        covered = page.get_by_test_id(f"mark-{kind}").evaluate(
            """(button) => {
              const box = button.getBoundingClientRect();
              const at = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
              return !button.contains(at);
            }"""
        )
        assert covered, kind
    # a clicker's key gives no mark either, and its undo begins to count
    page.keyboard.press("1")
    expect(page.get_by_test_id("announcement")).to_contain_text("Shown first")
    assert standing_marks(page) == []
    cover.click()
    expect(cover).to_have_count(0)
    mark(page, "correct")
    assert "1 of 20" in screen(page)["progress"]
    expect(page.get_by_test_id("show-first")).to_have_count(0)
    # at the next new rung again
    mark(page, "correct", 19)
    assert page.get_by_test_id("cue").get_attribute("data-move") == "climb"
    page.get_by_test_id("show-first").click()
    expect(cover).to_be_visible()
    page.keyboard.press("u")
    expect(cover).to_have_count(0)
    assert len(standing_marks(page)) == 20


@pytest.mark.thorough
def test_the_strip_keeps_a_parts_minutes_and_offers_the_next_when_they_are_up(salle):
    page = salle.open()
    page.clock.install()
    page.reload()
    open_lesson(page, None)
    lesson = lesson_of(page)
    minutes = page.get_by_test_id("part-minutes")
    expect(minutes).to_be_visible()
    expect(minutes).to_contain_text("0 of ")
    planned = int(minutes.inner_text().split()[2])
    mark(page, "correct")
    expect(page.get_by_test_id("next-part")).to_have_count(0)
    page.clock.fast_forward(planned * 60_000 + 6_000)
    expect(minutes).to_contain_text(f"{planned} of {planned} min")
    # kept over a reload
    page.goto(f"{salle.phone.url}/strip/{lesson}")
    offer = page.get_by_test_id("next-part")
    expect(offer).to_be_visible()
    before = page.get_by_test_id("drill-pick").inner_text()
    name = offer.inner_text().split("\n")[-1]
    offer.click()
    expect(page.get_by_test_id("drill-pick")).to_contain_text(name)
    expect(page.get_by_test_id("next-part")).to_have_count(0)
    agree_to_care(page)
    page_until(page, lambda: "0 of " in minutes.inner_text(), "the minutes of the next part")
    page.get_by_test_id("drill-pick").click()
    done = page.locator("dialog [data-done=true]")
    if name in before:  # the next part goes on with the same drill, which is not done yet
        expect(done).to_have_count(0)
    else:
        expect(done).to_contain_text(before.split("\n")[1])


@pytest.mark.thorough
def test_after_the_lesson_startles_at_a_cue_are_counted_ten_cues_at_a_time(salle):
    page = salle.open()
    open_lesson(page, READ_DRILL)
    told = page.get_by_test_id("startles")
    # nine cues are too few to tell of
    for kind in ["early", "correct", "early", *["correct"] * 6]:
        tap(page, kind)
    lesson = lesson_of(page)
    page.goto(f"{salle.phone.url}/after/{lesson}")
    expect(page.get_by_test_id("next")).to_be_visible()
    expect(told).to_have_count(0)
    page.goto(f"{salle.phone.url}/strip/{lesson}")
    expect(page.get_by_test_id("mark-correct")).to_be_enabled()
    for kind in ["correct", "correct", "early", *["correct"] * 5]:
        tap(page, kind)
    page.goto(f"{salle.phone.url}/after/{lesson}")
    expect(told).to_contain_text("Startled, ten cues at a time: 2; in the last 7 cues: 1.")


def test_before_the_first_cue_nothing_says_again(salle):
    page = salle.open()
    open_lesson(page, READ_DRILL)
    expect(page.get_by_test_id("why")).to_be_visible()
    expect(page.get_by_test_id("move")).to_have_count(0)
    page.get_by_test_id("find-start").click()
    expect(page.get_by_test_id("progress")).to_contain_text("to find the start")
    expect(page.get_by_test_id("move")).to_have_count(0)
    page.get_by_test_id("undo").click()
    expect(page.get_by_test_id("find-start")).to_be_visible()
    mark(page, "correct")
    expect(page.get_by_test_id("move")).to_have_text("Again")
