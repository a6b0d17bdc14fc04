"""A finger on the marks: lifted, slipped off, held."""

import pytest
from playwright.sync_api import expect

from tests.browser.strip import events, last_shown, mark, open_lesson, standing_marks

pytestmark = pytest.mark.browser


def press(page, kind, hold=0, slip=False):
    """A finger down on a mark and up again: after a while, or after it has slipped off."""
    box = page.get_by_test_id(f"mark-{kind}").bounding_box()
    page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    page.mouse.down()
    page.wait_for_timeout(hold)
    if slip:
        page.mouse.move(5, 5)
    page.mouse.up()


def test_a_finger_that_slips_off_writes_nothing_and_one_that_holds_writes_once(salle):
    page = salle.open()
    lesson = open_lesson(page)
    mark(page, "correct")
    press(page, "late", slip=True)
    mark(page, "early")
    shown = last_shown(page)
    press(page, "correct", hold=700)
    expect(page.get_by_test_id("last-mark")).not_to_have_attribute("data-last", shown)
    press(page, "late", slip=True)
    mark(page, "correct")
    found = [(one["mark"], one["tense"]) for one in standing_marks(page)]
    assert found == [("correct", False), ("early", False), ("correct", True), ("correct", False)]
    numbers = sorted(event["n"] for event in events(page, lesson))
    assert numbers == list(range(numbers[0], numbers[0] + len(numbers)))
