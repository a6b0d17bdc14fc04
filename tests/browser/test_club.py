"""The club page, the story's pictures and the guide, with the server and without."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.browser.phone import DESK, PHONE, page_until

pytestmark = pytest.mark.browser
CARDS = ("due", "stuck", "load", "orders", "agreement", "season")
GUIDE_KEPT = """async () => {
  const kept = await (await caches.open("guide")).match("/guide/files.json");
  return kept ? (await kept.json()).files.length : 0;
}"""
GUIDE_LANGUAGE = """async () => {
  const kept = await (await caches.open("guide")).match("/guide/files.json");
  return kept ? (await kept.json()).language : "";
}"""


def until_guide_is_kept(page):
    page_until(page, lambda: page.evaluate(GUIDE_KEPT) > 0, "the guide")


def drawn(image):
    """Whether a picture has arrived and has a size."""
    image.scroll_into_view_if_needed()
    there = "(one) => one.complete && one.naturalWidth > 0"
    return page_until(image.page, lambda: image.evaluate(there), "a picture")


def no_wider_than_the_screen(page):
    return page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def whole_on_phone_and_desk(page):
    for size in (DESK, PHONE):
        page.set_viewport_size(size)
        for card in CARDS:
            expect(page.get_by_test_id(f"club-{card}")).to_be_visible()
        assert no_wider_than_the_screen(page), size


def test_the_club_is_read_on_one_page_and_again_without_the_server(salle):
    page = salle.open()
    page.set_viewport_size(DESK)
    page.get_by_role("link", name="Club").click()
    whole_on_phone_and_desk(page)
    grid = page.get_by_test_id("club-season").get_by_role("table")
    assert grid.locator("tbody tr").count() >= 20
    first = grid.locator("tbody tr").first
    name, total = first.locator("th").inner_text(), first.locator("td").last.inner_text()

    with page.expect_download() as download:
        page.get_by_test_id("csv-season").click()
    rows = list(csv.reader(io.StringIO(Path(download.value.path()).read_text("utf-8-sig"))))
    mine = next(row for row in rows if row[0] == name)
    assert f"{mine[-1]} in {mine[-2]}" == total
    assert page.get_by_test_id("club").is_visible(), "a download must not leave the page"

    salle.server.stop()
    page.reload()
    expect(page.get_by_text("the server does not answer just now")).to_be_visible()
    whole_on_phone_and_desk(page)
    expect(grid.locator("tbody tr").first.locator("td").last).to_have_text(total)
    expect(page.get_by_test_id("csv-season")).to_have_count(0)
    first.get_by_role("link").click()
    expect(page.get_by_test_id("fencer")).to_be_visible()


def test_a_fencers_story_has_pictures_in_the_pages_colours_and_tables_without_them(salle):
    page = salle.open()
    page.goto(salle.phone.url + "/club")
    page.get_by_test_id("club-season").locator("tbody a").first.click()
    story = page.get_by_test_id("fencer")
    expect(story).to_be_visible()
    card = story.locator("section.card").first
    # one thing is said first; the rest is folded
    expect(card.get_by_test_id("said-first")).to_be_visible()
    card.locator("details.marks-show > summary").click()
    for address in ("course.svg", "reach.svg"):
        assert drawn(card.locator(f"img[src*='{address}']"))
    assert drawn(page.get_by_test_id("comfort-story").locator("img"))
    picture = card.locator("img[src*='course.svg']")
    assert len(picture.get_attribute("alt")) > 30
    assert not picture.evaluate("(one) => one.currentSrc.includes('tone=dark')")
    page.emulate_media(color_scheme="dark")
    assert drawn(picture)
    assert picture.evaluate("(one) => one.currentSrc.includes('tone=dark')")
    assert no_wider_than_the_screen(page)

    salle.server.stop()
    page.reload()
    card.locator("details.marks-show > summary").click()
    expect(card.get_by_text("the table says the same").first).to_be_visible()
    table = card.locator(".figures table").last
    card.locator("details.exact:not([data-testid=ahead])").last.locator("summary").click()
    expect(table).to_be_visible()
    assert table.locator("tbody tr").count() >= 2


@pytest.mark.thorough
def test_the_guide_opens_without_a_network_pictures_included(salle):
    page = salle.open()
    until_guide_is_kept(page)
    salle.server.stop()
    page.context.set_offline(True)
    page.goto(salle.phone.url + "/settings")
    page.get_by_test_id("guide").get_by_role("link").first.click()
    expect(page.get_by_role("heading", level=1)).to_have_text("The first lesson in three minutes")
    images = page.get_by_role("img")
    assert images.count() == 4
    for k in range(4):
        assert drawn(images.nth(k))
    ground = page.evaluate("getComputedStyle(document.body).backgroundColor")
    assert ground == "rgb(243, 240, 232)", "the style sheet is kept, too"
    assert page.evaluate("document.documentElement.lang") == "en"
    for name in ("Care and consent", "What the figures mean"):
        page.get_by_role("link", name="Guide").click()
        page.get_by_role("link", name=name).click()
        expect(page.get_by_role("heading", level=1)).to_have_text(name)
        assert no_wider_than_the_screen(page)
    page.get_by_role("link", name="Cue Ladder").click()
    expect(page.get_by_role("heading", name="Today")).to_be_visible()


@pytest.mark.thorough
def test_the_guide_is_kept_in_the_apps_language_and_follows_when_it_changes(salle):
    page = salle.open()
    until_guide_is_kept(page)
    page.goto(salle.phone.url + "/settings")
    page.get_by_test_id("language-de").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Einstellungen")
    page_until(page, lambda: page.evaluate(GUIDE_LANGUAGE) == "de", "the guide in German")
    salle.server.stop()
    page.context.set_offline(True)
    page.get_by_test_id("guide").get_by_role("link").first.click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Die erste Lektion in drei Minuten")
    # a language that is not kept: better the page in the one that is than none
    page.goto(salle.phone.url + "/guide/care?lang=fr")
    expect(page.get_by_role("heading", level=1)).to_have_text("Sorgfalt und Einwilligung")
