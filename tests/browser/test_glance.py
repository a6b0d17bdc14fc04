"""The strip in one glance: at arm's length, whole, in every drill and at twice the text size."""

import pytest
from playwright.sync_api import expect

from cueladder.language import LANGUAGES
from tests.browser.phone import PHONE, frames
from tests.browser.strip import (
    MIXED_DRILL,
    READ_DRILL,
    READY,
    choose,
    open_lesson,
    strip_stands,
)

pytestmark = [pytest.mark.browser, pytest.mark.thorough]

# What stands on the strip, by size, and what is cut.
GLANCE = """() => {
  const cue = document.querySelector(".cue");
  const size = (one) => parseFloat(getComputedStyle(one).fontSize);
  const small = (selector, least) => [...document.querySelectorAll(selector)]
    .filter((one) => one.getClientRects().length > 0 && one.textContent.trim() !== "")
    .filter((one) => size(one) < least)
    .map((one) => `${selector} ${size(one)}: ${one.textContent}`);
  // at the first touch the caution and the way to begin take some of the cue's room
  const rest = document.querySelector(".begin, .safety") ? 17 : 20;
  const pad = document.querySelector("[data-testid=pad]").getBoundingClientRect();
  return {
    small: [
      ...small(".gives, .grade dd:not(.was), .why", rest),
      ...small(".count", 20),
      ...small(".grade[data-changed=true] dd:not(.was), .given", 28),
    ],
    cut: cue.scrollHeight > cue.clientHeight + 1 || cue.scrollWidth > cue.clientWidth + 1,
    wide: document.documentElement.scrollWidth > innerWidth,
    high: document.documentElement.scrollHeight > innerHeight + 1,
    seen: pad.bottom <= innerHeight + 1 && pad.top > cue.getBoundingClientRect().top,
  };
}"""
# the phone's own text setting, and the browser's zoom upright and across
SIZES = (((360, 740), "32px"), ((180, 370), "16px"), ((740, 360), "16px"))
WHOLE = {"cut": False, "wide": False, "high": False, "seen": True}


def glance(page):
    """What is seen once nothing moves any more: parts that come late make the cue fit anew."""
    found, before = page.evaluate(GLANCE), None
    while found != before:
        frames(page)
        found, before = page.evaluate(GLANCE), found
    return found


def drills(page):
    page.get_by_test_id("drill-pick").click()
    found = page.locator("dialog [data-testid^=drill-]")
    expect(found.nth(20)).to_be_attached()
    names = [one.get_attribute("data-testid").removeprefix("drill-") for one in found.all()]
    page.keyboard.press("Escape")
    return list(dict.fromkeys(names))


def loudest(page):
    """To the top rung of the heat ladder, given loud, where the drill has both."""
    page.get_by_test_id("cue-open").click()
    page.get_by_test_id("cue-rung").click()
    expect(page.get_by_test_id("rung-save")).to_be_visible()
    rungs = page.locator("input[name=heat]")
    if rungs.count() == 0:
        page.keyboard.press("Escape")
        expect(page.get_by_test_id("rung-save")).to_be_hidden()
        return
    rungs.last.check()
    page.get_by_test_id("rung-save").click()
    loud = page.get_by_test_id("loudness")
    if loud.count() > 0 and page.get_by_test_id("give").get_attribute("data-loud") == "false":
        loud.click()


def test_at_arms_length_every_drill_shows_what_to_give_large_and_whole(salle):
    page = salle.open()
    open_lesson(page)
    names = drills(page)
    assert len(names) > 20
    for slug in names:
        choose(page, slug)
        for reach in (lambda _: None, loudest):
            reach(page)
            found = glance(page)
            assert found == {"small": [], **WHOLE}, (slug, reach)


def test_at_twice_the_text_size_cue_and_marks_stand_in_one_view_in_every_language(salle):
    page = salle.open()
    wrong = []
    for language in LANGUAGES:
        page.goto(salle.phone.url + "/settings")
        page.get_by_test_id(f"language-{language}").click()
        expect(page.locator("html")).to_have_attribute("lang", language)
        page.goto(salle.phone.url)
        page.locator("[data-testid^=start-], [data-testid^=go-on-]").first.click()
        strip_stands(page)
        for slug in (READ_DRILL, MIXED_DRILL):
            take(page, slug)
            for size, root in SIZES:
                page.set_viewport_size(dict(zip(("width", "height"), size, strict=True)))
                page.evaluate("(size) => { document.documentElement.style.fontSize = size; }", root)
                found = glance(page)
                if {**found, "small": []} != {"small": [], **WHOLE}:
                    wrong.append((language, slug, size, root, found))
            page.set_viewport_size(PHONE)
            page.evaluate("() => { document.documentElement.style.fontSize = ''; }")
    assert wrong == []


def test_a_notice_takes_its_room_from_the_cue_and_not_from_the_marks(salle):
    page = salle.open()
    open_lesson(page, READ_DRILL)
    page.goto(salle.phone.url)
    open_lesson(page, MIXED_DRILL, number=1)
    expect(page.get_by_test_id("notice")).to_contain_text("has ended")
    assert {**glance(page), "small": []} == {"small": [], **WHOLE}


def take(page, slug):
    """Choose a drill whatever the language of the strip."""
    agree = page.get_by_test_id("care-agree")
    if agree.count() > 0:
        agree.click()
        expect(agree).to_be_hidden()
    if page.locator("dialog").count() == 0:
        page.get_by_test_id("drill-pick").click()
    choice = page.get_by_test_id(f"drill-{slug}")
    expect(choice).to_be_attached()
    if not choice.is_visible():
        page.get_by_test_id("all-drills").locator("summary").click()
    choice.click()
    expect(page.locator(READY).or_(agree).first).to_be_visible()
    if agree.count() > 0:
        agree.click()
    expect(page.locator("dialog")).to_have_count(0)
