"""A whole lesson by a keyboard, from Today to the end, and never a pointer."""

from itertools import pairwise

import pytest
from playwright.sync_api import expect

from seed_demo.club import COACHES, PASSPHRASE
from tests.browser.evening import Salle
from tests.browser.hands import NO_POINTER, marked, moved, pointed, stored_marks
from tests.browser.phone import Guest
from tests.browser.strip import (
    MIXED_DRILL,
    READ_DRILL,
    all_sent,
    choose,
    events,
    lesson_of,
    strip_stands,
)

pytestmark = pytest.mark.browser

FOCUS = """() => {
  const at = document.activeElement;
  const style = getComputedStyle(at);
  const box = at.getBoundingClientRect();
  const x = box.x + box.width / 2, y = box.y + box.height / 2;
  const top = document.elementFromPoint(x, y);
  return {
    id: at === document.body ? "body" : at.closest("[data-testid=safety]") ? "safety"
      : at.dataset.testid ?? at.getAttribute("href") ?? at.textContent.trim(),
    ringed: at.matches(":focus-visible") && parseFloat(style.outlineWidth) > 0,
    seen: box.width > 10 && box.height > 10 && top !== null
      && (at === top || at.contains(top) || top.contains(at)),
    place: [box.x, box.y, box.width, box.height],
  };
}"""


class Keyboard:
    """Hands on a keyboard; each stop of Tab must be seen and ringed."""

    def __init__(self, page):
        self.page, self.unseen = page, []

    def stop(self):
        """What has the focus; noted where a coach could not see it."""
        at = self.page.evaluate(FOCUS)
        # past the last stop the focus is the browser's own
        if at["id"] != "body" and not (at["ringed"] and at["seen"]):
            self.unseen.append(at)
        return at

    def reach(self, target, most=150):
        """Press Tab until the element has the focus."""
        expect(target).to_be_visible()
        for _ in range(most):
            if target.evaluate("(element) => element === document.activeElement"):
                return self
            self.page.keyboard.press("Tab")
            self.stop()
        raise AssertionError(f"{target} cannot be reached by Tab")

    def press(self, *keys):
        for key in keys:
            self.page.keyboard.press(key)

    def choose(self, slug):
        """Choose a drill, agreeing to the caution where it comes up."""
        strip_stands(self.page)
        choose(self.page, slug, lambda target: self.reach(target).press("Enter"))


@pytest.mark.thorough
def test_from_the_sign_in_a_lesson_is_given_with_a_keyboard_and_no_pointer_at_all(chrome, server):
    phone = Guest(chrome, server.url)
    page = phone.start_blank()
    page.add_init_script(NO_POINTER)
    page.goto(phone.url)
    keys = Keyboard(page)
    keys.reach(page.get_by_label("Name"))
    page.keyboard.type(COACHES[0]["name"])
    keys.press("Tab")
    page.keyboard.type(PASSPHRASE)
    keys.press("Enter")
    expect(page.get_by_role("heading", name="Today")).to_be_visible()
    keys.reach(page.get_by_role("button", name="Start:").nth(1)).press("Enter")
    expect(page.get_by_test_id("strip")).to_be_visible()
    keys.choose(READ_DRILL)
    lesson = lesson_of(page)

    for number in range(1, 21):
        keys.press("1")
        marked(page, number)
    moved(page, "climb")
    keys.press("w")
    expect(page.get_by_test_id("wait")).to_have_attribute("data-ring", "running")
    expect(page.get_by_test_id("wait")).to_have_attribute("data-ring", "due")
    for number in (21, 22, 23, 24):
        keys.press("2")
        marked(page, number)
        if page.get_by_test_id("cue").get_attribute("data-move") == "back":
            break
    moved(page, "back")
    late = number - 20
    keys.press("1")
    marked(page, number + 1)
    keys.press("u")
    marked(page, number)
    keys.reach(page.get_by_test_id("undo")).press("Enter")
    marked(page, number - 1)

    keys.choose(MIXED_DRILL)
    for key, given, mark in (("a", "attack", "1"), ("d", "decoy", "4"), ("a", "attack", "3")):
        keys.press(key, "s" if given == "attack" else "l")
        expect(page.get_by_test_id("give")).to_have_attribute("data-given", given)
        keys.press(mark)
        number += 1
        marked(page, number - 1)
    keys.reach(page.get_by_test_id("mark-correct")).press("Space")
    marked(page, number)

    keys.reach(page.get_by_test_id("more")).press("Enter")
    keys.reach(page.get_by_test_id("more-finish")).press("Enter")
    keys.reach(page.get_by_test_id("end-lesson")).press("Enter")
    expect(page.get_by_test_id("after")).to_be_visible()
    keys.reach(page.get_by_test_id("to-today")).press("Enter")
    expect(page.get_by_role("heading", name="Today")).to_be_visible()
    all_sent(page)
    assert events(page, lesson)[-1]["type"] == "lesson_closed"

    kept = stored_marks(Salle(server, phone), lesson)
    assert [one["mark"] for one in kept[:20]] == ["correct"] * 20
    assert [one["mark"] for one in kept[20:-4]] == ["late"] * (late - 1)
    assert kept[20]["wait"] is not None
    told = [(one["given"], one["loud"], one["mark"]) for one in kept[-4:-1]]
    assert told == [
        ("attack", None, "correct"),
        ("decoy", None, "decoy"),
        ("attack", None, "early"),
    ]
    assert kept[-1]["mark"] == "correct"
    assert pointed(page) == 0
    assert not keys.unseen
    phone.close()


def test_the_focus_goes_over_the_strip_from_top_to_bottom(salle):
    page = salle.open()
    keys = Keyboard(page)
    keys.reach(page.get_by_role("button", name="Start:").nth(1)).press("Enter")
    keys.choose(MIXED_DRILL)
    lesson = page.url
    for hand in ("right", "left"):
        page.goto(salle.phone.url + "/settings")
        page.get_by_test_id(f"hand-{hand}").click()
        page.goto(lesson)
        expect(page.get_by_test_id("mark-correct")).to_be_enabled()
        goes_from_top_to_bottom(page, keys)


def goes_from_top_to_bottom(page, keys):
    page.evaluate("document.activeElement.blur()")
    stops = []
    for _ in range(40):
        keys.press("Tab")
        if page.evaluate("document.activeElement === document.body"):
            break
        at = keys.stop()
        stops.append(at)
        if at["id"] == "mark-correct":
            break
    names = [one["id"] for one in stops]
    assert names == [
        "/",
        "drill-pick",
        "sync",
        "more",
        "given",
        "safety",
        "cue-open",
        "show-first",
        "stop",
        "wait",
        "mark-decoy",
        "mark-early",
        "mark-tense",
        "mark-late",
        "mark-correct",
    ]
    # within a row as the hand has it; row after row never upwards
    tops = [one["place"][1] for one in stops]
    assert all(below >= above - 20 for above, below in pairwise(tops))
    assert not keys.unseen
