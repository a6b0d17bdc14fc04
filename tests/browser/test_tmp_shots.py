import pytest
from playwright.sync_api import expect
from tests.browser.phone import DESK, PHONE
pytestmark = pytest.mark.browser
def test_shots(salle):
    page = salle.open()
    errors=[]
    page.on("console", lambda m: errors.append(m.text) if m.type in("error","warning") else None)
    page.get_by_test_id("plan-evenings").wait_for()
    page.screenshot(path="/tmp/ev/today.png")
    page.get_by_test_id("plan-evenings").click()
    expect(page.get_by_test_id("evening")).to_be_visible()
    page.screenshot(path="/tmp/ev/p0.png")
    page.locator("[data-testid^=day-]").nth(1).click()
    page.screenshot(path="/tmp/ev/p1.png", full_page=True)
    for i in (2,4,5):
        page.locator("[data-testid^=add-]").nth(i).click()
        page.wait_for_timeout(400)
    f = page.locator("[data-testid^=minutes-]").nth(0)
    f.fill("45"); f.press("Enter")
    page.locator("[data-testid^=remove-]").nth(1).click()
    page.wait_for_timeout(400)
    f = page.locator("[data-testid^=minutes-]").nth(0)
    for name, size in (("phone", PHONE), ("desk", DESK)):
        page.set_viewport_size(size)
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            page.wait_for_timeout(150)
            page.screenshot(path=f"/tmp/ev/{name}-{scheme}.png", full_page=name=="phone" and scheme=="light")
    page.set_viewport_size(PHONE)
    page.emulate_media(color_scheme="light")
    page.goto(salle.phone.url)
    page.locator("[data-testid^=fencer-] button").nth(2).click()
    page.wait_for_timeout(1500)
    page.screenshot(path="/tmp/ev/sheet.png")
    if page.get_by_test_id("suggested").count():
        page.get_by_test_id("suggested").locator("summary").click()
        page.screenshot(path="/tmp/ev/sheet2.png")
    page.goto(salle.phone.url)
    page.locator("[data-testid^=change-]").first.click()
    g=page.get_by_test_id("grip-0"); g.scroll_into_view_if_needed(); b=g.bounding_box()
    c=page.get_by_test_id("grip-1").bounding_box()
    page.mouse.move(b["x"]+20,b["y"]+20); page.mouse.down(); page.mouse.move(c["x"]+20,c["y"]+20, steps=3)
    page.screenshot(path="/tmp/ev/drag.png")
    page.mouse.up()
    page.screenshot(path="/tmp/ev/drag2.png")
    print(errors)
