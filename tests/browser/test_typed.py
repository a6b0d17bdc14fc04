"""What was typed is kept, whichever way the field is left, and stands at the next start."""

from datetime import date, timedelta

import pytest
from playwright.sync_api import expect

from tests.browser.phone import page_until
from tests.browser.server import call, cookie_of
from tests.browser.strip import all_sent, events, mark, open_lesson

pytestmark = pytest.mark.browser
NOTE = "Eyes stayed open to the end."


def notes(page, lesson):
    return [event["text"] for event in events(page, lesson) if event["type"] == "note_written"]


def typed(page):
    """A lesson in which a note is typed and nothing is pressed to save it."""
    lesson = open_lesson(page)
    mark(page, "correct")
    page.get_by_test_id("more").click()
    page.get_by_test_id("note").fill(NOTE)
    return lesson


LEAVING = {
    "the sheet is closed": lambda page: page.keyboard.press("Escape"),
    "the lesson is ended": lambda page: (
        page.get_by_test_id("more-finish").click(),
        page.get_by_test_id("end-lesson").click(),
    ),
    "the phone's own way back": lambda page: page.go_back(),
    "the page is loaded again": lambda page: page.reload(),
    "another page is opened": lambda page: page.goto(page.url.split("/strip/")[0] + "/fencers"),
}


@pytest.mark.thorough
@pytest.mark.parametrize("leave", LEAVING.values(), ids=LEAVING)
def test_a_note_is_kept_once_however_its_field_is_left(salle, leave):
    page = salle.open()
    lesson = typed(page)
    leave(page)
    page_until(page, lambda: notes(page, lesson) == [NOTE], "the note")
    page.reload()
    all_sent(page)
    assert notes(page, lesson) == [NOTE]


def test_a_note_typed_as_the_browser_is_killed_is_there_again(salle):
    page = salle.open()
    lesson = typed(page)
    salle.phone.kill()
    page = salle.phone.start(f"/after/{lesson}")
    page_until(page, lambda: notes(page, lesson) == [NOTE], "the note")
    expect(page.get_by_text(NOTE)).to_be_visible()


@pytest.mark.thorough
def test_the_last_lesson_s_note_stands_at_the_next_start_and_in_the_story(salle):
    page = salle.open()
    card = page.locator(".card").first
    fencer = card.get_attribute("data-testid").removeprefix("lesson-")
    lesson = typed(page)
    LEAVING["the lesson is ended"](page)
    expect(page.get_by_test_id("after")).to_be_visible()
    all_sent(page)
    assert notes(page, lesson) == [NOTE]
    page.goto(f"{salle.phone.url}/fencers/{fencer}")
    expect(page.get_by_test_id("notes-story")).to_contain_text(NOTE)
    # a week later the same fencer is booked again
    later = date.today() + timedelta(days=7)
    cookie = cookie_of(page)
    body = {"day": later.isoformat(), "fencer": fencer, "at": "17:20"}
    call(salle.server, cookie, "/api/bookings", body)
    told = call(salle.server, cookie, f"/api/club?day={later}")["notes"]
    assert {"fencer": fencer, "texts": [NOTE]}.items() <= next(
        one for one in told if one["fencer"] == fencer
    ).items()


TYPED_AND_GONE = """(text) => {
  const field = document.querySelector("[data-testid=note]");
  // nothing more reaches the database: the page is gone before it has taken the last stroke
  const never = () => ({ addEventListener() {}, removeEventListener() {} });
  IDBObjectStore.prototype.put = IDBObjectStore.prototype.add = never;
  Object.defineProperty(document, "visibilityState", { get: () => "visible" });
  field.value = text;
  field.dispatchEvent(new Event("input", { bubbles: true }));
}"""


@pytest.mark.thorough
def test_a_note_that_the_database_had_no_time_to_take_is_there_after_the_reload(salle):
    page = salle.open()
    lesson = open_lesson(page)
    mark(page, "correct")
    page.get_by_test_id("more").click()
    page.get_by_test_id("note").wait_for()
    page.evaluate(TYPED_AND_GONE, NOTE)
    page.reload()
    page_until(page, lambda: notes(page, lesson) == [NOTE], "the note")
