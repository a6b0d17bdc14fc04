"""A lesson by a clicker of two buttons, of one, and by a gamepad; and keys given other work."""

from contextlib import suppress

import pytest
from playwright.sync_api import Error, expect

from tests.browser.hands import NO_POINTER, marked, moved, pointed, stored_marks
from tests.browser.phone import frames, page_until
from tests.browser.strip import (
    MIXED_DRILL,
    READ_DRILL,
    all_sent,
    choose,
    give,
    lesson_of,
    open_lesson,
    standing_marks,
)

pytestmark = pytest.mark.browser
HELD, BETWEEN, APART = 600, 60, 400


class Clicker:
    """A thing with a few buttons, each of which sends one key."""

    def __init__(self, page):
        self.page = page

    def press(self, button, times=1, held=False):
        """Press a button so many times quickly, or hold it; then pause.

        How quickly is by the page's own clock, so that a slow machine presses no slower.
        """
        clock = self.page.clock
        # what listens for a key is put in place with a frame
        frames(self.page)
        stop(self.page)
        for _ in range(times):
            self.page.keyboard.down(button)
            clock.run_for(HELD if held else BETWEEN)
            self.page.keyboard.up(button)
            clock.run_for(BETWEEN)
        clock.run_for(APART)
        clock.resume()


def stop(page):
    """Let the page's clock stand still, a moment from now."""
    for margin in (0.05, 0.5, 5):
        now = page.evaluate("Date.now() / 1000")
        with suppress(Error):  # too slow: the moment is over
            return page.clock.pause_at(now + margin)
    raise AssertionError("the page's clock could not be stopped")


def set_up(page, buttons, *presses):
    """Set a clicker up from the strip, by pressing its buttons when asked."""
    page.get_by_test_id("more").click()
    page.get_by_test_id("more-keys").click()
    page.get_by_test_id(f"clicker-{buttons}").click()
    told = page.get_by_test_id("keys-told")
    for number, press in enumerate(presses, 1):
        expect(told).to_contain_text("Correct" if number == 1 else "Late")
        press()
    expect(told).to_contain_text("held Undo")
    page.keyboard.press("Escape")
    expect(page.get_by_role("dialog")).to_be_hidden()


@pytest.mark.thorough
def test_two_buttons_give_a_whole_lesson_once_it_is_started(salle):
    page = salle.phone.start_blank()
    page.clock.install()
    page.add_init_script(NO_POINTER)
    page.goto(salle.phone.url)
    expect(page.get_by_role("button", name="Start:").first).to_be_visible()
    open_lesson(page, READ_DRILL, number=1)
    # the caution of a heat drill is read and agreed to before the hands are full
    choose(page, MIXED_DRILL)
    choose(page, READ_DRILL)
    lesson = lesson_of(page)
    clicker = Clicker(page)
    forward, back = "PageDown", "PageUp"
    set_up(page, "two", lambda: clicker.press(forward), lambda: clicker.press(back))
    touched = pointed(page)

    for number in range(1, 21):
        clicker.press(forward)
        marked(page, number)
    moved(page, "climb")
    clicker.press(forward, 3)
    expect(page.get_by_test_id("wait")).to_have_attribute("data-ring", "running")
    expect(page.get_by_test_id("wait")).to_have_attribute("data-ring", "due")
    number = 20
    while page.get_by_test_id("cue").get_attribute("data-move") != "back":
        clicker.press(back)
        number += 1
        marked(page, number)
        assert number < 26
    clicker.press(back, 2)
    marked(page, number + 1)
    # nothing is tense in a drill that only reads
    clicker.press(forward, held=True)
    expect(page.get_by_test_id("refusal")).to_be_visible()
    clicker.press(back, 2)
    marked(page, number + 2)
    clicker.press(back, held=True)
    marked(page, number + 1)
    assert standing_marks(page)[-1]["mark"] == "early"

    # the planned parts one after another, then the end of the lesson
    drills = []
    while page.get_by_test_id("strip").is_visible():
        pick = page.get_by_test_id("drill-pick")
        before = pick.inner_text()
        clicker.press(forward, 4)
        after = page.get_by_test_id("after")
        expect(after.or_(pick.filter(has_not_text=before))).to_be_visible()
        if after.is_visible():
            break
        expect(page.get_by_test_id("mark-correct")).to_be_enabled()
        drills.append((before, pick.inner_text()))
        now = len(standing_marks(page))
        clicker.press(forward)
        marked(page, now + 1)
        assert len(drills) < 8
    expect(page.get_by_test_id("after")).to_be_visible()
    assert pointed(page) == touched, "the screen was touched"
    assert drills
    page.get_by_test_id("end-lesson").click()
    expect(page.get_by_test_id("to-today")).to_be_visible()
    all_sent(page)
    kept = stored_marks(salle, lesson)
    late = number - 20
    assert [one["mark"] for one in kept] == (
        ["correct"] * 20 + ["late"] * late + ["early"] + ["correct"] * len(drills)
    )
    assert not any(one["tense"] for one in kept)
    assert len({one["drill"] for one in kept}) > 1


