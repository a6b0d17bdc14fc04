"""The bout sheet: tapped without a network, kept, sent, and told in the fencer's story."""

import pytest
from playwright.sync_api import expect

from tests.browser.evening import offline, online
from tests.browser.hands import told_today
from tests.browser.strip import all_sent, end_lesson, mark, open_lesson

pytestmark = pytest.mark.browser

COUNTS = ("met", "answered", "shown", "fallen", "scored", "conceded")


def bouts(page):
    """Every event of today's bouts on the phone, oldest first."""
    return told_today(page, "bout_watched", "bout_voided")


def counts(event):
    return tuple(event[name] for name in COUNTS)


def tap(page, **taps):
    """Tap each so often; what is shown grows with each tap."""
    for name, times in taps.items():
        button = page.get_by_test_id(f"tap-{name}")
        for _ in range(times):
            before = int(button.locator("b").inner_text())
            button.click()
            expect(button.locator("b")).to_have_text(str(before + 1))


def sheet(page, fencer=None):
    """Open the sheet from Today, for a fencer or the first of the list; the fencer's id."""
    page.get_by_test_id("to-bout").click()
    of = page.locator("[data-testid^=bout-of-]")
    button = of.first if fencer is None else page.get_by_test_id(f"bout-of-{fencer}")
    expect(button).to_be_visible()
    found = button.get_attribute("data-testid").removeprefix("bout-of-")
    button.click()
    expect(page.get_by_test_id("tap-answered")).to_be_visible()
    return found


def keep(page):
    page.get_by_test_id("bout-keep").click()
    expect(page.get_by_test_id("bout-counts")).to_contain_text("The bout is kept.")


def test_a_bout_watched_offline_is_sent_and_told_beside_the_lessons(salle):
    page = salle.open()
    lesson = open_lesson(page)
    mark(page, "correct", 10)
    mark(page, "late", 2)
    end_lesson(page)
    all_sent(page)
    drill, fencer = page.evaluate(
        """async (lesson) => {
          const reply = await (await fetch(`/api/lessons/${lesson}/after`)).json();
          return [reply.drills[0].drill.id, reply.fencer];
        }""",
        lesson,
    )
    page.get_by_test_id("to-today").click()
    offline(page, salle)
    sheet(page, fencer)
    page.get_by_test_id("bout-drill").select_option(drill)
    tap(page, answered=5, missed=7, left=3, fallen=2, scored=2, conceded=1)
    keep(page)
    assert [counts(event) for event in bouts(page)] == [(12, 5, 5, 2, 2, 1)]
    expect(page.get_by_test_id("kept-bout")).to_have_count(1)
    online(page, salle)
    page.goto(f"{salle.phone.url}/fencers/{fencer}")
    told = page.get_by_test_id(f"bouts-{drill}")
    expect(told).to_contain_text("in bouts 5 of 12")
    expect(told).to_contain_text("In lessons")
    expect(told).to_contain_text("Fell for 2 of 5 feints.")
    made = page.evaluate(
        """(fencer) => fetch(`/api/fencers/${fencer}/links`, {
          method: "POST", headers: {"X-Cue-Ladder": "1", "Content-Type": "application/json"},
          body: "{}",
        }).then((reply) => reply.json())""",
        fencer,
    )
    page.goto(salle.phone.url + made["path"] if "path" in made else made["url"])
    expect(page.locator("body")).to_contain_text("in bouts 5 of 12")


@pytest.mark.thorough
def test_a_tap_is_taken_back_and_the_page_left_in_mid_bout_loses_none(salle):
    page = salle.open()
    fencer = sheet(page)
    tap(page, answered=2, missed=1)
    page.get_by_test_id("bout-undo").click()
    expect(page.get_by_test_id("tap-missed").locator("b")).to_have_text("0")
    page.reload()
    expect(page.get_by_test_id("tap-answered").locator("b")).to_have_text("2")
    # and by a link to somebody else's sheet it is not lost either
    page.goto(f"{salle.phone.url}/bout")
    page.wait_for_url(f"**/bout/{fencer}")
    keep(page)
    assert [counts(event) for event in bouts(page)] == [(2, 2, 0, 0, 0, 0)]


@pytest.mark.parametrize("store", ["database", "copy"])
def test_a_killed_browser_loses_no_tap_that_was_shown_from_either_store_alone(salle, store):
    page = salle.open()
    sheet(page)
    tap(page, answered=3, fallen=1)
    if store == "copy":
        page.evaluate(
            """() => new Promise((done) => {
              const opened = indexedDB.open("cue-ladder");
              opened.onsuccess = () => {
                const tx = opened.result.transaction("meta", "readwrite");
                tx.objectStore("meta").delete("bout");
                tx.oncomplete = () => { opened.result.close(); done(); };
              };
            })"""
        )
        page.reload()
    else:
        page.evaluate("localStorage.removeItem('cue-ladder-bout')")
        salle.phone.kill()
        page = salle.open("/bout")
    expect(page.get_by_test_id("tap-answered").locator("b")).to_have_text("3")
    expect(page.get_by_test_id("tap-fallen").locator("b")).to_have_text("1")


@pytest.mark.thorough
def test_a_kept_bout_is_corrected_and_another_taken_back(salle):
    page = salle.open()
    fencer = sheet(page)
    # the last of the list, for which the season watched no bout
    drill = page.get_by_test_id("bout-drill").locator("option").last.get_attribute("value")
    page.get_by_test_id("bout-drill").select_option(drill)
    tap(page, answered=1)
    keep(page)
    page.get_by_role("button", name="Correct it:").click()
    expect(page.get_by_test_id("tap-answered").locator("b")).to_have_text("1")
    tap(page, answered=1, conceded=1)
    keep(page)
    expect(page.get_by_test_id("kept-bout")).to_contain_text("answered 2 of 2")
    tap(page, missed=1)
    keep(page)
    expect(page.get_by_test_id("kept-bout")).to_have_count(2)
    page.get_by_role("button", name="Take back the bout").first.click()
    expect(page.get_by_test_id("kept-bout")).to_have_count(1)
    all_sent(page)
    first, second, third, back = bouts(page)
    assert second["lesson"] == first["id"] and back["lesson"] == third["id"]
    story = page.evaluate(
        "(id) => fetch(`/api/fencers/${id}/story`).then((reply) => reply.json())", fencer
    )
    (told,) = [row for row in story["bouts"] if row["drill"]["id"] == drill]
    assert (told["bouts"], told["answered"], told["conceded"]) == (1, 2, 1)
