"""A coach's hands: what a test does on the phone. Not a test module."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from playwright.sync_api import Locator, Page, expect

from tests.browser.database import read

# of the starter drills: read one kind of cue; answer the attack, do nothing on the decoy
READ_DRILL, MIXED_DRILL = "distance-parry-late", "preparation-or-attack"
HEAT_DRILL = "calm-en-garde"

# nothing can be marked before the caution is agreed to
READY = "[data-testid=mark-correct]:enabled"


def sign_in(page: Page, name: str, passphrase: str) -> None:
    """Sign in, and wait for the club and the service worker."""
    page.get_by_label("Name").fill(name)
    page.get_by_label("Passphrase").fill(passphrase)
    page.get_by_role("button", name="Sign in").click()
    expect(page.get_by_role("heading", name="Today")).to_be_visible()
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")


def choose(page: Page, slug: str, press: Callable[[Locator], object] = Locator.click) -> None:
    """Choose a drill on the strip, agreeing to the caution where it comes up.

    Args:
        page: on the strip.
        slug: of the drill.
        press: how a button is pressed: by a finger, or with keys.
    """
    strip_stands(page)
    _put_caution_off(page, press)
    if page.locator("dialog").count() == 0:
        press(page.get_by_test_id("drill-pick"))
    choice = page.get_by_test_id(f"drill-{slug}")
    expect(page.locator("dialog[open]")).to_be_visible()
    expect(choice).to_be_attached()
    if not choice.is_visible():  # of a fencer who has worked none, six drills stand open
        press(page.get_by_test_id("all-drills").locator("summary"))
    name = drill_name(choice)
    press(choice)
    on_drill(page, name, press)


def strip_stands(page: Page) -> None:
    """Wait for the strip: a planned lesson opens on its drill, any other on the list of drills."""
    expect(page.get_by_test_id("strip")).to_be_visible()
    expect(page.locator("dialog[open]").or_(page.locator(READY)).first).to_be_visible()


def _put_caution_off(page: Page, press: Callable[[Locator], object]) -> None:
    """Say "not now" where the plan opens on a heat drill: the list of drills opens instead."""
    if page.get_by_test_id("care-agree").count() > 0:
        press(page.get_by_role("button", name="Not now"))
        expect(page.get_by_role("dialog", name="Choose a drill")).to_be_visible()


def drill_name(choice: Locator) -> str:
    """The drill's name on a button of the drill sheet, without what stands below it."""
    return choice.locator("span").first.evaluate("(element) => element.firstChild.textContent")


def on_drill(page: Page, name: str, press: Callable[[Locator], object] = Locator.click) -> None:
    """Wait until the strip is on a drill, and agree to the caution where it comes up."""
    expect(page.get_by_role("dialog", name="Choose a drill")).to_be_hidden()
    expect(page.get_by_test_id("drill-pick")).to_contain_text(name)
    agree_to_care(page, press)


def agree_to_care(page: Page, press: Callable[[Locator], object] = Locator.click) -> None:
    """Agree to the caution where it comes up; marks can be given from here on."""
    agree = page.get_by_test_id("care-agree")
    expect(agree.or_(page.locator(READY)).first).to_be_visible()
    if agree.count() > 0:
        press(agree)
        expect(agree).to_be_hidden()
    expect(page.locator(READY)).to_be_visible()


def open_lesson(page: Page, slug: str | None = READ_DRILL, number: int = 0) -> str:
    """Start a lesson with one of the fencers listed; its id.

    Args:
        page: on Today.
        slug: of the drill to go to; None for what is planned first, or else the first of the list.
        number: of the fencer, from the top.
    """
    page.get_by_role("button", name="Start:").nth(number).click()
    without = page.get_by_test_id("start-without")
    expect(page.get_by_test_id("strip").or_(without)).to_be_visible()
    if without.count() > 0:  # no consent is noted for them
        without.click()
    strip_stands(page)
    sheet = page.locator("dialog[aria-label='Choose a drill']")
    if slug is None and sheet.count() > 0:
        slug = sheet.locator("[data-testid^=drill-]").first.get_attribute("data-testid")[6:]
    if slug is None:
        on_drill(page, "")
    else:
        choose(page, slug)
    return lesson_of(page)


