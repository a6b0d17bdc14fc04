"""What a browser can do to a phone's storage, and what the coach still has afterwards."""

import shutil

import pytest
from playwright.sync_api import expect

from tests.browser.evening import held, wait_until_fetched
from tests.browser.phone import page_until
from tests.browser.strip import (
    all_sent,
    events,
    last_shown,
    lesson_of,
    mark,
    open_lesson,
    standing_marks,
    tap,
)

pytestmark = pytest.mark.browser

NEWER_LAYOUT = """() => new Promise((done, failed) => {
  const asked = indexedDB.open("cue-ladder", 99);
  asked.onsuccess = () => { asked.result.close(); done("open"); };
  asked.onerror = () => failed(asked.error);
})"""

# Chromium lets small writes through even with its quota set to one byte, so a full phone cannot be
# provoked for real: these two stand in for the browser's own refusals, in the page only.
FULL_DATABASE = """() => {
  IDBObjectStore.prototype.put = () => {
    throw new DOMException("no room", "QuotaExceededError");
  };
}"""

FULL_JOURNAL = """() => {
  Worker.prototype.postMessage = () => {
    throw new DOMException("no room", "QuotaExceededError");
  };
}"""


def ids(entries):
    return {entry["id"] for entry in entries}


def notice(page, text):
    return page.get_by_test_id("notice").filter(has_text=text)


def journal_text(page):
    """What the journal files hold, read past the app."""
    return page.evaluate(
        """async () => {
          const root = await navigator.storage.getDirectory();
          const folder = await root.getDirectoryHandle("journal");
          let text = "";
          for await (const file of folder.values()) text += await (await file.getFile()).text();
          return text;
        }"""
    )


def empty_database(phone):
    """Take the whole IndexedDB away while the browser is dead, as browsers have done themselves."""
    for folder in phone.profile.glob("*/IndexedDB"):
        shutil.rmtree(folder)


def marks_of(page, lesson):
    return [e for e in events(page, lesson) if e["type"] == "cue_marked"]


def marked(page, lesson, number):
    page_until(page, lambda: len(marks_of(page, lesson)) == number, f"mark {number}")


def test_two_tabs_on_one_lesson_lose_no_mark_and_the_server_gets_each_once(salle):
    first = salle.open()
    lesson = open_lesson(first)
    second = first.context.new_page()
    second.goto(first.url)
    expect(second.get_by_test_id("mark-correct")).to_be_enabled()
    for number, page in enumerate((first, second, first, second), 1):
        page.get_by_test_id("mark-correct").click()
        marked(page, lesson, number)
    marks = marks_of(first, lesson)
    all_sent(first)
    first.reload()
    expect(first.get_by_test_id("mark-correct")).to_be_enabled()
    assert ids(standing_marks(first)) == ids(marks)
    answer = first.context.request.post(
        f"{salle.server.url}/api/events",
        headers={"X-Cue-Ladder": "1"},
        data={"events": events(first, lesson)},
    )
    assert {result["status"] for result in answer.json()["results"]} == {"already"}


def test_a_full_phone_never_shows_a_mark_it_could_not_write(salle):
    page = salle.open()
    lesson = open_lesson(page)
    mark(page, "correct", 2)
    page.context.set_offline(True)
    shown, cue = last_shown(page), page.get_by_test_id("cue").inner_text()
    page.evaluate(FULL_DATABASE)
    page.evaluate(FULL_JOURNAL)
    page.get_by_test_id("mark-correct").click()
    expect(notice(page, "Not marked")).to_be_visible()
    assert (last_shown(page), page.get_by_test_id("cue").inner_text()) == (shown, cue)
    page.reload()
    expect(page.get_by_test_id("mark-correct")).to_be_enabled()
    assert last_shown(page) == shown
    mark(page, "correct")
    assert len(standing_marks(page)) == 3
    assert lesson_of(page) == lesson


