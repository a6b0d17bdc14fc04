"""The progress page in each language, and the API's words to a phone that speaks one."""

from __future__ import annotations

import re
from functools import cache
from html import unescape

import pytest

from cueladder.language import LANGUAGES, speaker_of
from cueladder.pages import plots
from cueladder.rules.rule import DEFAULT
from cueladder.rules.said import say, tell
from tests.make_texts import OTHERS, texts
from tests.pages.test_plots import RUN, comments, course

pytestmark = pytest.mark.parametrize("app", ["sqlite"], indirect=True)

# A sentence of the page, with the day as the language writes it.
STANDS = {
    "en": "Where the lessons stand on 25 November 2026.",
    "fr": "Où en sont les leçons le 25 novembre 2026.",
    "it": "A che punto sono le lezioni il 25 novembre 2026.",
    "de": "Wo die Lektionen am 25. November 2026 stehen.",
    "es": "Cómo van las lecciones a 25 de noviembre de 2026.",
}


@cache
def own_sentences():
    return [each for message in texts("server") if message.id for each in _forms(message)]


def english_left(text):
    """Sentences of the program that stand in a text in English."""
    long = [each for each in own_sentences() if len(each) > 24 and " " in each]
    plain = [re.split(r"%\(\w+\)s|%%", each) for each in long]
    return [each for each in plain if len(max(each, key=len)) > 14 and max(each, key=len) in text]


def _forms(message):
    return message.id if message.pluralizable else (message.id,)


@pytest.mark.parametrize("spoken", LANGUAGES)
def test_the_page_speaks_the_language_of_the_browser(opened, spoken):
    fencer = opened(lessons=6, drills=3)
    client = fencer.club.app.test_client()
    answer = client.get(f"/p/{fencer.token}", headers={"Accept-Language": f"{spoken}-XX"})
    text = unescape(answer.text)
    assert f'<html lang="{spoken}">' in text
    assert STANDS[spoken] in text
    if spoken != "en":
        assert english_left(text) == []
        assert not re.search(r"\b(\d+ lessons|rung \d|cues\b(?! that))", _without_drills(text))


def _without_drills(text):
    """The page without what the drills themselves say, which a club writes in its own language."""
    for part in ("purpose", "alone", "coming"):
        text = re.sub(rf'<p class="{part}">.*?</p>', "", text, flags=re.S)
    return re.sub(r'<ol class="rungs">.*?</ol>', "", text, flags=re.S)


def test_a_language_chosen_on_the_page_is_kept_by_its_form_and_its_pictures(opened):
    fencer = opened(lessons=6, drills=1)
    text = unescape(fencer.get("?lang=de").text)
    assert '<html lang="de">' in text
    row = re.search(r'<nav class="languages.*?</nav>', text, re.S)[0]
    assert re.findall(r'href="\?lang=(\w+)"', row) == list(LANGUAGES)
    assert re.findall(r'lang="(\w+)"[^>]*aria-current', row) == ["de"]
    assert all("lang=de" in source for source in re.findall(r'src="(/p/[^"]+)"', text))
    action = re.search(r'action="([^"]+)"', text)[1]
    drill = re.search(r'name="drill" value="([^"]+)"', text)[1]
    answer = fencer.club.app.test_client().post(action, data={"drill": drill})
    assert answer.status_code == 303 and "?lang=de" in answer.headers["Location"]
    kept = fencer.club.app.test_client().get(answer.headers["Location"].split("#")[0])
    assert "Heute geübt." in kept.text


@pytest.mark.parametrize("spoken", OTHERS)
def test_a_link_that_does_not_open_says_so_in_the_reader_s_language(club, spoken):
    answer = club.app.test_client().get("/p/nothing", headers={"Accept-Language": spoken})
    assert answer.status_code == 404
    assert tell(say("This link does not open"), speaker_of(spoken)) in unescape(answer.text)
    assert "This link does not open" not in answer.text


def test_pictures_are_drawn_in_the_reader_s_language(app):
    german = speaker_of("de")
    told = comments(plots.rungs_over_time(course("working", "secure"), "light", german)).decode()
    assert "Erreichte Stufe" in told and "sicher" in told and "1. März" in told
    assert "secure" not in told
    curves = comments(plots.rule_curves(RUN, DEFAULT, speaker=german)).decode()
    assert "diese Regel" in curves and "this rule" not in curves


def test_the_api_speaks_the_language_the_phone_asks_for(opened):
    club = opened(lessons=6, drills=2).club
    german = {"Accept-Language": "de"}
    told = club.browser.get(f"/api/fencers/{club.fencer}/story", headers=german).get_json()
    plan = club.browser.get(f"/api/fencers/{club.fencer}/plan?minutes=20", headers=german)
    whole = str(told) + str(plan.get_json())
    assert "Stufe" in whole and "Lektionen" in whole
    assert english_left(whole) == []
    rule = {"rule": {"family": "run", "n": 1}}
    odds = club.browser.post("/api/rules/odds?lang=de", rule).get_json()
    assert odds["errors"] == {"rule.n": ["sollte zwischen 2 und 60 liegen, nicht 1"]}
    away = club.app.test_client().get("/api/club", headers=german).get_json()
    assert away["detail"].startswith("Melde dich an") and away["title"] == "Anmelden"
