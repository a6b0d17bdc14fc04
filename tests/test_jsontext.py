"""JSON read and written fast says what the standard library says."""

import json
from datetime import UTC, date, datetime
from uuid import UUID

import pytest
from flask import Flask
from flask.json.provider import DefaultJSONProvider
from hypothesis import given
from hypothesis import strategies as st

from cueladder.jsontext import FastJson, read, write

VALUES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(2**63), 2**63 - 1)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(st.characters(exclude_categories=[]), max_size=6),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=4), inner),
    max_leaves=8,
)


@given(value=VALUES)
def test_what_is_written_is_read_back_the_same(value):
    assert read(write(value)) == value
    assert json.loads(write(value)) == value


@pytest.mark.parametrize("text", ['["\\ud83d"]', "[NaN]", "[Infinity, -Infinity]", "[1e400]"])
def test_what_the_fast_reader_refuses_is_still_read(text):
    assert repr(read(text)) == repr(json.loads(text))


@pytest.mark.parametrize("text", ["", "{", "[1,]", b"\xff\xfe", "nul"])
def test_what_is_no_json_is_a_value_error(text):
    with pytest.raises(ValueError):
        read(text)


@pytest.mark.parametrize(
    "value",
    [
        {"day": date(2026, 3, 2), "at": datetime(2026, 3, 2, 18, 20, tzinfo=UTC)},
        {"id": UUID("01890a5d-ac96-774b-bcce-b302099a8057"), "pair": (1, 2.5, None, True)},
        {"b": "Sixte, spät 🤺", "a": {1: "a key that is a number"}},
        ["half \ud83d", 10**30],
    ],
)
def test_an_answer_says_what_flask_would_have_said(value):
    app = Flask("salle")
    usual = DefaultJSONProvider(app)
    usual.sort_keys = False
    written = FastJson(app).dumps(value)
    assert json.loads(written) == json.loads(usual.dumps(value))
    assert list(json.loads(written)) == list(json.loads(usual.dumps(value)))
