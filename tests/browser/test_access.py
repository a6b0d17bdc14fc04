"""Every screen by the axe rules, light and dark, on a phone and on a desk."""

from pathlib import Path

import pytest
from playwright.sync_api import expect

from seed_demo.club import COACHES, PASSPHRASE
from tests.browser.phone import DESK, PHONE, frames
from tests.browser.strip import (
    HEAT_DRILL,
    MIXED_DRILL,
    READ_DRILL,
    choose,
    mark,
    open_lesson,
    strip_stands,
)

pytestmark = [pytest.mark.browser, pytest.mark.thorough]
AXE = Path(__file__).parents[2] / "frontend" / "node_modules" / "axe-core" / "axe.min.js"


class Inspector:
    """Runs axe on what is on the screen, in both colour schemes, and collects what it finds."""

    def __init__(self, page):
        self.page, self.found, self.seen = page, [], []

    def look(self, screen):
        """Look at what is on the screen: at the size of a desk and of a phone, light and dark."""
        self.seen.append(screen)
        if not self.page.evaluate("'axe' in globalThis"):
            # by the debugger, so the page's own policy against foreign scripts stays on
            self.page.evaluate(AXE.read_text() + ";undefined")
        for size in (DESK, PHONE):
            self.page.set_viewport_size(size)
            for scheme in ("dark", "light"):
                self.page.emulate_media(color_scheme=scheme)
                frames(self.page, 2)
                # only colours depend on the scheme: the other rules need no second look
                rules = {"runOnly": ["color-contrast"]} if scheme == "dark" else {}
                self._run(rules, f"{screen}, {size['width']} px, {scheme}")

    def _run(self, rules, where):
        asked = {"resultTypes": ["violations"], "preload": False, **rules}
        result = self.page.evaluate("(asked) => axe.run(document, asked)", asked)
        assert result["testEngine"]["name"] == "axe-core"
        for violation in result["violations"]:
            for node in violation["nodes"]:
                target = " ".join(map(str, node["target"]))
                self.found.append(f"{where}: {violation['id']} at {target}")


def test_in_sunlight_every_text_of_the_strip_stands_out_seven_to_one(salle):
    """WCAG 2.2, 1.4.6 (AAA), by the axe rule for it; also on a phone that is set to dark."""
    page = salle.open("/settings")
    page.emulate_media(color_scheme="dark")
    page.get_by_text("Sunlight", exact=True).click()
    expect(page.locator("html")).to_have_attribute("data-theme", "sunlight")
    page.get_by_role("link", name="Today").click()
    open_lesson(page, MIXED_DRILL)
    mark(page, "correct", 2)
    page.evaluate(AXE.read_text() + ";undefined")
    rule = "color-contrast-enhanced"
    asked = {"runOnly": [rule], "rules": {rule: {"enabled": True}}}
    told = page.evaluate("(asked) => axe.run(document, asked)", asked)
    assert len(told["passes"][0]["nodes"]) > 10
    assert [node["target"] for rule in told["violations"] for node in rule["nodes"]] == []


def look_at_setting_and_bout(page, url, look):
    page.goto(url)
    page.get_by_test_id("where").click()
    expect(page.get_by_test_id("state-fresh")).to_be_visible()
    look("setting")
    page.goto(f"{url}/bout")
    expect(page.locator("[data-testid^=bout-of-]").first).to_be_visible()
    look("whose bout")
    page.locator("[data-testid^=bout-of-]").first.click()
    page.get_by_test_id("tap-answered").click()
    expect(page.get_by_test_id("tap-answered").locator("b")).to_have_text("1")
    look("bout sheet")
    page.get_by_test_id("bout-keep").click()
    expect(page.get_by_test_id("kept-bout")).to_be_visible()
    look("bout kept")


def look_at_a_partners_card(page, url, look):
    page.goto(url + "/fencers")
    page.locator("[data-testid^=row-]").first.wait_for()
    row = page.locator("[data-testid^=row-]").first.get_attribute("data-testid")
    page.goto(f"{url}/fencers/{row.removeprefix('row-')}/card")
    expect(page.get_by_test_id("card-sheet")).to_be_visible()
    look("a partner's card")
    page.get_by_test_id("enter-card").click()
    page.get_by_test_id("tick-1").get_by_test_id("right").click()
    expect(page.get_by_test_id("tick-1")).to_have_attribute("data-tick", "1")
    look("ticks of a card")
    page.get_by_test_id("keep-set-by-partner").click()
    expect(page.get_by_test_id("kept-set").first).to_be_visible()
    look("a set kept")


def look_at_goals(page, look):
    """A goal set on the fencer's page, and the sheet of the season beside it."""
    page.get_by_test_id("to-goal").locator("summary").click()
    page.get_by_test_id("goal-drill").select_option(index=1)
    page.get_by_test_id("goal-set").click()
    page.locator("[data-testid^=goal-drop-]").first.click()
    look("a goal")
    page.goto(page.url.replace("/fencers/", "/api/fencers/") + "/season")
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    look("season page")


