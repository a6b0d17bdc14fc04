"""Intensity ends when the fencer calls stop, and where no consent is noted it is not offered."""

import pytest
from playwright.sync_api import expect

from tests.browser.server import call, cookie_of
from tests.browser.strip import (
    HEAT_DRILL,
    MIXED_DRILL,
    READ_DRILL,
    all_sent,
    another_last,
    choose,
    end_lesson,
    events,
    last_shown,
    mark,
    open_lesson,
)

pytestmark = pytest.mark.browser


def set_heat(page, rung):
    """Set the heat rung by hand, counted from 0."""
    page.get_by_test_id("cue-open").click()
    page.get_by_test_id("cue-rung").click()
    page.locator("input[name=heat]").nth(rung).check()
    before = last_shown(page)
    page.get_by_test_id("rung-save").click()
    expect(page.locator("dialog")).to_have_count(0)
    another_last(page, before)


def stop(page):
    page.get_by_test_id("stop").click()
    page.get_by_test_id("stop-yes").click()


def test_a_stop_ends_intensity_for_today_starts_lower_next_time_and_reaches_the_head(salle):
    page = salle.open()
    lesson = open_lesson(page, HEAT_DRILL)
    set_heat(page, 1)
    mark(page, "correct")
    stop(page)
    expect(page.get_by_test_id("barred")).to_contain_text("Stop was called")
    page.keyboard.press("1")
    expect(page.get_by_test_id("refusal")).to_be_visible()
    # reading goes on, a mixed drill with soft cues alone
    choose(page, READ_DRILL)
    mark(page, "correct")
    choose(page, MIXED_DRILL)
    set_heat(page, 3)
    expect(page.get_by_test_id("loudness")).to_have_count(0)
    all_sent(page)
    assert [e["type"] for e in events(page, lesson)].count("stop_called") == 1
    page.goto(f"{salle.phone.url}/club")
    expect(page.get_by_test_id("club-stops")).to_contain_text("Calm on guard")


@pytest.mark.thorough
def test_a_stop_tapped_by_mistake_is_taken_back_in_one_tap(salle):
    page = salle.open()
    open_lesson(page, HEAT_DRILL)
    mark(page, "correct")
    stop(page)
    expect(page.get_by_test_id("barred")).to_be_visible()
    page.get_by_test_id("undo").click()
    expect(page.get_by_test_id("barred")).to_have_count(0)
    mark(page, "correct")


@pytest.mark.thorough
def test_a_stop_holds_for_the_day_in_another_lesson_too_and_the_lesson_says_so_at_its_end(salle):
    page = salle.open()
    lesson = open_lesson(page, HEAT_DRILL)
    mark(page, "correct")
    stop(page)
    expect(page.get_by_test_id("barred")).to_be_visible()
    all_sent(page)
    fencer = next(e["fencer"] for e in events(page, lesson) if "fencer" in e)
    end_lesson(page)
    expect(page.get_by_test_id("after-stop")).to_contain_text("one rung lower")
    page.goto(salle.phone.url)
    page.get_by_test_id(f"start-{fencer}").first.click()
    choose(page, READ_DRILL)
    page.get_by_test_id("drill-pick").click()
    listed = page.get_by_test_id(f"drill-{HEAT_DRILL}")
    expect(listed.get_by_test_id("stopped-today")).to_be_visible()
    read = page.get_by_test_id(f"drill-{READ_DRILL}")
    expect(read.get_by_test_id("stopped-today")).to_have_count(0)
    choose(page, HEAT_DRILL)
    expect(page.get_by_test_id("barred")).to_contain_text("Stop was called")
    page.reload()
    expect(page.get_by_test_id("barred")).to_contain_text("Stop was called")


def fencer_called(salle, page, name):
    """A fencer's id, by the server."""
    cookie = cookie_of(page)
    fencers = call(salle.server, cookie, "/api/fencers")["fencers"]
    return next(one for one in fencers if one["nickname"] == name)["id"]


def test_voice_and_stamps_wait_for_consent_and_withdrawing_it_asks_once(salle):
    page = salle.open()
    wim = fencer_called(salle, page, "Wim")
    page.get_by_test_id("find-fencer").fill("Wim")
    page.get_by_test_id(f"start-{wim}").click()
    choose(page, HEAT_DRILL)
    expect(page.get_by_test_id("barred")).to_have_count(0)
    set_heat(page, 3)
    expect(page.get_by_test_id("barred")).to_contain_text("no consent")
    page.get_by_role("link", name="Note the consent").click()
    for field in ("noise_self", "noise_guardian"):
        page.locator(f"input[name={field}]").fill("2026-09-01")
    page.get_by_test_id("save-fencer").click()
    expect(page.get_by_role("heading", name="Fencers")).to_be_visible()
    page.goto(salle.phone.url)
    page.get_by_test_id(f"go-on-{wim}").first.click()
    expect(page.get_by_test_id("pad")).to_be_visible()
    expect(page.get_by_test_id("barred")).to_have_count(0)
    page.goto(f"{salle.phone.url}/fencers/{wim}/edit")
    page.locator("input[name=noise_self]").fill("")
    page.get_by_test_id("save-fencer").click()
    expect(page.get_by_test_id("withdraws")).to_be_visible()
    page.get_by_test_id("save-fencer").click()
    expect(page.get_by_role("heading", name="Fencers")).to_be_visible()
    all_sent(page)


@pytest.mark.thorough
def test_a_start_without_consent_to_records_asks_first(salle):
    page = salle.open()
    card = page.locator(".card").first
    fencer = card.get_attribute("data-testid").removeprefix("lesson-")
    page.goto(f"{salle.phone.url}/fencers/{fencer}/edit")
    page.locator("input[name=consent]").fill("")
    page.get_by_test_id("save-fencer").click()
    page.get_by_test_id("save-fencer").click()
    expect(page.get_by_test_id(f"row-{fencer}")).to_contain_text("no consent")
    page.goto(salle.phone.url)
    page.get_by_test_id(f"start-{fencer}").first.click()
    expect(page.get_by_role("dialog", name="No consent is noted")).to_be_visible()
    page.get_by_test_id("consent-given").click()
    expect(page.get_by_test_id("strip")).to_be_visible()
    page.goto(f"{salle.phone.url}/fencers")
    expect(page.get_by_test_id(f"row-{fencer}")).not_to_contain_text("no consent")