def test_one_button_reaches_all_four_marks_and_undo(salle):
    page = salle.phone.start_blank()
    page.clock.install()
    page.goto(salle.phone.url)
    lesson = open_lesson(page, MIXED_DRILL, number=1)
    clicker = Clicker(page)
    set_up(page, "one", lambda: clicker.press("b"))
    for number, given in enumerate(("attack", "attack", "attack", "decoy"), 1):
        give(page, given)
        clicker.press("b", number)
        marked(page, number)
    clicker.press("b")
    marked(page, 5)
    clicker.press("b", held=True)
    marked(page, 4)
    all_sent(page)
    assert [one["mark"] for one in stored_marks(salle, lesson)] == [
        "correct",
        "late",
        "early",
        "decoy",
    ]


@pytest.mark.thorough
def test_a_key_is_given_other_work_by_pressing_it_and_never_does_two_things(salle):
    page = salle.open()
    open_lesson(page, READ_DRILL, number=1)
    page.get_by_test_id("more").click()
    page.get_by_test_id("more-keys").click()
    told = page.get_by_test_id("keys-told")
    for key, where, said in (
        ("F5", "early", "F5 now does: Early or big."),
        ("PageUp", "early", "Until now it did: Late."),
        ("Escape", "undo", "Escape now does: Undo the last mark."),
        ("1", "correct", "1 does that already: Correct."),
    ):
        page.get_by_test_id(f"press-{where}").click()
        expect(page.get_by_test_id(f"press-{where}")).to_have_text("Press it now …")
        page.keyboard.press(key)
        expect(told).to_contain_text(said)
    expect(page.get_by_test_id("keys-late").get_by_text("Page Up")).to_have_count(0)
    page.get_by_test_id("keys-late").get_by_role("button", name="Take 2 away").click()
    expect(page.get_by_test_id("keys-late")).to_contain_text("no key")
    # the keys are this phone's and outlive the page
    page.reload()
    expect(page.get_by_test_id("mark-correct")).to_be_visible()
    page.keyboard.press("F5")
    marked(page, 1)
    page.keyboard.press("PageUp")
    marked(page, 2)
    page.keyboard.press("Escape")
    marked(page, 1)
    page.keyboard.press("2")
    page.keyboard.press("F5")
    marked(page, 2)
    assert [one["mark"] for one in standing_marks(page)] == ["early"] * 2, "2 does nothing now"
    page.keyboard.press("Escape")
    marked(page, 1)
    page.get_by_test_id("more").click()
    page.get_by_test_id("more-keys").click()
    page.get_by_test_id("keys-preset").click()
    expect(told).to_contain_text("preset keys are back")
    page.keyboard.press("Escape")
    page.keyboard.press("2")
    marked(page, 2)
    assert standing_marks(page)[-1]["mark"] == "late"


@pytest.mark.thorough
def test_asking_for_a_key_ends_by_itself_when_none_is_pressed(salle):
    page = salle.phone.start_blank()
    page.clock.install()
    page.goto(salle.phone.url)
    open_lesson(page, READ_DRILL, number=1)
    page.get_by_test_id("more").click()
    page.get_by_test_id("more-keys").click()
    ask = page.get_by_test_id("press-wait")
    ask.click()
    expect(ask).to_have_text("Press it now …")
    page.clock.fast_forward(60_000)
    expect(page.get_by_test_id("keys-told")).to_contain_text("Nothing was pressed")
    expect(ask).to_have_text("Press a key")


PAD = """
globalThis.pad = {
  index: 0, connected: true, id: "pad", mapping: "standard", axes: [], timestamp: 0,
  buttons: Array.from({ length: 12 }, () => ({ pressed: false, touched: false, value: 0 })),
};
globalThis.asked = 0;
globalThis.plugged = false;
navigator.getGamepads = () => {
  globalThis.asked += 1;
  return [null, globalThis.plugged ? globalThis.pad : null];
};
"""


@pytest.mark.thorough
def test_a_gamepad_marks_and_is_asked_only_while_it_is_there(salle):
    """Headless Chromium has no gamepad and no way to plug one in: `navigator.getGamepads` is
    replaced in the page and the browser's event made by hand. All behind it is real."""
    page = salle.phone.start_blank()
    page.add_init_script(PAD)
    page.goto(salle.phone.url)
    open_lesson(page, READ_DRILL, number=1)
    before = page.evaluate("asked")
    frames(page, 20)
    assert page.evaluate("asked") == before, "asked with no gamepad there"

    def press(number, pressed):
        page.evaluate(f"pad.buttons[{number}].pressed = {pressed}")
        before = page.evaluate("asked")
        page_until(page, lambda: page.evaluate("asked") > before + 1, "a look at the pad")

    def button(number):
        press(number, "true")
        press(number, "false")

    page.evaluate("plugged = true; dispatchEvent(new Event('gamepadconnected'))")
    page.get_by_test_id("more").click()
    page.get_by_test_id("more-keys").click()
    for action, number in (("correct", 0), ("late", 1), ("undo", 4)):
        page.get_by_test_id(f"press-{action}").click()
        button(number)
        expect(page.get_by_test_id("keys-told")).to_contain_text(f"Pad {number + 1} now does")
    page.keyboard.press("Escape")
    button(0)
    marked(page, 1)
    button(1)
    marked(page, 2)
    button(4)
    marked(page, 1)
    button(7)
    button(1)
    marked(page, 2)
    assert [one["mark"] for one in standing_marks(page)] == ["correct", "late"]
    page.evaluate("plugged = false")
    frames(page)
    before = page.evaluate("asked")
    frames(page, 20)
    assert page.evaluate("asked") == before, "asked after it was taken away"
