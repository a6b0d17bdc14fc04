"""A rule that can never be met is refused; the defaults can always be met."""

from datetime import date, timedelta

import pytest

from cueladder.rules import RuleError, fresh
from cueladder.rules.draft import draft
from cueladder.rules.reach import check_reach, clean_lesson, why_never_met
from cueladder.rules.settings import SETTINGS
from tests.drills import GIVES, chart_of, document

CUES = [8, 9, 12, 15, 20, 25, 33, 40]


def lessons_to_the_top(chart, cues):
    walk, day, lessons = fresh(chart), date(2026, 1, 5), 0
    while walk.met is None or chart.places[walk.met].climb is not None:
        walk = clean_lesson(chart, walk, day.isoformat(), cues)
        day, lessons = day + timedelta(days=7), lessons + 1
        assert lessons < 200
    return lessons


@pytest.mark.parametrize("cues", CUES)
@pytest.mark.parametrize("kind", GIVES)
@pytest.mark.parametrize("setting", ["quick", "usual", "strict"])
def test_a_fencer_who_never_errs_meets_every_rung_at_any_number_of_cues(kind, cues, setting):
    chart = chart_of(kind, rule={"family": "changepoint", **SETTINGS[kind][setting]}, usual=cues)
    assert why_never_met(chart) is None
    assert lessons_to_the_top(chart, cues) > 0


@pytest.mark.parametrize("kind", ["sensitization", "desensitization"])
def test_at_fifteen_cues_a_single_drill_takes_at_most_two_lessons_a_rung(kind):
    chart = chart_of(kind, rule=None)
    assert lessons_to_the_top(chart, 15) <= 2 * len(chart.places)


def test_ten_in_a_row_with_rest_after_five_is_refused_and_both_figures_named():
    with pytest.raises(RuleError) as caught:
        check_reach(chart_of(rule={"family": "run", "n": 10}, cap=5))
    assert caught.value.field == "rule"
    assert "10 clean answers" in caught.value.message
    assert "after 5 cues" in caught.value.message


def test_more_in_a_row_than_a_lesson_has_cues_is_refused_and_both_figures_named():
    with pytest.raises(RuleError) as caught:
        check_reach(chart_of(rule={"family": "run", "n": 12}, usual=8))
    assert "12 clean answers" in caught.value.message and "8 cues" in caught.value.message


def test_a_mixed_drill_that_asks_for_both_halves_in_one_lesson_is_refused():
    rule = {"family": "window", "k": 10, "w": 12}
    assert why_never_met(chart_of("discrimination", rule=rule, usual=18)) is not None
    assert why_never_met(chart_of("discrimination", rule=rule, usual=24)) is None


def test_a_draft_says_that_its_rule_cannot_be_met():
    errors = draft(document(rule={"family": "run", "n": 10}, cap=5)).errors
    assert list(errors) == ["rule"]
