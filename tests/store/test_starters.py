"""The starter drills, read as the coach who gives them and the fencer who answers them."""

import re

import pytest

from cueladder.rules import Drill, Kind
from cueladder.rules.brief import COUNTS, CUES, LEVELS
from cueladder.rules.reaction import left_on
from cueladder.store.drills.library import library, starter_texts
from tests.make_texts import OTHERS, known

DOCUMENTS = {document["slug"]: document for document in library()}
EACH = pytest.mark.parametrize("document", DOCUMENTS.values(), ids=DOCUMENTS)
LEVEL = list(LEVELS).index
WRITTEN = re.compile(r"([\d.]+) s\b")
SPOKEN = {
    "two seconds": 2000,
    "one second": 1000,
}


def words(document):
    """The grades of a drill that say in seconds how long something takes, with their numbers."""
    for scale in document["scales"].values():
        yield from zip(scale["grades"], scale.get("takes") or [], strict=False)


@EACH
def test_a_starter_says_what_to_give_what_counts_for_whom_and_how_with_the_feet_alone(document):
    assert set(document["cues"]) == set(CUES[document["gives"]])
    assert set(document["counts"]) == set(COUNTS[document["gives"]])
    assert document["level"] in LEVELS
    assert document["feet"]


@EACH
def test_a_starter_with_something_to_answer_leaves_time_for_it_on_every_rung(document):
    drill = Drill.from_json(document)
    ladder, other = (drill.read, drill.heat) if drill.read else (drill.heat, None)
    left = left_on(drill.timing, ladder, other)
    if drill.gives == "decoys":
        assert set(left) == {None}
        return
    open_ended = {"stays open"}
    for label, ms in zip((ladder.grades(i) for i in range(len(ladder))), left, strict=True):
        assert ms is not None or open_ended & set(label.values()), label
    timed = [ms for ms in left if ms is not None]
    assert min(timed) >= drill.timing.needs
    assert timed == sorted(timed, reverse=True), "a higher rung leaves more time than a lower one"


@EACH
def test_a_grade_that_says_its_seconds_counts_with_them(document):
    for grade, ms in words(document):
        written = WRITTEN.search(grade)
        if written:
            assert ms == round(1000 * float(written[1])), grade
        for words_, spoken in SPOKEN.items():
            if grade.endswith((f"takes {words_}", f"open for {words_}", f"within {words_}")):
                assert ms == spoken, grade


@EACH
def test_a_cue_is_short_enough_for_the_strip(document):
    for scale in document["scales"].values():
        assert max(map(len, scale["grades"])) <= 37, scale["grades"]


def test_no_starter_says_over_where_it_means_in():
    assert not [text for text in starter_texts() if re.search(r"\bover (one|two|half)", text)]


@EACH
def test_a_starter_turns_to_a_calm_drill_of_its_weapons_that_fits_its_age(document):
    if document["kind"] == Kind.DESENSITIZATION:
        assert document["paired"] is None
        return
    paired = DOCUMENTS[document["paired"]]
    assert paired["kind"] == Kind.DESENSITIZATION
    assert set(document["weapon"]) <= set(paired["weapon"])
    assert LEVEL(paired["level"]) <= LEVEL(document["level"])
    grades = {grade for scale in paired["scales"].values() for grade in scale["grades"]}
    assert document["level"] != "first" or "shout" not in grades


def test_riposte_and_hit_in_epee_keep_the_opposition():
    for document in DOCUMENTS.values():
        ripostes = "riposte" in document["action"].lower()
        if "epee" in document["weapon"] and ripostes and "Attack with" not in document["name"]:
            assert "opposition" in document["how"], document["slug"]


def test_there_is_something_for_every_level_and_weapon():
    for weapon in ("foil", "epee", "sabre"):
        for level in LEVELS:
            fit = [d for d in DOCUMENTS.values() if weapon in d["weapon"] and d["level"] == level]
            assert len(fit) >= 3, (weapon, level)


def test_the_first_heat_rung_is_the_mildest_so_loud_and_soft_differ_above_it():
    for document in DOCUMENTS.values():
        if document["heat"]:
            assert set(document["heat"][0].values()) == {0}, document["slug"]
            assert 1 <= Drill.from_json(document).brief.loud_from < len(document["heat"])


def test_voice_and_stamp_need_consent_from_the_first_rung_that_has_more_than_the_mildest():
    for document in DOCUMENTS.values():
        heat = Drill.from_json(document).heat
        if heat is not None:
            loud = [r.get("voice", 0) + r.get("stamp", 0) > 0 for r in document["heat"]]
            assert heat.noisy_from() == (loud.index(True) if any(loud) else None), document["slug"]


@pytest.mark.parametrize("language", OTHERS)
def test_a_task_for_home_fits_three_lines_of_the_printed_page(language):
    told = {message.id: message.string for message in known(language, "library")}
    assert [text for d in DOCUMENTS.values() if len(text := told[d["alone"]]) > 212] == []
