"""The app in another language: chosen in Settings, kept without a network, no mark cut off."""

import re

import pytest
from playwright.sync_api import expect

from cueladder.rules.words import MOVES, WHY
from tests.browser.phone import DESK, PHONE, Guest, frames
from tests.browser.strip import agree_to_care, mark, open_lesson, screen
from tests.make_texts import known

pytestmark = pytest.mark.browser

# Texts wider than what they stand on.
CUT_OFF = """() => [...document.querySelectorAll(".strip, .mark, .mark *, .given button," +
  ".last, .act, .act *, .give *, .bar *, .places a, .cue .move, .pill, .enter *")]
  // the drill's name in the bar ends in an ellipsis; it is whole on the sheet behind the cue
  .filter((one) => one.closest(".unseen, .bar h1") === null && one.clientWidth > 0)
  .filter((one) => one.scrollWidth > one.clientWidth + 1)
  .map((one) => `${one.className} ${one.textContent}`)"""
WIDTH = "document.documentElement.scrollWidth - document.documentElement.clientWidth"


def choose_language(page, code):
    page.get_by_test_id(f"language-{code}").click()
    expect(page.locator("html")).to_have_attribute("lang", code)


def test_the_app_speaks_german_once_it_is_chosen_and_keeps_to_it_without_a_server(salle):
    page = salle.open("/settings")
    expect(page.locator("html")).to_have_attribute("lang", "en")
    choose_language(page, "de")
    expect(page.get_by_role("heading", name="Einstellungen")).to_be_visible()
    expect(page.get_by_test_id("language-de")).to_have_attribute("aria-pressed", "true")

    salle.server.stop()
    page.goto(salle.phone.url)
    page.reload()
    expect(page.get_by_role("heading", name="Heute")).to_be_visible()
    page.get_by_role("button", name="Beginnen:").first.click()
    sheet = page.get_by_role("dialog", name="Übung wählen")
    if sheet.count() > 0:
        sheet.locator("[data-testid^=drill-]").first.click()
    agree_to_care(page)
    words = page.get_by_test_id("pad").locator(".word").all_inner_texts()
    assert words == ["Angebissen", "Zu früh/groß", "Zu spät", "Richtig"]
    mark(page, "correct")
    told = screen(page)
    german = {one.id: one.string for one in known("de", "phone")}
    assert told["move"] in {german[text] for text in MOVES.values()}
    assert told["why"].strip() in {german[text] for text in WHY.values()}
    assert re.search(r"\d+ von \d+", told["progress"])


@pytest.mark.thorough
def test_no_word_of_the_strip_is_cut_off_in_a_longer_language(salle):
    page = salle.open()
    open_lesson(page, "preparation-or-attack")
    strip = page.url
    for code in ("de", "fr", "it", "es"):
        page.goto(salle.phone.url + "/settings")
        choose_language(page, code)
        for path in (strip, salle.phone.url + "/", salle.phone.url + "/fencers"):
            page.goto(path)
            expect(page.locator("main")).to_be_visible()
            for size in (DESK, PHONE):
                page.set_viewport_size(size)
                frames(page)
                assert page.evaluate(CUT_OFF) == [], (code, size, path)
                assert page.evaluate(WIDTH) == 0, (code, size, path)


@pytest.mark.thorough
def test_a_catalogue_that_does_not_come_leaves_the_app_in_english(chrome, server):
    phone = Guest(chrome, server.url, locale="fr-FR", service_workers="block")
    page = phone.start_blank()
    page.context.route("**/assets/phone-*.js", lambda route: route.abort())
    page.goto(server.url)
    expect(page.get_by_role("button", name="Sign in")).to_be_visible()
    expect(page.locator("html")).to_have_attribute("lang", "en")
    page.context.unroute_all()
    page.reload()
    expect(page.get_by_role("button", name="Se connecter")).to_be_visible()
    phone.close()


def test_a_phone_set_to_italian_speaks_it_without_being_asked(chrome, server):
    phone = Guest(chrome, server.url, locale="it-IT")
    page = phone.start()
    expect(page.get_by_role("button", name="Accedi")).to_be_visible()
    expect(page.locator("html")).to_have_attribute("lang", "it")
    phone.close()
