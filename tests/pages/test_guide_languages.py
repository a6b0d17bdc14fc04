"""The guide in five languages: who is served which, and that no translation lags behind."""

from __future__ import annotations

import re

import pytest

from cueladder.language import LANGUAGES, speaker_of
from cueladder.pages import guide
from tests.make_texts import known, texts
from tests.pages.test_guide import PAGES, Seen, read

OTHERS = tuple(code for code in LANGUAGES if code != "en")
TRANSLATED = [(code, path.stem) for code in OTHERS for path in (guide.FOLDER / code).glob("*.md")]
FALLBACK = "This page is not translated yet, so it is shown in English."
# What a page is made of. Paragraphs are left out: a language may cut its sentences otherwise.
PARTS = ("h1", "h2", "h3", "ul", "ol", "li", "table", "tr", "th", "td", "code", "pre", "strong")


def shape(name, code):
    """What must be the same in every language: the parts in order, links, pictures, figures."""
    body = guide._shown(name, code).body.split("<hr />")[0]
    seen = Seen(body)
    links = [link.split("?")[0] for link in seen.links]
    pictures = [picture["src"] for picture in seen.pictures]
    figures = sorted(re.findall(r"\b[12]\d\d\d\b|\d+:\d+", body))
    return [tag for tag in seen.tags if tag in PARTS], links, pictures, figures


def test_the_pages_for_coaches_and_parents_are_there_in_every_language():
    for code in OTHERS:
        assert {name for each, name in TRANSLATED if each == code} == {
            *("first-lesson", "care", "figures", "who-gets-in")
        }


def test_no_folder_or_page_is_written_that_nobody_is_served():
    folders = {path.name for path in guide.FOLDER.iterdir() if path.is_dir()}
    assert folders == {"pictures", *OTHERS}
    assert {name for _, name in TRANSLATED} <= set(PAGES)
    assert set(guide.ENGLISH_ONLY) == set(PAGES) - {name for _, name in TRANSLATED}


@pytest.mark.parametrize(("code", "name"), TRANSLATED)
def test_a_translation_has_the_parts_links_and_pictures_of_the_english_page(code, name):
    assert shape(name, code) == shape(name, "en")


@pytest.mark.parametrize("code", LANGUAGES)
def test_what_a_page_says_to_open_is_called_so_on_the_screens(code):
    screens = texts("phone") if code == "en" else known(code, "phone")
    called = {str(one.id if code == "en" else one.string) for one in screens}
    body = guide._shown("who-gets-in", code).body
    for path in re.findall(r"<em>(.*?)</em>", body, re.DOTALL):
        for step in " ".join(path.split()).split(" → "):
            assert step in called, step


@pytest.mark.parametrize(("code", "name"), TRANSLATED)
def test_a_translation_is_served_to_its_readers_and_says_which_language_it_is(app, code, name):
    answer = read(app, f"/guide/{name}?lang={code}")
    assert Seen(answer.text).spoken[0] == ("html", code)
    assert guide._shown(name, code).title in answer.text
    assert guide._shown(name, "en").title not in answer.text
    assert speaker_of(code).text(FALLBACK) not in answer.text


@pytest.mark.parametrize("code", OTHERS)
def test_each_translation_says_once_at_its_foot_that_no_coach_has_read_it(code):
    pages = [guide._shown(name, code).body for each, name in TRANSLATED if each == code]
    feet = [body.split("<hr />")[1:] for body in pages]
    assert all(len(foot) == 1 and foot[0].count("<p>") == 1 for foot in feet)
    assert len({foot[0] for foot in feet}) == 1, "in the same words on every page"


@pytest.mark.parametrize("code", OTHERS)
@pytest.mark.parametrize("name", guide.ENGLISH_ONLY)
def test_a_page_without_a_translation_is_shown_in_english_and_says_so_in_the_readers(
    app, code, name
):
    text = read(app, f"/guide/{name}?lang={code}").text
    assert ("html", "en") in Seen(text).spoken and ("p", code) in Seen(text).spoken
    assert text.count(speaker_of(code).text(FALLBACK)) == 1
    assert guide._shown(name, "en").title in text


@pytest.mark.parametrize("name", PAGES)
def test_an_english_reader_is_told_of_no_translation(app, name):
    text = read(app, f"/guide/{name}?lang=en").text
    assert FALLBACK not in text and "<hr" not in text
    assert {spoken for _, spoken in Seen(text).spoken} == {"en"}


@pytest.mark.parametrize("code", LANGUAGES)
def test_the_index_names_every_page_in_the_readers_language(app, code):
    text = read(app, f"/guide/?lang={code}").text
    assert Seen(text).spoken[0] == ("html", code)
    for name in PAGES:
        assert f'href="/guide/{name}?lang={code}"' in text
        here = guide._shown(name, code)
        title = here.title if here.spoken == code else speaker_of(code).text(here.title)
        assert f">{title}</a>" in text
        assert code == "en" or title != guide._shown(name, "en").title


def test_the_index_names_a_page_in_english_only_by_its_own_title():
    for name, title in guide.ENGLISH_ONLY.items():
        assert guide._shown(name, "en").title == title


def test_without_an_address_that_names_it_the_browser_says_the_language(app):
    client = app.test_client()
    answer = client.get("/guide/care", headers={"Accept-Language": "it-CH, fr;q=0.8"})
    assert guide._shown("care", "it").title in answer.text
    assert answer.headers["Vary"] == "Accept-Language"
    named = client.get("/guide/care?lang=es", headers={"Accept-Language": "it"})
    assert guide._shown("care", "es").title in named.text


@pytest.mark.parametrize("code", OTHERS)
def test_links_between_pages_stay_in_the_language(app, code):
    for name in ("", *PAGES):
        for link in Seen(read(app, f"/guide/{name}?lang={code}").text).links:
            inside = not link.startswith(("http", "?")) and link != "/"
            assert not inside or link.endswith(f"?lang={code}"), link


@pytest.mark.parametrize("code", LANGUAGES)
def test_a_page_leads_to_itself_in_every_other_language(app, code):
    links = Seen(read(app, f"/guide/care?lang={code}").text).links
    assert [link for link in links if link.startswith("?")] == [
        f"?lang={each}" for each in LANGUAGES
    ]


@pytest.mark.parametrize("code", LANGUAGES)
def test_a_phone_is_told_to_keep_the_pages_of_its_language_alone(app, code):
    listed = read(app, f"/guide/files.json?lang={code}").get_json()
    assert listed["language"] == code
    pages = [path for path in listed["files"] if not path.endswith((".css", ".png"))]
    assert pages == [f"/guide/{name}?lang={code}" for name in ("", *PAGES)]
    for path in listed["files"]:
        assert read(app, path).status_code == 200, path


def test_each_language_has_a_version_of_its_own_that_stays_while_nothing_changes(app):
    def versions():
        return [read(app, f"/guide/files.json?lang={each}").json["version"] for each in LANGUAGES]

    first = versions()
    assert len(set(first)) == len(LANGUAGES)
    guide._version.cache_clear()
    assert versions() == first
