"""What a rung leaves to react in; the limits are textbook values, from memory (see the module)."""

import pytest

from cueladder.rules import Drill, RuleError
from cueladder.rules.reaction import CHILD_MS, CHOICE_MS, SIMPLE_MS, left_on
from tests.drills import HEAT, READ, SCALES, document

SLOW = {"family": "read", "grades": ["slow", "half speed", "full speed"]}


def timed(takes, kind="sensitization", time=None, **changes):
    scales = {**SCALES, "speed": {**SLOW, "takes": takes}}
    return document(kind, scales=scales, time=time or {"answer": 100}, **changes)


def left(doc):
    drill = Drill.from_json(doc)
    return left_on(drill.timing, drill.read or drill.heat)


def test_a_rung_leaves_what_the_cue_takes_less_what_the_answer_takes():
    assert left(timed([2000, 1000, 300])) == [1900, 1900, 900, 900, 200]


def test_what_is_gone_before_the_cue_can_be_told_is_not_left():
    doc = timed([2000, 1000, 800])
    doc["scales"]["size"] = {**SCALES["size"], "gone": [0, 0.25, 0.5]}
    assert left(doc) == [1900, 1400, 650, 400, 300]


def test_an_answer_that_takes_longer_at_one_grade_leaves_less_there():
    doc = timed([2000, 1000, 800])
    doc["scales"]["size"] = {**SCALES["size"], "answer": [0, 0, 350]}
    assert left(doc)[-1] == 350


def test_a_grade_without_a_limit_leaves_all_the_time():
    assert left(timed([None, 1000, 800])) == [None, None, 900, 900, 700]


def test_a_drill_without_times_leaves_all_the_time():
    assert left(document()) == [None] * len(READ)


def test_in_a_mixed_drill_the_hardest_rung_of_the_other_ladder_counts():
    doc = timed([2000, 1500, 1000], "discrimination")
    doc["scales"]["voice"] = {**SCALES["voice"], "takes": [0, -200, -200]}
    drill = Drill.from_json(doc)
    assert left_on(drill.timing, drill.read, drill.heat)[-1] == 1000 - 200 - 100
    assert left_on(drill.timing, drill.heat, drill.read) == [900, 900, 700]


@pytest.mark.parametrize(
    ("doc", "needs"),
    [
        (lambda ms: timed([2000, 1000, ms]), SIMPLE_MS),
        (lambda ms: timed([2000, 1000, ms], level="first"), SIMPLE_MS + CHILD_MS),
        (lambda ms: timed([2000, 1000, ms], time={"answer": 100, "choice": True}), CHOICE_MS),
        (lambda ms: timed([2000, 1000, ms], "discrimination"), CHOICE_MS),
    ],
    ids=["one thing to do", "a child", "a choice", "a mixed drill"],
)
def test_a_rung_that_leaves_less_than_a_reaction_is_refused_by_name(doc, needs):
    Drill.from_json(doc(needs + 100))
    with pytest.raises(RuleError) as caught:
        Drill.from_json(doc(needs + 99))
    assert caught.value.field == f"read[{len(READ) - 1}]"
    assert f"leaves {(needs - 1) / 1000:.2f} s to react in" in caught.value.message


def test_a_heat_ladder_that_leaves_too_little_is_refused_too():
    doc = document("desensitization", gives="attacks", time={"takes": 1000, "answer": 100})
    doc["scales"] = {**SCALES, "voice": {**SCALES["voice"], "takes": [0, -800, -900]}}
    with pytest.raises(RuleError) as caught:
        Drill.from_json(doc)
    assert caught.value.field == f"heat[{len(HEAT) - 1}]"


@pytest.mark.parametrize(
    ("field", "numbers", "at"),
    [
        ("takes", [1, 2], "scales.speed.takes"),
        ("takes", [1, 2, "3"], "scales.speed.takes"),
        ("takes", [1, 2, 99_999], "scales.speed.takes"),
        ("gone", [0, 0.5, 1], "scales.speed.gone"),
        ("answer", [0, 1, True], "scales.speed.answer"),
        ("answer", 7, "scales.speed.answer"),
    ],
)
def test_times_that_do_not_fit_their_grades_are_refused_by_field(field, numbers, at):
    scales = {**SCALES, "speed": {**SLOW, field: numbers}}
    with pytest.raises(RuleError) as caught:
        Drill.from_json(document(scales=scales))
    assert caught.value.field == at


@pytest.mark.parametrize(
    ("time", "at"), [({"answer": -1}, "time.answer"), ({"choice": 1}, "time.choice"), (3, "time")]
)
def test_a_drill_s_own_times_are_checked_by_field(time, at):
    with pytest.raises(RuleError) as caught:
        Drill.from_json(document(time=time))
    assert caught.value.field == at
