"""A second phone beside the coach's: what tests of two people do. Not a test module."""

from __future__ import annotations

from playwright.sync_api import Page, expect


def address_shown(page: Page) -> str:
    """Let the coach's strip show the lesson's picture; what a camera would read of it."""
    page.get_by_test_id("more").click()
    page.get_by_test_id("let-watch").click()
    picture = page.get_by_test_id("picture")
    expect(picture).to_be_visible()
    address = picture.get_attribute("data-address")
    assert address is not None
    expect(page.get_by_test_id("cue-number")).to_have_count(1)
    for _ in range(2):
        page.keyboard.press("Escape")
    expect(page.locator("dialog")).to_have_count(0)
    return address


def number(page: Page) -> int:
    """The number of the cue that a second person marks next."""
    return int(page.get_by_test_id("number-now").inner_text().split()[-1])


def see(page: Page, *marks: str) -> None:
    """A second person marks cue after cue; each is counted before the next."""
    for kind in marks:
        expect(page.get_by_test_id(f"mark-{kind}")).to_be_enabled()
        now = number(page)
        page.get_by_test_id(f"mark-{kind}").click()
        expect(page.get_by_test_id("number-now")).to_have_text(f"Cue {now + 1}")
