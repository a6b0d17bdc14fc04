"""The odds of a rule, as the rule editor shows them."""

from __future__ import annotations

import json
from urllib.parse import quote

import pytest

from cueladder.evidence.odds import odds
from cueladder.evidence.over_lessons import over_lessons
from cueladder.rules import rule_from_json
from cueladder.rules.settings import MIXED, READING
from cueladder.rules.table import compile_rule
from cueladder.story.rule_odds import RATES, curve
from tests.drills import RULES, chart_of
from tests.store.club import Browser

RUN_10 = {"family": "run", "n": 10, "back_in_row": 2, "back_in_last": None}
RUN_15 = {**RUN_10, "n": 15}
# (rule, states, {true rate: (climb chance, expected cues)}), computed by hand-written chains
# before this program was.
KNOWN = [
    ({"family": "changepoint", "p0": 0.8, "p1": 0.97, "patience": 2}, 66,
     {0.7: (0.014, 9.8), 0.8: (0.122, 16.2), 0.9: (0.635, 23.5), 0.97: (0.978, 18.5)}),
    (RUN_10, 11, {0.7: (0.112, 12.8), 0.8: (0.419, 17.4), 0.9: (0.855, 16.0), 0.97: (0.990, 11.7)}),
    (RUN_15, 16, {0.7: (0.020, 14.2), 0.8: (0.180, 24.6), 0.9: (0.740, 28.6), 0.97: (0.983, 19.0)}),
    ({"family": "sequential"}, 144,
     {0.7: (0.004, 7.2), 0.8: (0.046, 12.3), 0.9: (0.408, 22.8), 0.97: (0.945, 21.0)}),
]  # fmt: skip


def ask(club, rule):
    return club.browser.post("/api/rules/odds", {"rule": rule})


@pytest.mark.parametrize(("rule", "states", "figures"), KNOWN, ids=lambda v: str(v)[:24])
def test_the_odds_are_the_ones_worked_out_beforehand(club, rule, states, figures):
    told = ask(club, rule).get_json()
    assert told["states"] == pytest.approx(states, abs=1)
    rows = {row["p"]: row for row in told["table"]}
    for p, (climb, cues) in figures.items():
        assert rows[p]["climb"] == pytest.approx(climb, abs=0.0006)
        assert rows[p]["cues"] == pytest.approx(cues, abs=0.06)
        assert rows[p]["climb"] + rows[p]["back"] == pytest.approx(1)


def test_ten_in_a_row_is_called_easily_fooled(club):
    told = ask(club, RUN_10).get_json()
    assert told["words"].startswith(
        "A fencer who is right 8 times in 10 would be sent up about 42 times in 100"
    )
    assert "easily fooled" in told["warning"]


def test_the_default_is_not_warned_about_and_stands_beside_itself(club):
    told = ask(club, {"family": "changepoint", **READING["usual"]}).get_json()
    assert told["warning"] is None
    assert told["table"] == told["default"]
    assert told["lessons"]["words"].startswith(
        "Over five weekly lessons of 25 cues a fencer who is"
    )


def test_the_odds_over_five_lessons_are_those_of_the_drills_chart(club):
    rule = {"family": "changepoint", **MIXED["usual"]}
    body = {"rule": rule, "kind": "discrimination", "usual": 30, "cap": 50, "startles": 2}
    told = club.browser.post("/api/rules/odds", body).get_json()["lessons"]
    chart = chart_of("discrimination", rule=rule, usual=30, cap=50, startles=2)
    assert told["cues"] == 30
    for row in told["rows"]:
        found = over_lessons(chart, row["p"])
        assert row["by_lesson"] == pytest.approx(list(found.by_lesson))
        assert (row["climb"], row["secure"]) == pytest.approx((found.climb, found.secure))


def test_a_rule_that_can_never_be_met_is_said_to_be_so(club):
    body = {"rule": RUN_10, "cap": 5}
    told = club.browser.post("/api/rules/odds", body).get_json()["lessons"]
    assert "10 clean answers" in told["never"] and "after 5 cues" in told["never"]
    assert told["rows"][-1]["climb"] == 0 and told["pace"] is None


