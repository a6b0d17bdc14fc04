"""The catalogues: complete, whole, and no older than the code; what is said is told in each."""

import json
import re
from datetime import date

import orjson
import pytest
from babel.messages.catalog import Catalog
from flask import Flask

from cueladder import language
from cueladder.evidence.words import in_ten
from cueladder.jsontext import FastJson
from cueladder.language import LANGUAGES, catalogue_file, speaker_of
from cueladder.rules.said import (
    English,
    joined,
    listed,
    opening,
    say,
    say_day,
    say_n,
    say_number,
    tell,
)
from cueladder.rules.words import MOVES, WHY
from tests.make_texts import (
    DOMAINS,
    OTHERS,
    UNREAD,
    known,
    mark_new,
    missing,
    scripts,
    texts,
    unread,
)

HOLE = re.compile(r"%\(\w+\)s|\{\w+\}|%%")
EACH = [(each, domain) for each in OTHERS for domain in DOMAINS]


def messages(catalogue):
    return [message for message in catalogue if message.id]


def ids(message):
    return message.id if message.pluralizable else (message.id,)


def forms(message):
    return message.string if message.pluralizable else (message.string,)


@pytest.mark.parametrize("domain", DOMAINS)
def test_every_text_of_the_code_is_in_the_catalogues_and_no_other(domain):
    wanted = {ids(message) for message in messages(texts(domain))}
    assert len(wanted) > 250
    for each in OTHERS:
        there = {ids(message) for message in messages(known(each, domain))}
        assert there == wanted, f"{each}, {domain}: run `make texts`, then translate what it lists"


@pytest.mark.parametrize(("each", "domain"), EACH)
def test_every_text_is_translated_and_none_is_a_guess(each, domain):
    assert list(missing(known(each, domain))) == []


@pytest.mark.parametrize(("each", "domain"), EACH)
def test_every_translation_keeps_the_holes_of_its_text(each, domain):
    for message in messages(known(each, domain)):
        wanted = [set(HOLE.findall(text)) for text in ids(message)]
        found = [set(HOLE.findall(text)) for text in forms(message)]
        # "one rung" needs no number in any language
        assert found[-1] == wanted[-1], message.id
        assert found[0] in (wanted[0], wanted[-1]), message.id


@pytest.mark.parametrize(("each", "domain"), EACH)
def test_every_language_has_its_own_two_plural_forms(each, domain):
    catalogue = known(each, domain)
    assert catalogue.num_plurals == 2
    assert catalogue.plural_expr == ("(n > 1)" if each == "fr" else "(n != 1)")
    for message in messages(catalogue):
        assert len(forms(message)) == len(ids(message))


@pytest.mark.parametrize(("each", "domain"), EACH)
def test_a_translation_opens_and_ends_as_its_text_does(each, domain):
    for message in messages(known(each, domain)):
        for text, said in zip(ids(message), forms(message), strict=True):
            assert (text[0] == " ") == (said[0] in " \u00a0") or text[0] in ",;", text
            assert (text[-1] in ".:…") == (said[-1] in ".:…"), text


@pytest.mark.parametrize("each", OTHERS)
def test_each_text_of_the_drills_has_a_translation_of_its_own_to_come_back_from(each):
    told = [message.string for message in messages(known(each, "library"))]
    assert len(set(told)) == len(told)


def test_a_new_text_is_marked_as_read_by_no_native_coach_and_one_that_was_read_is_not():
    catalogue = Catalog(locale="de")
    catalogue.add("parry", "Parade")
    catalogue.add("riposte", "")
    mark_new(catalogue)
    assert catalogue["riposte"].user_comments == [UNREAD]
    assert unread(catalogue) == 1


def test_a_plan_keeps_the_role_before_its_colon_in_every_language():
    for each in OTHERS:
        for message in messages(known(each, "server")):
            if str(message.id).endswith(": %(why)s."):
                assert message.string.endswith(": %(why)s."), (each, message.id)


def test_the_words_of_the_chart_are_told_by_the_phone():
    there = {message.id for message in messages(texts("phone"))}
    assert {*MOVES.values(), *WHY.values()} <= there


