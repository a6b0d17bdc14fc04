"""Every screen by the axe rules, light and dark, on a phone and on a desk; and the job by keys."""

from pathlib import Path

import pytest
from playwright.sync_api import expect

from seed_demo.club import COACHES, PASSPHRASE
from tests.browser.pair import see
from tests.browser.phone import DESK, PHONE
from tests.browser.strip import (
    all_sent,
    choose,
    drill_name,
    events,
    mark,
    on_drill,
    open_lesson,
    sign_in,
    standing_marks,
)

pytestmark = pytest.mark.browser
AXE = Path(__file__).parents[2] / "frontend" / "node_modules" / "axe-core" / "axe.min.js"
READ_DRILL, MIXED_DRILL = "distance-parry-late", "preparation-or-attack"


class Inspector:
    """Runs axe on what is on the screen, in both colour schemes, and collects what it finds."""

    def __init__(self, page):
        self.page, self.found, self.seen = page, [], []

    def look(self, screen):
        self.seen.append(screen)
        for scheme in ("light", "dark"):
            self.page.emulate_media(color_scheme=scheme)
            if not self.page.evaluate("'axe' in globalThis"):
                # by the debugger, so the page's own policy against foreign scripts stays on
                self.page.evaluate(AXE.read_text() + ";undefined")
            # only colours depend on the scheme: the other rules need no second look
            rules = {"runOnly": ["color-contrast"]} if scheme == "dark" else {}
            result = self.page.evaluate(
                "(rules) => axe.run(document, {resultTypes: ['violations'], ...rules})", rules
            )
            assert result["testEngine"]["name"] == "axe-core"
            for violation in result["violations"]:
                for node in violation["nodes"]:
                    where = " ".join(map(str, node["target"]))
                    self.found.append(f"{screen}, {scheme}: {violation['id']} at {where}")


@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
def test_no_screen_breaks_a_rule_of_axe(salle, season, size):
    page = salle.open()
    page.set_viewport_size(size)
    inspector = Inspector(page)
    look = inspector.look
    expect(page.get_by_role("button", name="Start:").first).to_be_visible()
    look("today")

    page.goto(salle.phone.url + "/fencers")
    page.locator("details").first.locator("summary").click()
    look("fencers")
    page.goto(salle.phone.url + "/drills")
    page.locator("details").first.locator("summary").click()
    look("drills")
    page.goto(salle.phone.url + "/settings")
    expect(page.get_by_test_id("sending")).to_be_visible()
    look("settings")

    page.goto(salle.phone.url)
    open_lesson(page, number=1)
    page.get_by_test_id("drill-pick").click()
    look("choosing a drill")
    page.keyboard.press("Escape")
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
    page.get_by_test_id("drill-pick").click()
    choice = page.get_by_test_id(f"drill-{MIXED_DRILL}")
    name = drill_name(choice)
    choice.click()
    expect(page.get_by_test_id("drill-pick")).to_contain_text(name)
    if page.get_by_test_id("care-agree").count() > 0:
        expect(page.get_by_test_id("care-agree")).to_be_visible()
        look("before a heat drill")
    on_drill(page, name)
    mark(page, "correct")
    look("strip, telling attack from decoy")
    page.goto(page.url.replace("/strip/", "/after/"))
    expect(page.get_by_test_id("after")).to_be_visible()
    look("after")
    look_at_company(salle, page, look)

    page.goto(salle.phone.url + "/settings")
    page.get_by_test_id("sign-out").click()
    expect(page.get_by_test_id("sign-out")).to_have_count(0)
    page.goto(salle.phone.url)
    expect(page.get_by_label("Passphrase")).to_be_visible()
    look("sign in")
    page.goto(f"{salle.phone.url}/p/{season[1].token}")
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    look("progress page")
    assert len(inspector.seen) >= 22
    assert not inspector.found, "\n".join(inspector.found)


def look_at_company(salle, page, look):
    """A correction, two fencers in turn, the picture for a second phone, and what that shows."""
    page.get_by_test_id(f"cues-{READ_DRILL}").locator("summary").click()
    look("after, every cue")
    page.get_by_test_id(f"cue-{READ_DRILL}-1").click()
    page.get_by_test_id("was-late").click()
    expect(page.get_by_test_id("weighed")).not_to_have_text("Opening…")
    look("correcting a cue")
    page.goto(salle.phone.url)
    open_lesson(page, READ_DRILL)
    expect(page.get_by_test_id("turns")).to_be_visible()
    look("strip, two in turn")
    page.get_by_test_id("more").click()
    page.get_by_test_id("let-watch").click()
    expect(page.get_by_test_id("picture")).to_be_visible()
    look("the lesson's picture")
    page.keyboard.press("Escape")
    page.keyboard.press("Escape")
    expect(page.get_by_test_id("cue-number")).to_be_visible()
    look("strip, with the number of the cue")
    another_watches(salle, page, look)


