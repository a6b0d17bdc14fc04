"""A finger on the marks: lifted, slipped off, pressed firmly, bouncing."""

import pytest
from playwright.sync_api import expect

from tests.browser.phone import LATE, frames, page_until
from tests.browser.strip import (
    HEAT_DRILL,
    MIXED_DRILL,
    READ_DRILL,
    another_last,
    events,
    give,
    last_shown,
    mark,
    open_lesson,
    standing_marks,
)

pytestmark = pytest.mark.browser


def press(page, kind, hold=0, slip=False):
    """A finger down on a mark and up again, held for so many ms, or slipped off."""
    box = page.get_by_test_id(f"mark-{kind}").bounding_box()
    page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    page.mouse.down()
    page.wait_for_timeout(hold)
    if slip:
        page.mouse.move(5, 5)
    page.mouse.up()


def found(page):
    return [(one["mark"], one["tense"]) for one in standing_marks(page)]


def test_a_finger_that_slips_off_writes_nothing(salle):
    page = salle.open()
    lesson = open_lesson(page)
    mark(page, "correct")
    press(page, "late", slip=True)
    mark(page, "early")
    assert found(page) == [("correct", False), ("early", False)]
    numbers = sorted(event["n"] for event in events(page, lesson))
    assert numbers == list(range(numbers[0], numbers[0] + len(numbers)))


def test_a_firm_press_is_a_plain_mark_and_tense_has_a_place_of_its_own(salle):
    page = salle.open()
    open_lesson(page, HEAT_DRILL)
    before = last_shown(page)
    press(page, "correct", hold=900)
    another_last(page, before)
    mark(page, "tense")
    expect(page.get_by_test_id("last-mark")).to_contain_text("tense")
    assert found(page) == [("correct", False), ("correct", True)]
    page.get_by_test_id("more").click()
    page.get_by_test_id("more-marks").click()
    expect(page.get_by_test_id("undo-0")).to_contain_text("tense")


def test_a_drill_without_heat_has_no_tense(salle):
    page = salle.open()
    open_lesson(page, READ_DRILL)
    expect(page.get_by_test_id("mark-tense")).to_have_count(0)
    page.keyboard.press("t")
    expect(page.get_by_test_id("refusal")).to_contain_text("not in this drill")
    assert found(page) == []


def bouncing(page):
    """As a coach's phone is set: a second touch within 300 ms is none."""
    page.evaluate("localStorage.removeItem('cue-ladder-settings')")
    page.context.add_init_script("localStorage.setItem('cue-ladder-settings', '{}')")
    page.reload()
    expect(page.get_by_test_id("mark-correct")).to_be_visible()


TAPS = """(taps) => {
  const next = () => {
    const [kind, later] = taps.shift();
    document.querySelector(`[data-testid=${kind}]`).click();
    if (taps.length > 0) return new Promise((done) => setTimeout(done, later)).then(next);
  };
  return next();
}"""


def test_a_second_touch_right_after_the_first_is_no_cue(salle):
    page = salle.open()
    open_lesson(page)
    bouncing(page)
    taps = [
        ("mark-correct", 40),
        ("mark-correct", 400),
        ("mark-late", 150),
        ("mark-correct", 400),
        ("mark-early", 400),
        ("mark-late", 0),
    ]
    page.evaluate(TAPS, taps)
    frames(page)
    assert [kind for kind, _ in found(page)] == ["correct", "late", "early", "late"]


def test_what_is_said_of_the_next_cue_while_a_mark_is_being_kept_is_not_forgotten(salle):
    page = salle.phone.start_blank()
    page.add_init_script(f"({LATE})(300)")
    page.goto(salle.phone.url)
    lesson = open_lesson(page, MIXED_DRILL)
    switch = page.get_by_test_id("give")
    turned = {"attack": "decoy", "decoy": "attack"}
    said = [switch.get_attribute("data-given")]
    for number in range(6):
        before = last_shown(page)
        page.get_by_test_id("mark-correct").click()
        said.append(turned[switch.get_attribute("data-given")])
        page.get_by_test_id("given").click()
        another_last(page, before)
        assert switch.get_attribute("data-given") == said[-1], f"cue {number + 2}"
    kept = [one["given"] for one in events(page, lesson) if one["type"] == "cue_marked"]
    assert kept == said[:-1]


def test_undo_takes_back_the_last_mark_in_one_tap_and_a_bounce_no_second_one(salle):
    page = salle.open()
    open_lesson(page)
    mark(page, "correct")
    mark(page, "late")
    bouncing(page)
    page.evaluate(TAPS, [("undo", 60), ("undo", 0)])
    expect(page.get_by_test_id("last-mark")).to_contain_text("Correct")
    frames(page)
    assert found(page) == [("correct", False)]
    # the marks stand where they stood: nothing has opened over them
    expect(page.locator("dialog")).to_have_count(0)


def test_a_mark_of_the_other_kind_of_cue_moves_nothing_and_says_why(salle):
    page = salle.open()
    open_lesson(page, MIXED_DRILL)
    for given, kind, other in (("attack", "decoy", "leave"), ("decoy", "late", "answer")):
        give(page, given)
        before = found(page)
        page.get_by_test_id(f"mark-{kind}").click(force=True)
        expect(page.get_by_test_id("refusal")).to_contain_text(f"a cue to {other}")
        assert found(page) == before
        expect(page.get_by_test_id("give")).to_have_attribute("data-given", given)
        # once the cue is said to be the other kind, nothing stands before the marks and undo
        page.get_by_test_id("given").click()
        expect(page.get_by_test_id("refusal")).to_have_count(0)
        mark(page, kind)
        expect(page.get_by_test_id("refusal")).to_have_count(0)
        page_until(page, lambda: len(found(page)) == len(before) + 1)  # noqa: B023


def test_one_tap_from_the_cue_says_what_a_cue_is_worth(salle):
    page = salle.open()
    open_lesson(page, READ_DRILL, number=1)
    page.get_by_test_id("cue-open").click()
    expect(page.get_by_test_id("rule-here")).to_contain_text("a slip costs")