def test_a_full_database_alone_keeps_the_mark_in_the_journal_and_says_so(salle):
    page = salle.open()
    lesson = open_lesson(page)
    mark(page, "correct")
    page.context.set_offline(True)
    page.evaluate(FULL_DATABASE)
    shown = tap(page, "correct")
    expect(notice(page, "storage is full")).to_be_visible()
    assert shown not in ids(events(page, lesson))
    page.reload()
    expect(notice(page, "restored from the second copy")).to_be_visible()
    assert shown in ids(events(page, lesson))


def test_a_database_taken_away_in_mid_lesson_costs_no_mark(salle):
    page = salle.open()
    lesson = open_lesson(page)
    mark(page, "correct", 2)
    page.context.set_offline(True)
    shown = {last_shown(page)}
    # the browser closes the open handle for good, and the database behind it is gone
    tools = page.context.new_cdp_session(page)
    tools.send(
        "Storage.clearDataForOrigin", {"origin": salle.phone.url, "storageTypes": "indexeddb"}
    )
    shown |= {tap(page, "correct") for _ in range(3)}
    page.reload()
    expect(page.get_by_test_id("mark-correct")).to_be_enabled()
    expect(notice(page, "had emptied this phone's storage")).to_be_visible()
    assert shown <= ids(events(page, lesson))
    page.context.set_offline(False)
    page.reload()
    all_sent(page)


@pytest.mark.thorough
def test_a_tab_with_a_newer_layout_is_let_in_and_the_old_tab_keeps_its_marks_and_says_so(salle):
    page = salle.open()
    open_lesson(page)
    mark(page, "correct")
    page.context.set_offline(True)
    newer = page.context.new_page()
    newer.goto(f"{salle.phone.url}/icon.svg")
    assert newer.evaluate(NEWER_LAYOUT) == "open"
    expect(notice(page, "load this page again")).to_be_visible()
    shown = tap(page, "correct")
    expect(notice(page, "kept in one place only")).to_be_visible()
    assert shown in journal_text(page)


def test_an_emptied_database_is_restored_without_a_network_and_the_coach_is_told(salle):
    page = salle.open()
    lesson = open_lesson(page)
    page.context.set_offline(True)
    mark(page, "correct", 3)
    kept = ids(standing_marks(page))
    cue = page.get_by_test_id("cue").inner_text()
    salle.phone.kill()
    empty_database(salle.phone)
    salle.server.stop()
    page = salle.open(f"/strip/{lesson}")
    expect(page.get_by_test_id("mark-correct")).to_be_enabled()
    expect(notice(page, "had emptied this phone's storage")).to_be_visible()
    assert kept <= ids(standing_marks(page))
    assert page.get_by_test_id("cue").inner_text() == cue
    mark(page, "correct")
    salle.server.start()
    page.reload()
    all_sent(page)


def test_a_known_coach_with_an_emptied_phone_gets_everything_back_from_the_server(salle):
    page = salle.open()
    before = held(page)
    salle.phone.close()
    empty_database(salle.phone)
    page = salle.open()
    expect(page.get_by_role("heading", name="Today")).to_be_visible()
    expect(notice(page, "had emptied this phone's storage")).to_be_visible()
    assert wait_until_fetched(page) == before


@pytest.mark.thorough
def test_a_second_fetch_brings_nothing_twice(salle):
    page = salle.open()
    before = wait_until_fetched(page)
    for _ in range(2):
        with page.expect_response(lambda answer: "/api/events?" in answer.url) as pull:
            page.reload()
        assert pull.value.json()["events"] == []
        expect(page.get_by_role("heading", name="Today")).to_be_visible()
    assert held(page) == before


def test_a_setting_tapped_in_the_instant_before_the_page_is_left_is_kept(salle):
    page = salle.open("/settings")
    expect(page.get_by_text("Sunlight", exact=True)).to_be_visible()
    with page.expect_navigation():
        page.evaluate(
            """() => {
              document.querySelector("[data-testid=theme-sunlight]").click();
              location.reload();
            }"""
        )
    expect(page.locator("html")).to_have_attribute("data-theme", "sunlight")
    expect(page.get_by_test_id("theme-sunlight")).to_have_attribute("aria-pressed", "true")
