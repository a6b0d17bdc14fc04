"""The page on paper, one A4 sheet, and as wide as a phone; by real Chromium."""

from __future__ import annotations

import re
import threading
from urllib.parse import urlsplit

import pytest
from werkzeug.serving import make_server

from cueladder.language import LANGUAGES
from cueladder.store.access.links import create_link
from cueladder.store.drills.versions import add_drill
from tests.browser.phone import PHONE
from tests.drills import document
from tests.pages import season
from tests.pages.conftest import TODAY

pytestmark = [
    pytest.mark.thorough,
    pytest.mark.browser,
    pytest.mark.parametrize("app", ["sqlite"], indirect=True),
]

A4 = ("594", "841")
# The page's own choice and the serifs of usual systems, wide ones included: what a machine
# lacks is printed with what it has instead.
SERIFS = ("", "DejaVu Serif", "Liberation Serif", "P052", "C059", "URW Bookman")
# A sheet's width without its margins, in the pixels of print.
WIDTH = round((210 - 20) / 25.4 * 96)
CUT = """() => [...document.querySelectorAll("h1, h2, p, li")]
  .filter((one) => one.getClientRects().length > 0 && getComputedStyle(one).overflow === "hidden")
  .filter((one) => one.scrollHeight > one.clientHeight + 1)
  .map((one) => one.textContent.trim())"""


@pytest.fixture
def printed(app, chrome):
    """Opens the page of a link as it is for paper, in a language: ``printed(token, "de")``."""
    server = make_server("127.0.0.1", 0, app, threaded=True)
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    page = chrome.new_page(viewport={"width": WIDTH, "height": 1000})
    page.emulate_media(media="print")
    plots = {}

    def plot(route):
        # all of a fencer's are as large: one is drawn for them all
        whose = urlsplit(route.request.url).path.split("/")[2]
        if whose not in plots:
            plots[whose] = route.fetch()
        route.fulfill(response=plots[whose])

    page.route("**/drill/*.svg*", plot)

    def go(token: str, language: str = "en"):
        page.goto(f"http://127.0.0.1:{server.server_port}/p/{token}?lang={language}")
        return page

    yield go
    page.close()
    server.shutdown()
    thread.join()
    server.server_close()


def in_each_serif(page):
    for family in SERIFS:
        page.evaluate("(family) => { document.body.style.fontFamily = family; }", family)
        yield family


def sheets(page) -> list[tuple[str, str]]:
    """Width and height of each sheet, in whole points."""
    pdf = page.pdf(prefer_css_page_size=True)
    assert len(re.findall(rb"/Type\s*/Page\b", pdf)) == len(re.findall(rb"/MediaBox", pdf))
    sizes = re.findall(rb"/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]", pdf)
    return [(w.decode().split(".")[0], h.decode().split(".")[0]) for w, h in sizes]


@pytest.mark.parametrize("drills", [1, 6, 7])
def test_the_page_prints_on_one_sheet_and_cuts_nothing(opened, printed, drills):
    page = printed(opened(lessons=8, drills=drills).token)
    for family in in_each_serif(page):
        assert sheets(page) == [A4], family
        assert page.evaluate(CUT) == [], family


def test_the_page_prints_on_one_sheet_in_every_language(opened, printed):
    fencer = opened(lessons=8, drills=7)
    for language in LANGUAGES:
        page = printed(fencer.token, language)
        for family in in_each_serif(page):
            assert sheets(page) == [A4], (language, family)
            assert page.evaluate(CUT) == [], (language, family)


def test_on_a_phone_nothing_is_wider_than_the_screen_with_all_opened(opened, printed):
    fencer = opened(lessons=8, drills=2)
    for language in LANGUAGES:
        page = printed(fencer.token, language)
        page.set_viewport_size(PHONE)
        page.emulate_media(media="screen")
        page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
        assert page.evaluate("document.querySelectorAll('details[open] table').length") == 2
        assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"], language


def test_six_drills_with_two_ladders_and_long_texts_still_print_on_one_sheet(club, printed):
    wordy = "Stand in front of a mirror and move the hand slowly to the side and back again, " * 7
    drills = []
    for k in range(6):
        told = document(
            "discrimination",
            slug=f"long-{k}",
            name=f"A drill with a rather long name, number {k}, so that it takes two lines or so",
            alone=wordy[:600],
        )
        (drill, version), _ = add_drill(club.id, told)
        drills.append((drill.id, version.chart_id))
    season.lessons(club, drills, season.weekly(6, TODAY), each=6, cues=40)
    token = create_link(club.id, club.fencer, club.coach).token
    for language in LANGUAGES:
        page = printed(token, language)
        for family in in_each_serif(page):
            assert sheets(page) == [A4], (language, family)
