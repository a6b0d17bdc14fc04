"""The quick check of an event's form says the same as the whole one."""

import json

from hypothesis import given
from hypothesis import strategies as st
from marshmallow import ValidationError

from cueladder.store.log.schemas import SCHEMAS, why_each_malformed, why_malformed
from tests.examples import examples

SOME_ID = "01890a5d-ac96-774b-bcce-b302099a8057"
GOOD = {
    "id": SOME_ID, "type": "cue_marked", "device": SOME_ID, "n": 3, "coach": SOME_ID,
    "at": "2026-03-02T18:20:00.000+01:00", "lesson": SOME_ID, "drill": SOME_ID, "chart": "c1.0a",
    "place": 0, "given": "attack", "mark": "late", "tense": False, "loud": None, "wait": 2.5,
    "fencer": SOME_ID, "day": "2026-03-02", "reason": None, "when": "before", "value": 3,
    "text": "well", "instead_of": SOME_ID, "number": 12, "giver": SOME_ID, "hand": "left",
    "where": "Old hall", "state": "fresh", "met": 8, "answered": 5, "shown": 4, "fallen": 2,
    "scored": 3, "conceded": 1, "card": "7ZK3M-0Q9RT-4XC", "cues": "aadad", "ticks": "110-1",
}  # fmt: skip
VALUES = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(),
    st.text(max_size=8),
    st.sampled_from([SOME_ID, SOME_ID.upper(), "2026-02-30", "attack", "correct", "", "\0"]),
    st.lists(st.integers(), max_size=2),
    st.dictionaries(st.text(max_size=2), st.integers(), max_size=2),
)


def well_formed(kind):
    return {**{name: GOOD[name] for name in SCHEMAS[kind].fields}, "type": kind} | (
        {"mark": SOME_ID} if kind == "mark_voided" else {}
    )


def test_a_good_event_of_every_type_is_well_formed():
    assert [why_malformed(well_formed(kind)) for kind in SCHEMAS] == [None] * len(SCHEMAS)


def test_a_mark_needs_no_number_and_need_correct_nothing():
    plain = well_formed("cue_marked")
    del plain["instead_of"], plain["number"]
    assert why_malformed(plain) is None
    assert why_malformed({**plain, "number": 3}) is None
    assert why_malformed({**plain, "instead_of": SOME_ID}) is None
    assert why_malformed({**plain, "instead_of": None}) == {"instead_of": ["should not be null"]}
    assert list(why_malformed({**plain, "number": 0})) == ["number"]


@examples(133)
@given(
    kind=st.sampled_from(sorted(SCHEMAS)),
    changes=st.dictionaries(st.sampled_from(sorted(GOOD)), VALUES, max_size=2),
    left_out=st.sets(st.sampled_from(sorted(GOOD)), max_size=1),
)
def test_the_quick_check_never_lets_through_what_the_schema_refuses(kind, changes, left_out):
    changes.pop("type", None)
    event = {n: v for n, v in {**well_formed(kind), **changes}.items() if n not in left_out}
    try:
        SCHEMAS[kind].load(event)
        expected = False
    except ValidationError:
        expected = True
    if "type" in left_out:
        expected = True
    why = why_malformed(event)
    assert (why is not None) == expected
    good = well_formed(kind)
    assert why_each_malformed([good, event, good, event]) == [None, why, None, why]
    if why:
        assert all(text for lines in why.values() for text in lines)


@examples(100)
@given(anything=st.recursive(VALUES, lambda inner: st.lists(inner, max_size=3), max_leaves=5))
def test_whatever_is_sent_as_an_event_is_judged_without_a_crash(anything):
    json.dumps(why_malformed(anything))
    json.dumps(why_malformed({"type": "cue_marked", "id": anything}))
    json.dumps(why_malformed({"type": anything}))