def another_watches(salle, page, look):
    """The page of a second person, on this phone after another coach has signed in."""
    lesson = page.url.rsplit("/", 1)[1]
    mark(page, "correct")
    all_sent(page)
    fencer = page.get_by_test_id("turns").locator("[aria-pressed=true]").inner_text()
    page.goto(salle.phone.url + "/settings")
    page.get_by_test_id("sign-out").click()
    expect(page.get_by_test_id("sign-out")).to_have_count(0)
    page.goto(salle.phone.url)
    sign_in(page, salle.other, PASSPHRASE)
    expect(page.get_by_test_id("watchable")).to_contain_text(fencer.split()[-1])
    look("today, with lessons to watch")
    page.goto(f"{salle.phone.url}/strip/{lesson}")
    expect(page.get_by_test_id("not-here")).to_be_visible()
    look("another coach's lesson")
    page.goto(f"{salle.phone.url}/watch/{lesson}")
    expect(page.get_by_test_id("watch")).to_be_visible()
    see(page, "late")
    look("watching")


class Keys:
    """Hands on a keyboard, no mouse."""

    def __init__(self, page):
        self.page = page

    def reach(self, target, most=120):
        """Press Tab until the element has the focus."""
        expect(target).to_be_visible()
        for _ in range(most):
            if target.evaluate("(element) => element === document.activeElement"):
                return self
            self.page.keyboard.press("Tab")
        raise AssertionError(f"{target} cannot be reached by Tab")

    def press(self, *keys):
        for key in keys:
            self.page.keyboard.press(key)


def test_the_whole_job_is_done_by_keys_alone(phone):
    page = phone.start()
    keys = Keys(page)
    keys.reach(page.get_by_label("Name"))
    page.keyboard.type(COACHES[0]["name"])
    keys.press("Tab")
    page.keyboard.type(PASSPHRASE)
    keys.press("Enter")
    expect(page.get_by_role("heading", name="Today")).to_be_visible()
    keys.reach(page.get_by_role("button", name="Start:").first).press("Enter")
    expect(page.get_by_test_id("strip")).to_be_visible()
    keys_choose(page, keys, READ_DRILL)

    for number, key in enumerate("1121", 1):
        keys.press(key)
        wait_for_marks(page, number)
    assert [m["mark"] for m in standing_marks(page)] == ["correct", "correct", "late", "correct"]
    keys.reach(page.get_by_test_id("mark-early")).press("Space")
    wait_for_marks(page, 5)
    keys.press("u")
    wait_for_marks(page, 4)
    keys.reach(page.get_by_test_id("undo")).press("Enter")
    keys.reach(page.get_by_test_id("undo-1")).press("Enter")
    wait_for_marks(page, 3)
    assert [m["mark"] for m in standing_marks(page)] == ["correct"] * 3

    keys_choose(page, keys, MIXED_DRILL)
    keys.press("d", "1")
    wait_for_marks(page, 4)
    assert standing_marks(page)[-1]["given"] == "decoy"
    lesson = page.url.rsplit("/", 1)[1]
    keys.reach(page.get_by_test_id("more")).press("Enter")
    keys.reach(page.get_by_test_id("more-finish")).press("Enter")
    expect(page.get_by_test_id("after")).to_be_visible()
    keys.reach(page.get_by_test_id("end-lesson")).press("Enter")
    expect(page.get_by_role("heading", name="Today")).to_be_visible()
    all_sent(page)
    assert events(page, lesson)[-1]["type"] == "lesson_closed"


def keys_choose(page, keys, slug):
    if page.locator("dialog").count() == 0:
        keys.reach(page.get_by_test_id("drill-pick")).press("Enter")
    choice = page.get_by_test_id(f"drill-{slug}")
    name = drill_name(choice)
    keys.reach(choice).press("Enter")
    expect(page.get_by_test_id("drill-pick")).to_contain_text(name)
    agree = page.get_by_test_id("care-agree")
    if agree.count() > 0:
        keys.reach(agree).press("Enter")
        expect(agree).to_be_hidden()


def wait_for_marks(page, number):
    for _ in range(200):
        if len(standing_marks(page)) == number:
            return
        page.wait_for_timeout(25)
    raise AssertionError(f"{len(standing_marks(page))} marks, not {number}")
