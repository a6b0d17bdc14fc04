"""A drill being written: everything wrong at once, and the rungs that may come next."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cueladder.rules import Drill, RuleError
from cueladder.rules.draft import draft
from tests.drills import HEAT, READ, document

ROWS = st.lists(
    st.fixed_dictionaries({"size": st.integers(0, 2), "speed": st.integers(0, 2)}), max_size=6
)


def test_a_good_drill_has_no_errors_and_says_what_changes_from_rung_to_rung():
    found = draft(document("discrimination"))
    assert found.errors == {}
    assert [rung["changed"] for rung in found.ladders["read"]["rungs"]] == [
        "", "Size: forearm (was whole arm)", "Speed: half speed (was slow)",
        "Size: wrist (was forearm)", "Speed: full speed (was half speed)",
    ]  # fmt: skip
    assert found.ladders["read"]["next"] == []
    assert [offer["words"] for offer in found.ladders["heat"]["next"]] == [
        "Voice: shout (was calling)"
    ]


@given(rows=ROWS)
def test_whatever_the_rungs_every_offer_makes_a_right_step(rows):
    ladder = draft(document(read=rows)).ladders["read"]
    if rows:
        for offer in ladder["next"]:
            Drill.from_json(document(read=[rows[-1], offer["grades"]]))
    for i, rung in enumerate(ladder["rungs"]):
        for offer in rung["before"]:
            Drill.from_json(document(read=[rows[i - 1], offer["grades"]]))


@given(rows=ROWS)
def test_a_draft_without_errors_is_a_drill_and_one_with_errors_is_none(rows):
    errors = draft(document(read=rows)).errors
    if errors:
        with pytest.raises(RuleError):
            Drill.from_json(document(read=rows))
    else:
        Drill.from_json(document(read=rows))


def test_every_wrong_step_is_named_with_what_differs_and_the_missing_rungs_are_offered():
    found = draft(document(read=[READ[0], READ[2], READ[1], READ[1]]))
    assert {field: text.split(": ", 1)[1] for field, (text,) in found.errors.items()} == {
        "read[1]": "Size goes 1 grade up (whole arm to forearm), Speed goes 1 grade up "
        "(slow to half speed). Put the missing rung between them",
        "read[2]": "Speed goes 1 grade down (half speed to slow). Put the easier rung first, "
        "or take one out",
        "read[3]": "nothing differs. Take one of the two out",
    }
    assert [offer["grades"] for offer in found.ladders["read"]["rungs"][1]["before"]] == [
        {"size": 1, "speed": 0},
        {"size": 0, "speed": 1},
    ]


def test_an_empty_ladder_is_offered_the_plainest_rung_to_start_with():
    found = draft(document(read=[]))
    assert found.ladders["read"]["next"] == [
        {"words": "whole arm · slow", "grades": {"size": 0, "speed": 0}}
    ]
    assert list(found.errors) == ["read"]


def test_all_empty_texts_are_named_at_once():
    assert set(draft(document(name="", action=" ", safety="")).errors) == {"name", "action"}


@pytest.mark.parametrize(
    "changes",
    [
        {"kind": "juggling"}, {"kind": None}, {"scales": []}, {"scales": {"size": 3}},
        {"scales": {"size": {"family": "read", "grades": ["one"]}}}, {"read": 4},
        {"read": [[]]}, {"read": [{"size": 9, "speed": 0}]}, {"read": [{"size": 0}]},
        {"read": HEAT}, {"read": READ * 5}, {"heat": HEAT}, {"weapon": [{}]}, {"rule": {}},
        {"cap": "many"}, {"read": [None, READ[0]]},
    ],
    ids=str,
)  # fmt: skip
def test_a_draft_in_any_state_is_answered_with_its_errors(changes):
    assert draft(document(**changes)).errors
