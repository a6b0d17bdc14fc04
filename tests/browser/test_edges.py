"""A phone's edges: what its rounded corners and its keyboard leave free."""

import pytest
from playwright.sync_api import expect

from tests.browser.strip import open_lesson

pytestmark = [pytest.mark.browser, pytest.mark.thorough]
NOTCH = {"top": 47, "bottom": 34, "left": 20, "right": 20}
KEYBOARD = 300


def notched(page):
    """Give the screen a notch and a bar, as an iPhone's home-screen app has them."""
    tools = page.context.new_cdp_session(page)
    tools.send("Emulation.setSafeAreaInsetsOverride", {"insets": NOTCH})


OUTSIDE = """({ top, bottom, left, right }) =>
  [...document.querySelectorAll("a, button, input, textarea, h1, h2")].filter((one) => {
    const box = one.getBoundingClientRect();
    if (box.width < 2 || one.closest(".unseen")) return false;
    const beside = box.left < left || box.right > innerWidth - right;
    return beside || (box.bottom > 0 && box.top < top && scrollY === 0);
  }).map((one) => one.outerHTML.slice(0, 120))"""


@pytest.mark.parametrize("path", ["/", "/fencers", "/settings"])
def test_nothing_to_read_or_press_lies_under_a_notch(salle, path):
    page = salle.open(path)
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    notched(page)
    assert page.evaluate(OUTSIDE, NOTCH) == []
    bar = page.locator("nav.places a").first.bounding_box()
    assert bar["y"] + bar["height"] <= 740 - NOTCH["bottom"]


def test_on_the_strip_the_marks_stand_within_the_safe_area_and_nothing_scrolls(salle):
    page = salle.open()
    open_lesson(page)
    notched(page)
    assert page.evaluate(OUTSIDE, NOTCH) == []
    for kind in ("correct", "late", "early"):
        box = page.get_by_test_id(f"mark-{kind}").bounding_box()
        assert box["y"] + box["height"] <= 740 - NOTCH["bottom"]
    assert page.evaluate("document.documentElement.scrollHeight <= innerHeight")
    page.get_by_test_id("more").click()
    expect(page.get_by_role("dialog")).to_be_visible()
    in_sheet = OUTSIDE.replace("document.", "document.querySelector('dialog').")
    assert page.evaluate(in_sheet, NOTCH) == []


# A browser without hands has no keyboard: its own measure of what stays visible is put lower, and
# all else is real.
RAISE = """(height) => {
  const seen = innerHeight - height;
  Object.defineProperty(visualViewport, "height", { configurable: true, get: () => seen });
  visualViewport.dispatchEvent(new Event("resize"));
}"""


@pytest.mark.parametrize("where", ["sheet", "page"])
def test_the_keyboard_is_never_over_the_field_that_is_typed_into(salle, where):
    if where == "sheet":
        page = salle.open()
        open_lesson(page)
        page.get_by_test_id("more").click()
        field = page.get_by_test_id("note")
    else:
        page = salle.open("/fencers/new")
        field = page.locator("textarea[name=note]")
    field.focus()
    low = "(one) => one.getBoundingClientRect().bottom"
    assert field.evaluate(low) > 740 - KEYBOARD, "it would be under it"
    page.evaluate(RAISE, KEYBOARD)
    assert field.evaluate(low) <= 740 - KEYBOARD
    page.evaluate(RAISE, 0)
    assert page.evaluate("document.documentElement.style.getPropertyValue('--keyboard')") == "0px"