def test_no_screen_breaks_a_rule_of_axe(salle, season):
    page = salle.open()
    inspector = Inspector(page)
    look = inspector.look
    expect(page.get_by_role("button", name="Start:").first).to_be_visible()
    look("today")
    look_at_the_evenings(page, look)
    look_at_setting_and_bout(page, salle.phone.url, look)
    look_at_a_partners_card(page, salle.phone.url, look)

    page.goto(salle.phone.url + "/fencers")
    page.locator("details").first.locator("summary").click()
    look("fencers")
    look_at_the_roster(page, look)
    page.goto(salle.phone.url + "/drills")
    expect(page.get_by_test_id(f"open-{MIXED_DRILL}")).to_be_visible()
    look("drills")
    look_at_drill(page, salle.phone.url, look)
    page.goto(salle.phone.url + "/rules")
    page.get_by_test_id("rule-exact").locator("summary").first.click()
    expect(page.get_by_test_id("setting-usual")).to_be_visible()
    expect(page.get_by_test_id("odds")).to_be_visible()
    look("rules")
    page.goto(salle.phone.url + "/settings")
    expect(page.get_by_test_id("sending")).to_be_visible()
    look("settings")
    page.get_by_test_id("open-keys").click()
    page.get_by_test_id("press-late").click()
    page.keyboard.press("F5")
    expect(page.get_by_test_id("keys-told")).to_contain_text("F5 now does")
    look("keys and clicker")

    look_after_the_club(page, salle.phone.url, look)

    page.goto(salle.phone.url + "/club")
    expect(page.get_by_test_id("club-season")).to_be_visible()
    expect(page.get_by_test_id("competition-new")).to_be_visible()
    for fold in page.locator("details").all():
        fold.locator("summary").first.click()
    look("club")
    page.get_by_test_id("club-season").locator("tbody a").first.click()
    expect(page.get_by_test_id("comfort-story")).to_be_visible()
    look("a fencer's story")
    page.get_by_test_id("to-draw").locator("summary").click()
    for at in range(4):
        page.locator("[data-testid^=draw-of-]").nth(at).check()
    expect(page.get_by_test_id("draw-outlook")).to_contain_text("orders")
    page.get_by_test_id("draw").click()
    page.get_by_test_id("draw-yes").click()
    page.get_by_test_id("to-order").locator("summary").click()
    expect(page.get_by_test_id("draw-next")).to_be_visible()
    look("a plan by chance")
    look_at_goals(page, look)
    for name in ("", "first-lesson", "figures", "going-live"):
        page.goto(f"{salle.phone.url}/guide/{name}")
        expect(page.get_by_role("heading", level=1)).to_be_visible()
        look(f"guide {name}")

    page.goto(salle.phone.url)
    page.get_by_role("button", name="Start:").first.click()
    strip_stands(page)
    page.get_by_test_id("drill-pick").click()
    page.get_by_test_id(f"drill-{HEAT_DRILL}").click()
    expect(page.get_by_test_id("care-agree")).to_be_visible()
    look("before a heat drill")
    page.get_by_role("button", name="Not now").click()
    expect(page.get_by_role("dialog", name="Choose a drill")).to_be_visible()
    look("choosing a drill")
    choose(page, READ_DRILL)
    look("strip, reading")
    mark(page, "correct")
    mark(page, "late", 2)
    look("strip, after marks")
    page.get_by_test_id("undo").click()
    look("undo")
    page.keyboard.press("Escape")
    page.get_by_test_id("more").click()
    look("more")
    page.get_by_role("button", name="Set the rung by hand").click()
    expect(page.get_by_role("dialog")).to_be_visible()
    look("rung by hand")
    page.keyboard.press("Escape")
    page.get_by_test_id("more").click()
    page.get_by_test_id("more-set").click()
    row = page.get_by_role("dialog")
    for kind in ("correct", "late", "correct"):
        row.get_by_test_id(f"mark-{kind}").click()
    row.get_by_test_id("set-2").get_by_role("button").first.click()
    look("marks after a set")
    page.keyboard.press("Escape")
    choose(page, MIXED_DRILL)
    mark(page, "correct")
    look("strip, telling attack from decoy")
    page.goto(page.url.replace("/strip/", "/after/"))
    expect(page.get_by_test_id("after")).to_be_visible()
    look("after")

    page.goto(salle.phone.url + "/settings")
    page.get_by_test_id("sign-out").click()
    expect(page.get_by_test_id("sign-out")).to_have_count(0)
    page.goto(salle.phone.url)
    expect(page.get_by_label("Passphrase")).to_be_visible()
    look("sign in")
    for door in ("setup", "join", "reset", "pair"):
        page.goto(f"{salle.phone.url}/{door}")
        expect(page.get_by_role("heading", level=1)).to_be_visible()
        look(door)
    page.goto(f"{salle.phone.url}/join#AAAAA-BBBBB-CCCCC")
    page.get_by_label("Your name").fill("Odile")
    page.get_by_label("Passphrase").fill(PASSPHRASE)
    page.get_by_role("button", name="Join").click()
    expect(page.get_by_role("alert")).to_be_visible()
    look("a code that does not work")
    page.goto(f"{salle.phone.url}/p/{season[1].token}")
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    look("progress page")
    assert len(inspector.seen) >= 43
    assert not inspector.found, "\n".join(inspector.found)


