"""Starter drills are told in the reader's language and kept as they were; one's own as written."""

import pytest

from cueladder.store.drills.library import library
from cueladder.store.drills.versions import add_drill, drill_in
from tests.drills import document
from tests.make_texts import OTHERS, known
from tests.store.club import HEADER

STARTERS = {doc["slug"]: doc for doc in library()}
SLUG = "preparation-or-attack"


@pytest.fixture
def starter(club):
    (drill, _), _ = add_drill(club.id, STARTERS[SLUG])
    return drill.id


def ask(club, language, path, method="GET", body=None):
    headers = {**HEADER, "Accept-Language": language}
    answer = club.browser.open(path, method=method, headers=headers, json=body)
    assert answer.status_code < 300, answer.get_data(as_text=True)
    return answer.get_json()


def drill(club, language, drill_id):
    found = ask(club, language, "/api/drills")["drills"]
    return next(each for each in found if each["id"] == drill_id)


def texts(language):
    return {message.id: message.string for message in known(language, "library") if message.id}


@pytest.mark.parametrize("language", OTHERS)
def test_a_starter_comes_in_the_reader_s_language_whole(club, starter, language):
    told, english = drill(club, language, starter), STARTERS[SLUG]
    words = texts(language)
    assert told["language"] == language
    for field in ("name", "action", "purpose", "how", "safety", "alone"):
        assert told[field] == told["document"][field] == words[english[field]]
    assert told["document"]["feet"] == words[english["feet"]]
    for field in ("cues", "counts"):
        assert told["document"][field] == {k: words[v] for k, v in english[field].items()}
    for name, scale in english["scales"].items():
        there = told["document"]["scales"][name]["grades"]
        assert there == [words[grade] for grade in scale["grades"]]
        assert there == [told["grades"][grade] for grade in scale["grades"]]


def test_in_english_a_starter_comes_as_it_is_stored(club, starter):
    told = drill(club, "en", starter)
    assert told["document"] == STARTERS[SLUG]
    assert (told["language"], told["grades"]) == ("en", {})


def test_a_drill_says_what_follows_from_it(club, starter):
    told = drill(club, "en", starter)
    assert told["left"]["read"] == [1400, 900, 900, 800, 500, 320]
    assert set(told["left"]["heat"]) == {320}
    assert (told["loud_from"], told["noisy_from"]) == (1, 1)
    assert told["partner"] == {"heat": 0, "cues": 10}
    assert any("stop word" in sentence for sentence in told["care"])
    assert any("Stoppwort" in sentence for sentence in drill(club, "de", starter)["care"])


@pytest.mark.parametrize("language", OTHERS)
def test_a_starter_sent_back_in_the_reader_s_language_is_no_change(club, starter, language):
    doc = drill(club, language, starter)["document"]
    path = f"/api/drills/{starter}"
    assert ask(club, language, path, "PUT", {"document": doc})["version"] == 1
    assert drill_in(club.id, starter)[1].document == STARTERS[SLUG]


def test_one_sentence_changed_by_a_german_coach_leaves_the_others_to_every_language(club, starter):
    doc = drill(club, "de", starter)["document"] | {"how": "So machen wir das hier."}
    ask(club, "de", f"/api/drills/{starter}", "PUT", {"document": doc})
    for language in ("en", "fr"):
        told = drill(club, language, starter)
        assert told["how"] == "So machen wir das hier."
    assert drill(club, "en", starter)["name"] == STARTERS[SLUG]["name"]
    assert drill(club, "fr", starter)["name"] == texts("fr")[STARTERS[SLUG]["name"]]


def test_the_effect_of_a_change_sees_no_change_in_translated_words(club, starter):
    doc = drill(club, "it", starter)["document"]
    assert not ask(club, "it", f"/api/drills/{starter}/effect", "POST", {"document": doc})["judged"]


def test_a_club_s_own_drill_stays_in_the_language_it_was_written_in(club):
    own = {**document(slug="eigene"), "name": "Unsere Quart"}
    made = ask(club, "de", "/api/drills", "POST", {"document": own})
    assert made["language"] == "de"
    for language in ("en", "fr"):
        told = drill(club, language, made["id"])
        assert (told["name"], told["language"], told["grades"]) == ("Unsere Quart", "de", {})
        assert told["document"]["scales"] == own["scales"]


def test_a_chart_stays_in_english_whoever_asks(club, starter):
    chart = drill(club, "de", starter)["chart"]
    german, english = (ask(club, tag, f"/api/charts/{chart}") for tag in ("de", "en"))
    assert german == english


def test_the_ladder_editor_names_scales_in_the_reader_s_language(club, starter):
    doc = drill(club, "de", starter)["document"]
    told = ask(club, "de", "/api/drills/check", "POST", {"document": doc})
    assert told["errors"] == {}
    changed = told["ladders"]["read"]["rungs"][1]["changed"]
    now, was = "Schritt dauert eine Sekunde", "Schritt dauert 1,5 s"
    assert changed == f"Geschwindigkeit: {now} (vorher {was})"


@pytest.mark.parametrize("language", ["en", *OTHERS])
def test_the_plan_and_the_story_name_a_starter_in_the_reader_s_language(club, starter, language):
    english = STARTERS[SLUG]["name"]
    name = english if language == "en" else texts(language)[english]
    phone = club.phone()
    chart = drill_in(club.id, starter)[1].chart_id
    club.browser.push(phone.open(), *phone.cues(6, drill=starter, chart=chart))
    told = ask(club, language, f"/api/fencers/{club.fencer}/story")
    assert [each["drill"]["name"] for each in told["drills"]] == [name]
    planned = ask(club, language, f"/api/fencers/{club.fencer}/plan?minutes=20")
    assert name in [block["name"] for block in planned["blocks"]]
