"""The strip by the ruler: targets big enough for a thumb, and very large text that still fits."""

import pytest
from playwright.sync_api import expect

from tests.browser.strip import MIXED_DRILL, READ_DRILL, choose, mark, open_lesson

pytestmark = pytest.mark.browser
MARKS = ["mark-decoy", "mark-early", "mark-late", "mark-correct"]
ONE_KIND = ["wait", "undo", *MARKS]
BOTH = [*ONE_KIND, "given-attack", "given-decoy", "given-soft", "given-loud"]
THUMB, FINGER = 64, 44

# Words drawn outside the box they belong to, cut by it, or broken in the middle.
WORDS = """() => {
  const bad = [];
  const strip = document.querySelector("main.strip");
  const walk = document.createTreeWalker(strip, NodeFilter.SHOW_TEXT);
  const wide = document.documentElement.clientWidth;
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const holder = node.parentElement;
    if (holder.closest(".unseen") || holder.getClientRects().length === 0) continue;
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
    "main.strip :is(button, a, summary, .move, .grade, .why, .count)")]
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
  return at !== null && element.contains(at) && box.left >= 0
    && box.right <= document.documentElement.clientWidth;
}"""


def on_the_strip(salle, hand, size):
    page = salle.phone.start_blank()
    page.set_viewport_size(dict(zip(("width", "height"), size, strict=True)))
    page.goto(salle.phone.url + "/settings")
    page.get_by_test_id(f"hand-{hand}").click()
    page.goto(salle.phone.url)
    open_lesson(page, MIXED_DRILL, number=1)
    return page


@pytest.mark.parametrize("size", [(360, 740), (320, 640)], ids=["360x740", "320x640"])
@pytest.mark.parametrize("hand", ["right", "left"])
def test_all_that_is_tapped_between_actions_is_64_pixels_both_ways_and_in_view(salle, hand, size):
    page = on_the_strip(salle, hand, size)
    for drill, targets in ((MIXED_DRILL, BOTH), (READ_DRILL, ONE_KIND)):
        choose(page, drill)
        mark(page, "correct")
        mark(page, "late")
        page.evaluate("scrollTo(0, 0)")
        reach = page.locator(".reach").bounding_box()
        for name in targets:
            box = page.get_by_test_id(name).bounding_box()
            assert box["width"] >= THUMB, (drill, name, box)
            assert box["height"] >= THUMB, (drill, name, box)
            assert box["x"] >= 0, (drill, name, box)
            assert box["x"] + box["width"] <= size[0], (drill, name, box)
            assert box["y"] + box["height"] <= size[1], (drill, name, box)
        wait = page.get_by_test_id("wait").bounding_box()
        assert wait["y"] + wait["height"] <= reach["y"] + 1, (drill, wait, reach)
        # what is tapped between drills, not between actions
        for name in ("sync", "more"):
            box = page.get_by_test_id(name).bounding_box()
            assert min(box["width"], box["height"]) >= FINGER, (name, box)
        assert page.locator(".bar h1").bounding_box()["height"] >= FINGER


@pytest.mark.parametrize("drill", [READ_DRILL, MIXED_DRILL])
def test_the_way_back_stands_level_with_the_fencer_and_the_drill(salle, drill):
    page = on_the_strip(salle, "right", (360, 740))
    choose(page, drill)

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
    assert abs(arrow - title) <= 1.5
    assert abs(arrow - middle("[data-testid=more]")) <= 1.5


@pytest.mark.parametrize("drill", [READ_DRILL, MIXED_DRILL])
@pytest.mark.parametrize(
    ("size", "root"),
    [((360, 740), "32px"), ((180, 370), "16px"), ((320, 640), "32px")],
    ids=["text-at-200", "zoom-at-200", "small-text-at-200"],
)
def test_text_at_twice_its_size_keeps_the_cue_and_all_marks_whole_and_in_reach(
    salle, drill, size, root
):
    """Text size is the root's; a browser's zoom of 200 % leaves a page of half the pixels."""
    page = on_the_strip(salle, "right", (360, 740))
    choose(page, drill)
    mark(page, "correct")
    page.set_viewport_size(dict(zip(("width", "height"), size, strict=True)))
    page.evaluate("(size) => { document.documentElement.style.fontSize = size; }", root)
    page.wait_for_timeout(200)
    expect(page.get_by_test_id("mark-correct")).to_be_enabled()
    assert page.evaluate("document.documentElement.scrollWidth") <= size[0]
    assert page.evaluate(WORDS) == []
    assert page.evaluate(OVERLAPS) == []
    for name in MARKS:
        if page.get_by_test_id(name).is_enabled():
            assert page.get_by_test_id(name).evaluate(REACHED), name
    for grade in page.locator(".grade").all():
        assert grade.evaluate(REACHED), grade
