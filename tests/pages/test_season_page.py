"""The season page: words of the register of claims alone, on one A4 sheet, for coaches."""

from __future__ import annotations

import threading
from datetime import timedelta
from html import unescape

import pytest
from werkzeug.serving import make_server

from cueladder.api.guard import COOKIE
from cueladder.language import LANGUAGES
from cueladder.store.db.engine import db
from cueladder.store.fencers.edit import fencer_in
from cueladder.story.beyond.season import season_of
from tests.api.test_bouts import watched
from tests.pages import season
from tests.pages.conftest import TODAY
from tests.pages.test_paper import A4, CUT, WIDTH, in_each_serif, sheets
from tests.store.test_goals import competition

pytestmark = pytest.mark.parametrize("app", ["sqlite"], indirect=True)


def path(club):
    return f"/api/fencers/{club.fencer}/season"


def a_year(club, drills=7):
    """Lessons, bouts for every drill, goals, and a second person's marks in one lesson."""
    some = season.drills_for(club, season.SLUGS[:drills])
    season.lessons(club, some, season.weekly(24, TODAY - timedelta(days=1)))
    phone = club.phone()
    for drill, _ in some:
        club.browser.push(
            *(watched(phone, drill=drill, day=f"2026-11-{day}", met=6, answered=4, shown=5)
              for day in (10, 17))
        )  # fmt: skip
    for ahead, (drill, _) in zip((40, 60, 80), some, strict=False):
        by = competition(club, ahead, "The regional championships of the northern circle")
        where = f"/api/fencers/{club.fencer}/goals/{drill}"
        assert club.browser.send("PUT", where, {"competition": by}).status_code == 200
    return some


def text(club, language="en"):
    answer = club.browser.get(f"{path(club)}?lang={language}")
    assert (answer.status_code, answer.mimetype) == (200, "text/html")
    assert answer.headers["Cache-Control"] == "no-store"
    return unescape(answer.text)


def test_before_the_first_lesson_it_says_so_and_claims_nothing(club):
    told = text(club)
    assert "No drill has been worked yet." in told and "No bout was watched" in told
    assert "Intensity given" not in told and "Kept on later days" not in told


def test_it_tells_what_is_secure_and_where_kept_in_bouts_heat_and_marked_by_two(club):
    some = a_year(club, 3)
    told = text(club)
    assert "24 lessons from " in told and "nobody is compared with anybody" in told
    assert "it held with Ansgar of Halle Nord Fencing Circle" in told
    for _, slug in zip(some, season.SLUGS, strict=False):
        assert slug not in told
    assert "re-checks held on a later day. In the long run:" in told
    assert "in bouts 8 of 12 (" in told
    assert "cues were intense: loud, or above the mildest rung of their drill." in told
    assert "No lesson was marked by a second person." in told
    assert "to be secure in 2 settings" in told or "the goal is reached" in told
    # whoever reads it hears of nobody else, and of no order among fencers
    club.add_fencer("Jona")
    assert "Jona" not in text(club)


def test_re_checks_and_heat_are_counted_cue_by_cue(club):
    a_year(club, 3)
    with club.app.app_context():
        fencer = fencer_in(db.session(), club.id, club.fencer)
        found = season_of(club.id, fencer.id, TODAY)
    assert found["lessons"] == 24
    assert found["kept"]["claim"] == "season.kept"
    assert found["heat"]["claim"] == "season.heat"
    # a year later nothing of it is this season's
    with club.app.app_context():
        later = season_of(club.id, fencer.id, TODAY + timedelta(days=366 + 24 * 7))
    assert (later["lessons"], later["kept"]["claim"]) == (0, "season.kept_few")


def test_a_second_persons_lesson_counts_once(club):
    phone, other = club.phone(), club.add_coach("Rike", "observer")
    club.browser.push(phone.open("2026-11-20"), *phone.cues(4))
    seconds = club.phone(other)
    seconds.lesson = phone.lesson
    club.sign_in("Rike").push(*(seconds.cue(number=n) for n in (1, 2)))
    another = club.phone()
    club.browser.push(another.open("2026-11-21"), another.cue())
    # opened and left again, which is no lesson
    club.browser.push(club.phone().open("2026-11-21"))
    assert "A second person marked, too, in 1 of 2 lessons." in text(club)


def test_a_fencer_without_a_rung_in_another_setting_is_told_no_more_than_was_seen(club):
    phone = club.phone()
    club.browser.push(phone.open("2026-11-20"), *phone.cues(4))
    told = text(club)
    assert "Nothing was due for a re-check yet." in told
    assert "ecure up to" not in told and "times in 10" not in told


def test_observers_and_strangers_get_no_season_page(club):
    club.add_coach("Rike", "observer")
    assert club.sign_in("Rike").get(path(club)).status_code == 403
    assert club.app.test_client().get(path(club)).status_code == 401


@pytest.mark.thorough
@pytest.mark.browser
def test_it_prints_on_one_sheet_in_every_language_and_serif_and_cuts_nothing(club, chrome):
    a_year(club)
    server = make_server("127.0.0.1", 0, club.app, threaded=True)
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    page = chrome.new_page(viewport={"width": WIDTH, "height": 1000})
    try:
        page.emulate_media(media="print")
        base = f"http://127.0.0.1:{server.server_port}"
        key = club.browser.client.get_cookie(COOKIE).value
        page.context.add_cookies([{"name": COOKIE, "value": key, "url": base}])
        for language in LANGUAGES:
            page.goto(f"{base}{path(club)}?lang={language}")
            assert page.locator("html").get_attribute("lang") == language
            assert page.locator(".season section").count() == 6
            for family in in_each_serif(page):
                assert sheets(page) == [A4], (language, family)
                assert page.evaluate(CUT) == [], (language, family)
    finally:
        page.close()
        server.shutdown()
        thread.join()
        server.server_close()
