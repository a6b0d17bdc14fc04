"""The setting of a lesson: told in three taps at most, remembered, never before the first mark."""

import pytest
from playwright.sync_api import expect

from tests.browser.evening import offline, online
from tests.browser.phone import page_until
from tests.browser.strip import end_lesson, events, lesson_of, mark, open_lesson

pytestmark = pytest.mark.browser


def told(page, lesson=None):
    """What is told of a lesson's setting, oldest first."""
    kept = [e for e in events(page, lesson) if e["type"] == "setting_told"]
    return [
        {name: e[name] for name in ("hand", "where", "state")}
        for e in sorted(kept, key=lambda e: e["n"])
    ]


def add_place(page, name):
    page.get_by_test_id("new-place").fill(name)
    page.get_by_test_id("add-place").click()
    expect(page.get_by_role("button", name=name, pressed=True)).to_be_visible()


def close(page):
    page.get_by_role("dialog").get_by_role("button", name="Close").click()
    expect(page.locator("dialog")).to_have_count(0)


@pytest.mark.thorough
def test_nothing_is_asked_and_nothing_told_until_a_coach_tells_it(salle):
    page = salle.open()
    open_lesson(page)
    mark(page, "correct")
    assert told(page) == []


def test_a_place_typed_once_is_told_of_every_lesson_from_then_on_without_a_network_too(salle):
    page = salle.open()
    expect(page.get_by_test_id("where")).to_contain_text("not told yet")
    page.get_by_test_id("where").click()
    add_place(page, "School gym")
    page.get_by_test_id("state-fresh").click()
    close(page)
    expect(page.get_by_test_id("where")).to_contain_text("with Ilse Brandt, School gym, fresh")
    offline(page, salle)
    lesson = open_lesson(page)
    mark(page, "correct", 2)
    expected = [{"hand": None, "where": "School gym", "state": "fresh"}]
    page_until(page, lambda: told(page) == expected, "the setting told")
    end_lesson(page)
    online(page, salle)
    page.goto(f"{salle.phone.url}/after/{lesson}")
    expect(page.get_by_test_id("where")).to_contain_text("School gym, fresh")
    places = page.evaluate("fetch('/api/club').then((reply) => reply.json())")["places"]
    assert "School gym" in places


@pytest.mark.thorough
def test_in_a_lesson_three_taps_change_it_and_the_last_one_told_counts(salle):
    page = salle.open()
    open_lesson(page)
    mark(page, "correct")
    for n, (tap, expected) in enumerate(
        (
            ("giver-hand-left", {"hand": "left", "where": None, "state": None}),
            ("state-bouting", {"hand": "left", "where": None, "state": "bouting"}),
        ),
        start=1,
    ):
        page.get_by_test_id("more").click()
        page.get_by_test_id("where").click()
        page.get_by_test_id(tap).click()
        expect(page.get_by_test_id(tap)).to_have_attribute("aria-pressed", "true")
        page_until(page, lambda n=n: len(told(page)) == n, "the setting told")
        assert told(page)[-1] == expected
        for _ in range(page.locator("dialog").count()):
            page.keyboard.press("Escape")
        expect(page.locator("dialog")).to_have_count(0)
    mark(page, "correct")
    # the next lesson begins with what was told last
    end_lesson(page)
    page.get_by_test_id("to-today").click()
    open_lesson(page, number=1)
    page_until(page, lambda: len(told(page, lesson_of(page))) == 1, "the setting told")
    assert told(page)[0] == {"hand": "left", "where": None, "state": "bouting"}


@pytest.mark.thorough
def test_half_a_place_typed_stands_there_again_until_it_is_added(salle):
    page = salle.open()
    page.get_by_test_id("where").click()
    page.get_by_test_id("new-place").fill("School g")
    close(page)
    page.reload()
    page.get_by_test_id("where").click()
    expect(page.get_by_test_id("new-place")).to_have_value("School g")
    add_place(page, "School gym")
    expect(page.get_by_test_id("new-place")).to_have_value("")
