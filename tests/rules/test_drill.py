import json

import pytest

from cueladder.rules import Chart, Drill, RuleError, compile_chart
from cueladder.rules.settings import MIXED, READING
from tests.drills import GIVES, HEAT, READ, SCALES, chart_of, document


@pytest.mark.parametrize("kind", GIVES)
def test_a_chart_survives_being_json(kind):
    chart = chart_of(kind)
    assert Chart.from_json(json.loads(json.dumps(chart.to_json()))) == chart


def test_the_same_drill_compiles_to_the_same_id_and_a_changed_rule_to_another():
    same = chart_of(), chart_of()
    assert same[0].id == same[1].id
    assert chart_of(rule={"family": "run", "n": 8}).id != same[0].id


def test_the_name_of_a_drill_does_not_change_its_chart():
    assert chart_of(name="Another name").id == chart_of().id


def test_a_chart_of_a_later_version_is_refused():
    doc = {**chart_of().to_json(), "id": "c3.0123456789abcdef"}
    with pytest.raises(RuleError, match="newer") as caught:
        Chart.from_json(doc)
    assert caught.value.field == "chart"


def test_a_jump_of_two_grades_is_refused_and_both_rungs_named():
    with pytest.raises(RuleError) as caught:
        Drill.from_json(document(read=[READ[0], READ[2]]))
    assert caught.value.field == "read[1]"
    assert "whole arm · slow" in caught.value.message
    assert "forearm · half speed" in caught.value.message


@pytest.mark.parametrize(
    "second",
    [
        {"size": 0, "speed": 0},
        {"size": 2, "speed": 0},
        {"size": 1, "speed": 1},
    ],
    ids=["no change", "two grades", "two scales"],
)
def test_neighbouring_rungs_differ_by_one_grade_on_one_scale(second):
    with pytest.raises(RuleError, match="not one grade up on one scale"):
        Drill.from_json(document(read=[READ[0], second]))


def test_a_step_down_inside_a_ladder_is_refused():
    with pytest.raises(RuleError, match="not one grade up"):
        Drill.from_json(document(read=[READ[1], READ[0]]))


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"slug": "No Spaces"}, "slug"),
        ({"name": "  "}, "name"),
        ({"name": 7}, "name"),
        ({"weapon": []}, "weapon"),
        ({"weapon": ["rapier"]}, "weapon"),
        ({"kind": "magic"}, "kind"),
        ({"gives": "either"}, "gives"),
        ({"read": None}, "read"),
        ({"heat": HEAT}, "heat"),
        ({"read": [READ[0]]}, "read"),
        ({"read": [READ[0], {"size": 1}]}, "read[1].speed"),
        ({"read": [READ[0], {"size": 9, "speed": 0}]}, "read[1].size"),
        ({"read": [READ[0], {"size": 1, "speed": 0, "voice": 0}]}, "read[1].voice"),
        ({"scales": {**SCALES, "mood": {"family": "read", "grades": ["a", "b"]}}}, "scales.mood"),
        ({"scales": {**SCALES, "size": {"family": "warm", "grades": ["a"]}}}, "scales.size.family"),
        ({"scales": {**SCALES, "size": {"family": "read", "grades": ["a"]}}}, "scales.size.grades"),
        (
            {"scales": {**SCALES, "size": {"family": "read", "grades": ["a", "a"]}}},
            "scales.size.grades",
        ),
        ({"rule": {"family": "run"}}, "rule.n"),
        ({"cap": 2}, "cap"),
        ({"paired": 3}, "paired"),
    ],
)
def test_a_wrong_drill_is_refused_and_the_field_named(changes, field):
    with pytest.raises(RuleError) as caught:
        Drill.from_json(document(**changes))
    assert caught.value.field == field


def test_a_missing_field_is_named():
    doc = document()
    del doc["action"]
    with pytest.raises(RuleError, match="missing") as caught:
        Drill.from_json(doc)
    assert caught.value.field == "action"


@pytest.mark.parametrize("field", ["purpose", "how", "safety", "alone"])
def test_a_coach_s_own_drill_may_go_without_the_longer_texts(field):
    doc = document()
    assert Drill.from_json({**doc, field: "  "}).texts[field] == ""
    del doc[field]
    assert Drill.from_json(doc).texts[field] == ""


def test_a_drill_without_a_rule_gets_the_default():
    doc = document()
    del doc["rule"], doc["cap"]
    chart = compile_chart(Drill.from_json(doc))
    assert chart.rule == {"family": "changepoint", **READING["usual"]}
    assert (chart.cap, chart.usual) == (40, 25)


def test_a_mixed_drill_has_a_default_of_its_own_and_more_cues_a_lesson():
    chart = chart_of("discrimination", rule=None)
    assert chart.rule == {"family": "changepoint", **MIXED["usual"]}
    assert chart.usual == 35


@pytest.mark.parametrize("kind", GIVES)
def test_every_place_can_be_climbed_to_and_left_downwards(kind):
    places = chart_of(kind).places
    reached, here = {0}, 0
    while places[here].climb is not None:
        here = places[here].climb
        reached.add(here)
    assert here == len(places) - 1
    for place in places:
        assert place.descent[-1] == 0
        assert len(place.descent) == place.height + 1
