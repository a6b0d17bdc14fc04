"""The odds over some lessons, against the walk itself and against plain chains."""

import random
from dataclasses import replace
from datetime import date, timedelta

import pytest

from cueladder.evidence.odds import odds
from cueladder.evidence.over_lessons import over_lessons
from cueladder.rules import Given, Mark, enter, fresh, rule_from_json, step
from cueladder.rules.settings import SETTINGS
from cueladder.rules.state import Rung, with_rungs
from cueladder.rules.table import compile_rule
from tests.drills import chart_of

SHORT = {"family": "changepoint", "goal": 6, "slip": 3, "floor": 2, "patience": 3}
SLIP = {Given.ATTACK: Mark.LATE, Given.DECOY: Mark.DECOY}
FEW = [
    ("sensitization", SHORT, 8, 40), ("sensitization", SHORT, 12, 5),
    ("desensitization", SHORT, 8, 40), ("discrimination", SHORT, 9, 40),
    ("sensitization", {"family": "run", "n": 4}, 7, 40),
    ("discrimination", {"family": "run", "n": 3}, 9, 40),
]  # fmt: skip


def above_the_bottom(chart):
    """A walk that trains a place with a rung below on each ladder, what is below long secure."""
    below = chart.places[0].climb if len(chart.counters) > 1 else 0
    rung, work = Rung(below, 2, "2026-01-05"), chart.places[below].climb
    walk = with_rungs(enter(chart, fresh(chart), "2026-01-05"), (rung,))
    return replace(walk, place=work, work=work)


def played(chart, p, cues, rng):
    """(lesson in which the rung was met, whether it stepped back before, whether it held)."""
    walk, met = above_the_bottom(chart), None
    kinds = list(chart.meaning) if len(chart.counters) > 1 else [next(iter(chart.meaning))]
    for lesson in range(5):
        walk = enter(chart, walk, str(date(2026, 1, 6) + timedelta(days=7 * lesson)))
        for cue in range(cues):
            given = kinds[cue % len(kinds)]
            mark = Mark.CORRECT if rng.random() < p else SLIP[given]
            walk = step(chart, walk, given, mark)
            if walk.why == "held":
                return met, False, True
            if walk.phase == "close":
                break
            if walk.move.value == "back":
                return met, met is None, False
            if walk.why == "climb":
                met = lesson if met is None else met
                break
    return met, False, False


@pytest.mark.parametrize(("kind", "rule", "cues", "cap"), FEW, ids=str)
def test_the_odds_are_those_of_the_walk_played_many_times(kind, rule, cues, cap):
    chart, rng, times, p = chart_of(kind, rule=rule, cap=cap), random.Random(4), 3000, 0.8
    ends = [played(chart, p, cues, rng) for _ in range(times)]
    found = over_lessons(chart, p, cues=cues)
    for lesson in range(5):
        share = sum(met is not None and met <= lesson for met, _, _ in ends) / times
        assert share == pytest.approx(found.by_lesson[lesson], abs=0.03)
    assert sum(back for _, back, _ in ends) / times == pytest.approx(found.back, abs=0.03)
    assert sum(held for *_, held in ends) / times == pytest.approx(found.secure, abs=0.03)


def test_in_one_lesson_a_single_count_has_the_odds_of_its_chain_up_to_so_many_cues():
    chart = chart_of(rule=SHORT)
    table = compile_rule(rule_from_json(SHORT), holds=False)
    for p in (0.5, 0.8, 0.95):
        found = over_lessons(chart, p, lessons=1, cues=20)
        plain = odds(table, p, cap=20)
        assert found.climb == pytest.approx(plain.climb)
        assert found.back == pytest.approx(plain.back)
        assert found.secure == 0


@pytest.mark.parametrize("kind", SETTINGS)
def test_a_fencer_who_never_errs_is_sent_up_and_one_who_always_does_never(kind):
    chart = chart_of(kind, rule=None)
    sure = over_lessons(chart, 1.0)
    assert sure.climb == pytest.approx(1) and sure.secure == pytest.approx(1)
    assert over_lessons(chart, 0.0).climb == 0


@pytest.mark.parametrize("kind", SETTINGS)
def test_strict_is_fooled_less_than_usual_and_usual_less_than_quick(kind):
    quick, usual, strict = (
        over_lessons(chart_of(kind, rule={"family": "changepoint", **figures}), 0.8).climb
        for figures in SETTINGS[kind].values()
    )
    assert strict < usual < quick
    assert usual < 0.25


def test_more_cues_a_lesson_and_more_lessons_send_up_more_often():
    chart = chart_of(rule=None)
    assert over_lessons(chart, 0.9, cues=15).climb < over_lessons(chart, 0.9, cues=30).climb
    climbs = over_lessons(chart, 0.9, lessons=8).by_lesson
    assert list(climbs) == sorted(climbs)


@pytest.mark.parametrize("wrong", [{"p": 1.1}, {"lessons": 0}, {"cues": 0}])
def test_what_cannot_be_is_refused(wrong):
    with pytest.raises(ValueError, match="should be a chance"):
        over_lessons(chart_of(), **{"p": 0.8, **wrong})