def look_after_the_club(page, url, look):
    """The pages about people, devices and records, with what can be opened on them open."""
    page.goto(f"{url}/people")
    page.get_by_test_id("invite-make").click()
    expect(page.get_by_test_id("shown")).to_be_visible()
    page.get_by_test_id("invitations").locator("summary").click()
    page.get_by_test_id(f"person-{COACHES[1]['name']}").locator("summary").click()
    page.get_by_test_id("leave").first.click()
    look("people")
    page.goto(f"{url}/passphrase")
    page.get_by_label("The passphrase you have now").fill("not this one")
    page.get_by_label("New passphrase").fill(PASSPHRASE)
    page.get_by_role("button", name="Change it").click()
    expect(page.get_by_role("alert")).to_be_visible()
    look("passphrase")
    page.goto(f"{url}/devices")
    page.get_by_test_id("pair-make").click()
    expect(page.get_by_test_id("shown")).to_be_visible()
    page.get_by_test_id("this-device").locator("summary").click()
    look("devices")
    page.goto(f"{url}/records")
    page.get_by_label("Erase after a time").click()
    page.get_by_test_id("retention-look").click()
    expect(page.get_by_test_id("retention-due")).to_be_visible()
    look("records of the club")
    page.goto(f"{url}/fencers")
    page.locator("a[data-testid^=story-]").first.click()
    page.get_by_test_id("to-record").click()
    page.get_by_test_id("erase-open").click()
    page.get_by_test_id("progress-link").locator("summary").click()
    look("records of a fencer")
    page.context.set_offline(True)
    page.goto(f"{url}/people")
    expect(page.get_by_test_id("no-answer")).to_be_visible()
    look("people, without a network")
    page.context.set_offline(False)


def look_at_the_evenings(page, look):
    page.get_by_test_id("plan-evenings").click()
    expect(page.get_by_test_id("evening").locator("li").first).to_be_visible()
    look("an evening")
    page.locator("[data-testid^=day-]").nth(2).click()
    expect(page.get_by_test_id("start-at")).to_be_visible()
    look("an empty evening")
    for name in ("Anouk", "Bela"):
        page.locator(".adds button").filter(has_text=name).click()
        expect(page.get_by_test_id("evening")).to_contain_text(name)
    minutes = page.locator("[data-testid^=minutes-]").first
    minutes.fill("1")
    minutes.press("Enter")
    page.locator("[data-testid^=remove-]").nth(1).click()
    expect(page.get_by_test_id("undo-remove")).to_be_visible()
    look("an evening, changed")


def look_at_the_roster(page, look):
    page.get_by_role("link", name="Edit: Anouk").click()
    page.get_by_test_id("history").locator("summary").click()
    look("a fencer's fields")
    page.goto(page.url.split("/fencers")[0] + "/fencers/new")
    page.get_by_test_id("save-fencer").click()
    look("a new fencer, with faults")
    page.goto(page.url.replace("/new", "/import"))
    table = page.get_by_test_id("table")
    for text in ("name,weapon,born\nKim,axe,12\n", "name,weapon\nKim,foil\nANOUK,foil\n"):
        table.fill(text)
        page.get_by_test_id("look").click()
        expect(page.get_by_test_id("look-told")).to_be_visible()
        look("an import, looked at")


def look_at_drill(page, url, look):
    """A drill's page, its editor with a fault and the odds, and who is in the middle of it."""
    page.get_by_test_id(f"open-{MIXED_DRILL}").click()
    expect(page.get_by_test_id("ladder-heat").locator("li").first).to_be_visible()
    look("a drill")
    worked = page.context.request.get(f"{url}/api/standings?after=0").json()["standings"][0]
    page.goto(f"{url}/drills/{worked['drill']}/change")
    expect(page.get_by_test_id("draft-state")).to_have_attribute("data-wrong", "0")
    page.locator("[data-testid^=rung-drop-]").nth(1).click()
    missing = page.locator("[data-testid^=before-]").first
    expect(missing).to_be_visible()
    page.get_by_test_id("rule-exact").locator("summary").first.click()
    page.get_by_test_id("family-run").click()
    expect(page.get_by_test_id("odds-warning")).to_be_visible()
    page.get_by_test_id("what-if-fencer").select_option(worked["fencer"])
    page.get_by_test_id("what-if-go").click()
    expect(page.get_by_test_id("what-if-told")).to_be_visible()
    page.get_by_test_id("save-drill").click()
    expect(page.get_by_test_id("draft-state")).to_contain_text("Not saved")
    look("writing a drill")
    missing.click()
    expect(page.get_by_test_id("draft-state")).to_have_attribute("data-wrong", "0")
    page.get_by_test_id("save-drill").click()
    expect(page.get_by_test_id("midway")).to_be_visible()
    look("who is in the middle of a drill")