@pytest.mark.parametrize("kind", ["sensitization", "desensitization", "discrimination"])
def test_quick_usual_and_strict_come_with_their_sentence_and_their_pace(club, kind):
    answer = club.browser.get(f"/api/rules/settings?kind={kind}")
    told = answer.get_json()["settings"]
    assert [each["name"] for each in told] == ["quick", "usual", "strict"]
    assert all(each["says"].startswith("Climbs at ") for each in told)
    fooled = [each["lessons"]["rows"][0]["climb"] for each in told]
    assert fooled == sorted(fooled, reverse=True)
    assert all(each["lessons"]["never"] is None for each in told)
    paces = [each["lessons"]["pace"] for each in told]
    assert paces == sorted(paces)


def test_the_settings_of_no_kind_are_refused(club):
    assert club.browser.get("/api/rules/settings?kind=juggling").status_code == 422


@pytest.mark.parametrize("doc", RULES, ids=lambda doc: str(doc)[:40])
def test_the_sparse_odds_are_those_of_the_evidence(doc):
    rule = rule_from_json(doc)
    table = compile_rule(rule)
    for p, ours in zip(RATES, curve(rule, RATES), strict=True):
        theirs = odds(table, p)
        assert ours.climb == pytest.approx(theirs.climb, abs=1e-9)
        assert ours.cues == pytest.approx(theirs.cues, rel=1e-9)


def test_a_window_over_twelve_cues_has_its_odds_too(club):
    told = ask(club, {"family": "window", "k": 10, "w": 12}).get_json()
    (row,) = [row for row in told["table"] if row["p"] == 0.8]
    assert row["climb"] == pytest.approx(0.5625, abs=0.0001)
    assert told["warning"]


def test_a_rule_with_thousands_of_states_has_its_odds_too(club):
    told = ask(club, {"family": "changepoint", "p0": 0.95, "p1": 0.97}).get_json()
    assert told["states"] > 4000
    assert all(row["climb"] + row["back"] == pytest.approx(1) for row in told["table"])


@pytest.mark.parametrize(
    ("rule", "field"),
    [
        ({"family": "run", "n": 1}, "rule.n"),
        ({"family": "run"}, "rule.n"),
        ({"n": 10}, "rule.family"),
        ({"family": "hope"}, "rule.family"),
        ({"family": "changepoint", "p0": 0.9, "p1": 0.8}, "rule.p1"),
        ({"family": "window", "k": 13, "w": 12}, "rule.k"),
        ("run", "rule"),
        (None, "rule"),
    ],
)
def test_a_rule_that_cannot_be_is_refused_by_its_field(club, rule, field):
    answer = ask(club, rule)
    assert answer.status_code == 422
    assert answer.mimetype == "application/problem+json"
    assert list(answer.get_json()["errors"]) == [field]


def test_the_curves_come_as_a_picture_that_runs_nothing(club):
    answer = club.browser.get(f"/api/rules/odds.svg?rule={quote(json.dumps(RUN_10))}")
    assert answer.status_code == 200
    assert answer.mimetype == "image/svg+xml"
    assert answer.headers["Content-Security-Policy"].startswith("default-src 'none'")
    assert b"<script" not in answer.data
    dark = club.browser.get(f"/api/rules/odds.svg?tone=dark&rule={quote(json.dumps(RUN_10))}")
    assert dark.status_code == 200 and dark.data != answer.data
    tall = club.browser.get(f"/api/rules/odds.svg?shape=tall&rule={quote(json.dumps(RUN_10))}")
    assert tall.status_code == 200 and tall.data != answer.data


@pytest.mark.parametrize("text", ["", "{", "7", "[" * 1500, '{"family":"run","n":1}', "x" * 2001])
def test_a_picture_of_no_rule_is_refused_by_its_field(club, text):
    answer = club.browser.get(f"/api/rules/odds.svg?rule={quote(text)}")
    assert answer.status_code == 422
    (field,) = answer.get_json()["errors"]
    assert field.split(".")[0] == "rule"


def test_odds_are_for_those_who_are_signed_in(club):
    stranger = Browser(club.app)
    assert stranger.post("/api/rules/odds", {"rule": RUN_10}).status_code == 401
    assert stranger.get("/api/rules/odds.svg?rule={}").status_code == 401
    club.add_coach("Runa", "observer")
    assert club.sign_in("Runa").post("/api/rules/odds", {"rule": RUN_10}).status_code == 200
