"""The strip by the ruler: targets big enough for a thumb, and very large text that still fits."""

import pytest
from playwright.sync_api import expect

from tests.browser.phone import frames
from tests.browser.strip import MIXED_DRILL, READ_DRILL, choose, mark, open_lesson

pytestmark = [pytest.mark.browser, pytest.mark.thorough]
MARKS = ["mark-decoy", "mark-early", "mark-late", "mark-correct"]
ONE_KIND = ["wait", "undo", *MARKS]
BOTH = [*ONE_KIND, "given", "mark-tense"]
THUMB, FINGER = 64, 44

# Words drawn outside the box they belong to, cut by it, or broken in the middle.
WORDS = """() => {
  const bad = [];
  const strip = document.querySelector("main.strip");
  const walk = document.createTreeWalker(strip, NodeFilter.SHOW_TEXT);
  const wide = document.documentElement.clientWidth;
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const holder = node.parentElement;
    // the drill's name ends in an ellipsis; it is whole on the sheet behind the cue
    if (holder.closest(".unseen, .bar h1") || holder.getClientRects().length === 0) continue;
    for (const { 0: word, index } of node.textContent.matchAll(/[^\\s-]+/g)) {
      const range = document.createRange();
      range.setStart(node, index);
      range.setEnd(node, index + word.length);
      const rects = [...range.getClientRects()].filter((one) => one.width > 0);
      const box = range.getBoundingClientRect();
      const target = holder.closest("button, a, .grade, .count, .move") ?? strip;
      const around = target.getBoundingClientRect();
      if (new Set(rects.map((one) => Math.round(one.top))).size > 1) bad.push(`${word}: broken`);
      if (box.left < -1 || box.right > wide + 1) bad.push(`${word}: off the screen`);
      if (box.left < around.left - 1 || box.right > around.right + 1
        || box.top < around.top - 3 || box.bottom > around.bottom + 3) {
        bad.push(`${word}: outside of its box`);
      }
    }
  }
  return bad;
}"""

# Pairs of things to read or press that lie over one another, the page at rest.
OVERLAPS = """() => {
  const parts = [...document.querySelectorAll(
    "main.strip :is(button:not(.cue-open), .cue-open > span, a, .move, .grade, .why, .count)")]
    .filter((one) => one.getClientRects().length > 0 && !one.matches(".unseen"));
  const bad = [];
  for (const a of parts) for (const b of parts) {
    if (a === b || a.contains(b) || b.contains(a)) continue;
    const [p, q] = [a.getBoundingClientRect(), b.getBoundingClientRect()];
    const x = Math.min(p.right, q.right) - Math.max(p.left, q.left);
    const y = Math.min(p.bottom, q.bottom) - Math.max(p.top, q.top);
    if (x > 1.5 && y > 1.5) bad.push([a, b].map((one) => one.textContent.trim()).join(" / "));
  }
  return bad;
}"""

REACHED = """(element) => {
  element.scrollIntoView({ block: "center" });
  const box = element.getBoundingClientRect();
  const at = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
  // the whole cue opens its sheet
  const there = at !== null && (element.contains(at) || at.matches(".cue-open"));
  return there && box.left >= 0
    && box.right <= document.documentElement.clientWidth;
}"""


@pytest.fixture
def strip(salle):
    """The page with a lesson on the strip."""
    page = salle.open()
    open_lesson(page, MIXED_DRILL, number=1)
    return page


def resize(page, size):
    page.set_viewport_size(dict(zip(("width", "height"), size, strict=True)))


def test_all_that_is_tapped_between_actions_is_64_pixels_both_ways_and_in_view(strip):
    lesson = strip.url
    for hand in ("right", "left"):
        strip.goto(lesson.split("/strip/")[0] + "/settings")
        strip.get_by_test_id(f"hand-{hand}").click()
        strip.goto(lesson)
        for drill, targets in ((MIXED_DRILL, BOTH), (READ_DRILL, ONE_KIND)):
            choose(strip, drill)
            mark(strip, "correct")
            mark(strip, "late")
            for size in ((320, 640), (360, 740)):
                resize(strip, size)
                frames(strip)
                big_enough_and_in_view(strip, size, targets, (hand, drill, size))


def big_enough_and_in_view(page, size, targets, where):
    page.evaluate("scrollTo(0, 0)")
    for name in targets:
        box = page.get_by_test_id(name).bounding_box()
        assert box["width"] >= THUMB, (where, name, box)
        assert box["height"] >= THUMB, (where, name, box)
        assert box["x"] >= 0, (where, name, box)
        assert box["x"] + box["width"] <= size[0], (where, name, box)
        assert box["y"] + box["height"] <= size[1], (where, name, box)
    # what is tapped between drills, not between actions
    for name in ("sync", "more"):
        box = page.get_by_test_id(name).bounding_box()
        assert min(box["width"], box["height"]) >= FINGER, (where, name, box)
    assert page.locator(".bar h1").bounding_box()["height"] >= FINGER, where


def test_the_way_back_stands_level_with_the_fencer_and_the_drill(strip):
    for drill in (READ_DRILL, MIXED_DRILL):
        choose(strip, drill)
        stands_level(strip, drill)


def stands_level(page, drill):
    def middle(selector):
        box = page.locator(selector).bounding_box()
        return box["y"] + box["height"] / 2

    arrow = middle(".bar a svg")
    title = page.evaluate(
        """() => {
          const boxes = [...document.querySelectorAll(".bar h1 > span, .drill-pick > span")]
            .filter((one) => !one.matches(".unseen")).map((one) => one.getBoundingClientRect());
          const [top, end] = [boxes.map((b) => b.top), boxes.map((b) => b.bottom)];
          return (Math.min(...top) + Math.max(...end)) / 2;
        }"""
    )
    assert abs(arrow - title) <= 1.5, drill
    assert abs(arrow - middle("[data-testid=more]")) <= 1.5, drill


def test_text_at_twice_its_size_keeps_the_cue_and_all_marks_whole_and_in_reach(strip):
    """Text size is the root's; a browser's zoom of 200 % leaves a page of half the pixels."""
    larger = "(size) => { document.documentElement.style.fontSize = size; }"
    for drill in (READ_DRILL, MIXED_DRILL):
        resize(strip, (360, 740))
        strip.evaluate(larger, "")
        choose(strip, drill)
        mark(strip, "correct")
        for size, root in (((360, 740), "32px"), ((180, 370), "16px"), ((320, 640), "32px")):
            resize(strip, size)
            strip.evaluate(larger, root)
            frames(strip)
            whole_and_in_reach(strip, size, (drill, size, root))


def whole_and_in_reach(page, size, where):
    expect(page.get_by_test_id("mark-correct")).to_be_enabled()
    assert page.evaluate("document.documentElement.scrollWidth") <= size[0], where
    assert page.evaluate(WORDS) == [], where
    assert page.evaluate(OVERLAPS) == [], where
    for name in MARKS:
        if page.get_by_test_id(name).is_enabled():
            assert page.get_by_test_id(name).evaluate(REACHED), (where, name)
    for grade in page.locator(".grade").all():
        assert grade.evaluate(REACHED), (where, grade)