def in_turn(page: Page, slug: str) -> str:
    """Take the first fencer of the list in turn with the one on the strip; the new lesson's id."""
    page.get_by_test_id("more").click()
    page.get_by_test_id("second-fencer").click()
    page.locator("[data-testid^=second-]:not([data-testid=second-fencer])").first.click()
    expect(page.get_by_role("dialog", name="Who takes turns?")).to_be_hidden()
    choose(page, slug)
    return lesson_of(page)


def end_lesson(page: Page) -> None:
    """End the lesson on the strip; what it came to stands then."""
    page.get_by_test_id("more").click()
    page.get_by_test_id("more-finish").click()
    page.get_by_test_id("end-lesson").click()
    expect(page.get_by_test_id("after")).to_be_visible()


def all_sent(page: Page) -> None:
    """Wait until nothing unsent is left on the phone."""
    expect(page.get_by_test_id("sync")).to_have_attribute("data-unsent", "0")


def last_shown(page: Page) -> str | None:
    """The mark the strip names as the last one, by id."""
    return page.get_by_test_id("last-mark").get_attribute("data-last")


def another_last(page: Page, before: str | None) -> str:
    """Wait until the strip names another mark as the last one than ``before``; its id."""
    other = re.compile(f"^(?!{before}$).+")
    expect(page.get_by_test_id("last-mark")).to_have_attribute("data-last", other)
    return str(last_shown(page))


def give(page: Page, given: str | None = None, loud: bool | None = None) -> None:
    """Say what is given on the switch at the top: ``attack`` or ``decoy``, loud or soft."""
    switch = page.get_by_test_id("give")
    for button, name, value in (
        ("given", "data-given", given),
        ("loudness", "data-loud", None if loud is None else str(loud).lower()),
    ):
        if value is not None and switch.get_attribute(name) != value:
            page.get_by_test_id(button).click()
            expect(switch).to_have_attribute(name, value)


# The kind of cue a mark belongs to, where it belongs to one only.
ONLY = {"late": "attack", "early": "attack", "decoy": "decoy"}


def tap(page: Page, kind: str) -> str:
    """Tap a mark and wait for the screen to show it; the mark's id.

    In a mixed drill the cue it belongs to is given first.
    """
    if kind in ONLY and page.get_by_test_id("give").count() > 0:
        give(page, ONLY[kind])
    before = last_shown(page)
    page.get_by_test_id(f"mark-{kind}").click()
    return another_last(page, before)


def mark(page: Page, kind: str, times: int = 1) -> None:
    """Tap a mark; what is shown must be kept, once."""
    for _ in range(times):
        before = {one["id"] for one in standing_marks(page)}
        shown = tap(page, kind)
        kept = {one["id"] for one in standing_marks(page)}
        assert kept == before | {shown}, f"the tap on {kind} was shown, not kept, or kept twice"


def lesson_of(page: Page) -> str:
    """The lesson on the strip."""
    return page.url.rsplit("/", 1)[1]


def events(page: Page, lesson: str | None = None) -> list[dict[str, Any]]:
    """Every event the phone keeps of a lesson (default: the one on the strip)."""
    [kept] = read(page.evaluate, ("events", "getAll", lesson or lesson_of(page), "lesson"))
    return [each["event"] for each in kept]


def standing_marks(page: Page) -> list[dict[str, Any]]:
    """The lesson's marks that were not voided, in order."""
    kept = events(page)
    voided = {e["mark"] for e in kept if e["type"] == "mark_voided"}
    marks = [e for e in kept if e["type"] == "cue_marked" and e["id"] not in voided]
    return sorted(marks, key=lambda e: e["n"])


def screen(page: Page) -> dict[str, str]:
    """What the strip says at one moment: the cue, the move, why, how far."""
    return page.evaluate(
        """() => Object.fromEntries(["cue", "move", "why", "progress"].map((part) =>
          [part, document.querySelector(`[data-testid=${part}]`)?.innerText]))"""
    )
