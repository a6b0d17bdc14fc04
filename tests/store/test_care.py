from cueladder.rules import Drill
from cueladder.store.drills.library import library
from cueladder.story.care import BLADES, NOISE, STAKES, STOP, STOP_WORD, WORDS, care
from tests.drills import document


def test_what_care_asks_follows_from_what_is_given():
    quiet = care(Drill.from_json(document()))
    assert BLADES in quiet and STOP in quiet
    assert not {STOP_WORD, NOISE, WORDS} & set(quiet)
    assert BLADES not in care(Drill.from_json(document(blades=False)))
    assert {STOP_WORD, NOISE, WORDS} <= set(care(Drill.from_json(document("desensitization"))))


def test_stakes_are_a_game_wherever_a_drill_has_them():
    assert STAKES not in care(Drill.from_json(document("desensitization")))
    raised = [doc for doc in library() if "stakes" in doc["scales"]]
    assert len(raised) == 6
    for doc in raised:
        assert STAKES in care(Drill.from_json(doc)), doc["slug"]
        grades = [rung["stakes"] for rung in doc["heat"]]
        assert grades == sorted(grades) and {*grades} == {0, 1, 2, 3}, doc["slug"]