def test_a_text_within_another_call_is_found_on_the_phone(tmp_path):
    file = tmp_path / "one.ts"
    file.write_text(
        'const a = _("Held %(how)s", { how: one ? _("once") : ngettext("%(n)s", "%(n)s!", n) });\n'
        'const b = `${_("in \\"a\\" template")}`; this.#say("not a text"); un_("nor this");\n'
    )
    with file.open("rb") as source:
        found = [(line, name, said) for line, name, said, _ in scripts(source)]
    assert found == [
        (1, "_", ("Held %(how)s",)),
        (1, "_", ("once",)),
        (1, "ngettext", ("%(n)s", "%(n)s!")),
        (2, "_", ('in "a" template',)),
    ]


def test_what_is_said_is_plain_english_until_it_is_told():
    said = say("Secure up to %(rung)s.", rung=say("rung %(rung)s of %(of)s", rung=3, of=8))
    assert said == "Secure up to rung 3 of 8."
    assert tell(said, speaker_of("de")) == "Sicher bis Stufe 3 von 8."
    assert tell(said, speaker_of("it")) == "Acquisito fin qui: gradino 3 di 8."
    assert tell("a name", speaker_of("de")) == "a name"


def test_each_language_counts_lists_and_joins_in_its_own_way():
    french, german = speaker_of("fr"), speaker_of("de")
    cues = [say_n("%(n)s cue", "%(n)s cues", n) for n in (0, 1, 2)]
    assert cues == ["0 cues", "1 cue", "2 cues"]
    assert [tell(one, french) for one in cues] == ["0 signal", "1 signal", "2 signaux"]
    assert listed(["a", "b", "c"]) == "a, b and c"
    assert tell(listed(["a", "b", "c"]), german) == "a, b und c"
    assert tell(joined([cues[1], "", cues[2]], "; "), german) == "1 Signal; 2 Signale"
    assert tell(opening(in_ten(0.7)), german) == "Etwa 7-mal von 10"


def test_days_and_numbers_are_written_as_the_language_does():
    day, figure = say_day("2026-12-05"), say_number(2.5, 1)
    assert (day, say_day(date(2026, 12, 5), "short"), figure) == (
        "5 December 2026",
        "5 Dec 2026",
        "2.5",
    )
    assert English().day(date(2026, 3, 2), "tick") == "2 Mar"
    told = {each: (tell(day, speaker_of(each)), tell(figure, speaker_of(each))) for each in OTHERS}
    assert told == {
        "de": ("5. Dezember 2026", "2,5"),
        "fr": ("5 décembre 2026", "2,5"),
        "it": ("5 dicembre 2026", "2,5"),
        "es": ("5 de diciembre de 2026", "2,5"),
    }


@pytest.mark.parametrize(
    ("path", "header", "spoken"),
    [
        ("/", "", "en"),
        ("/", "de-CH, en;q=0.5", "de"),
        ("/", "pt, fr;q=0.8, en;q=0.5", "fr"),
        ("/", "ja", "en"),
        ("/?lang=it", "de", "it"),
        ("/?lang=es-MX", "de", "es"),
        ("/?lang=xx", "de", "de"),
    ],
)
def test_the_language_is_the_one_asked_for_else_the_browser_s_else_english(path, header, spoken):
    with Flask(__name__).test_request_context(path, headers={"Accept-Language": header}):
        assert language.language() == spoken


def test_an_answer_tells_in_the_reader_s_language_even_what_only_flask_can_write():
    app = Flask(__name__)
    app.json = FastJson(app)
    body = {"words": say("Not begun yet."), "deep": [{"n": say_n("%(n)s cue", "%(n)s cues", 2)}]}
    with app.test_request_context("/", headers={"Accept-Language": "de"}):
        assert json.loads(app.json.dumps(body)) == {
            "words": "Noch nicht begonnen.",
            "deep": [{"n": "2 Signale"}],
        }
        broken = {**body, "broken": "\ud800"}
        with pytest.raises(TypeError):
            orjson.dumps(broken)
        assert json.loads(app.json.dumps(broken))["words"] == "Noch nicht begonnen."


def test_every_language_has_its_files_and_english_needs_none():
    assert set(LANGUAGES) == {"en", *OTHERS} == {"en", "fr", "it", "de", "es"}
    assert all(catalogue_file(each, domain).is_file() for each, domain in EACH)
    assert not catalogue_file("en", "server").exists()
