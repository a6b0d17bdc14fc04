"""The screens of company in a lesson by the axe rules: corrections, two in turn, watching."""

import pytest
from playwright.sync_api import expect

from seed_demo.club import PASSPHRASE
from tests.browser.pair import see
from tests.browser.strip import READ_DRILL, all_sent, in_turn, mark, open_lesson, sign_in
from tests.browser.test_access import Inspector

pytestmark = [pytest.mark.browser, pytest.mark.thorough]


def test_no_screen_of_company_breaks_a_rule_of_axe(salle):
    page = salle.open()
    inspector = Inspector(page)
    lesson = open_lesson(page, READ_DRILL, number=1)
    mark(page, "correct", 2)
    page.goto(f"{salle.phone.url}/after/{lesson}")
    look_at_company(salle, page, inspector.look)
    assert len(inspector.seen) == 8
    assert not inspector.found, "\n".join(inspector.found)


def look_at_company(salle, page, look):
    """A correction, two fencers in turn, the picture for a second phone, and what that shows."""
    page.get_by_test_id(f"cues-{READ_DRILL}").locator("summary").click()
    look("after, every cue")
    page.get_by_test_id(f"cue-{READ_DRILL}-1").click()
    page.get_by_test_id("was-late").click()
    expect(page.get_by_test_id("weighed")).not_to_have_text("Opening…")
    look("correcting a cue")
    page.goto(page.url.replace("/after/", "/strip/"))
    expect(page.get_by_test_id("pad")).to_be_visible()
    in_turn(page, READ_DRILL)
    expect(page.get_by_test_id("turns")).to_be_visible()
    look("strip, two in turn")
    page.get_by_test_id("more").click()
    page.get_by_test_id("let-watch").click()
    expect(page.get_by_test_id("picture")).to_be_visible()
    look("the lesson's picture")
    page.keyboard.press("Escape")
    page.keyboard.press("Escape")
    expect(page.get_by_test_id("cue-number")).to_be_visible()
    look("strip, with the number of the cue")
    another_watches(salle, page, look)


def another_watches(salle, page, look):
    """The page of a second person, on this phone after another coach has signed in."""
    lesson = page.url.rsplit("/", 1)[1]
    mark(page, "correct")
    all_sent(page)
    fencer = page.get_by_test_id("turns").locator("[aria-pressed=true]").inner_text()
    page.goto(salle.phone.url + "/settings")
    page.get_by_test_id("sign-out").click()
    expect(page.get_by_test_id("sign-out")).to_have_count(0)
    page.goto(salle.phone.url)
    sign_in(page, salle.other, PASSPHRASE)
    expect(page.get_by_test_id("watchable")).to_contain_text(fencer.split()[-1])
    look("today, with lessons to watch")
    page.goto(f"{salle.phone.url}/strip/{lesson}")
    expect(page.get_by_test_id("not-here")).to_be_visible()
    look("another coach's lesson")
    page.goto(f"{salle.phone.url}/watch/{lesson}")
    expect(page.get_by_test_id("watch")).to_be_visible()
    see(page, "late")
    look("watching")
