"""A simulated lesson follows the chart and the fencer."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import binomtest

from cueladder.rules import ChangePoint, Mark, Run, compile_chart, enter, fresh, step
from seed_demo.learners import MODELS, draw
from seed_demo.lesson import (
    GIVEN,
    MARKS,
    Fencer,
    answer,
    give,
    holds,
    lesson,
    newcomer,
    right,
    truth,
)
from seed_demo.study.drill import drill

KINDS = ["sensitization", "desensitization", "discrimination"]


def chart_of(kind, rule=None):
    return compile_chart(drill(kind, rule or ChangePoint()))


def season(chart, model, seed, lessons=6):
    rng = np.random.default_rng(seed)
    fencer, walk, taught = newcomer(model, rng), fresh(chart), []
    for week in range(lessons):
        day = f"2026-{9 + week // 4:02d}-{1 + 7 * (week % 4):02d}"
        taught.append((day, walk, lesson(chart, walk, fencer, day, cues=30, rng=rng)))
        walk, fencer = taught[-1][2].walk, taught[-1][2].fencer
    return taught


@pytest.mark.parametrize("model", MODELS)
@pytest.mark.parametrize("kind", KINDS)
def test_the_marks_of_a_lesson_walked_again_give_the_same_walk(kind, model):
    chart = chart_of(kind, Run(4))
    for day, walk, taught in season(chart, model, 1):
        again = enter(chart, walk, day)
        for cue in taught.cues:
            assert cue.place == again.place
            again = step(chart, again, cue.given, cue.mark)
            assert again == cue.walk
        assert again == taught.walk


@pytest.mark.parametrize("kind", KINDS)
def test_the_same_seed_gives_the_same_season_and_another_seed_another(kind):
    chart = chart_of(kind)

    def marks(seed):
        return [(c.given, c.mark) for _, _, t in season(chart, "steady", seed) for c in t.cues]

    assert marks(1) == marks(1)
    assert marks(1) != marks(2)


def test_a_drill_left_for_the_day_ends_after_its_closing_cues():
    chart = compile_chart(drill("sensitization", Run(20), cap=8))
    rng = np.random.default_rng(2)
    slow = newcomer("insight", rng)
    taught = lesson(chart, fresh(chart), slow, "2026-09-01", cues=40, rng=rng)
    assert len(taught.cues) == 8 + chart.closing
    assert taught.walk.why == "done"


def test_minutes_are_spent_at_the_fencers_own_pace():
    chart, rng = chart_of("sensitization"), np.random.default_rng(2)
    fencer = newcomer("steady", rng)
    traits = replace(fencer.group.traits, pace=np.array([12.0]))
    fencer = Fencer(replace(fencer.group, traits=traits))
    taught = lesson(chart, fresh(chart), fencer, "2026-09-01", minutes=5, rng=rng)
    assert len(taught.cues) == 25


def test_a_lesson_needs_cues_or_minutes_but_not_both():
    chart, rng = chart_of("sensitization"), np.random.default_rng(2)
    for sizes in ({}, {"cues": 3, "minutes": 3.0}):
        with pytest.raises(ValueError, match="either cues or minutes"):
            lesson(chart, fresh(chart), newcomer("steady", rng), "2026-09-01", rng=rng, **sizes)


@pytest.mark.parametrize("kind", KINDS)
def test_marks_fall_as_the_true_chance_and_the_traits_say(kind):
    n = 40_000
    rng = np.random.default_rng(6)
    group = draw("steady", n, rng)
    given = np.zeros(n, dtype=int)
    held = holds(chart_of(kind).kind, group, (np.full(n, 1), np.full(n, 1)))
    chance, mark = answer(chart_of(kind).kind, group, given, held, rng.random((5, n)))
    marks = np.array(MARKS)[mark]
    good = (marks == Mark.CORRECT) | (marks == Mark.TENSE)
    assert binomtest(int(good.sum()), n, float(chance.mean())).pvalue > 1e-4
    early = (marks == Mark.EARLY)[~good].mean()
    wanted = {
        "sensitization": group.traits.early.mean(),
        "desensitization": 1 - group.traits.freeze.mean(),
        "discrimination": 0.5,
    }[kind]
    assert early == pytest.approx(wanted, abs=0.03)


def test_a_decoy_is_left_alone_or_reacted_to():
    n = 1000
    rng = np.random.default_rng(6)
    group, chart = draw("steady", n, rng), chart_of("discrimination")
    given = np.ones(n, dtype=int)
    held = holds(chart.kind, group, (np.full(n, 5), np.zeros(n, dtype=int)))
    chance, mark = answer(chart.kind, group, given, held, rng.random((5, n)))
    assert {MARKS[m] for m in mark} == {Mark.CORRECT, Mark.TENSE, Mark.DECOY}
    assert (chance > right(chart.kind, group, np.zeros(n, dtype=int), held)).all()


def test_the_truth_counts_a_tense_answer_as_the_drill_does():
    n = 100
    group = draw("steady", n, np.random.default_rng(6))
    rungs, attack = (np.full(n, 1), np.full(n, 1)), np.zeros(n, dtype=int)
    for kind in KINDS:
        chart = chart_of(kind)
        held = holds(chart.kind, group, rungs)
        relaxed = truth(chart, group, held)
        good = right(chart.kind, group, attack, held)
        assert (relaxed == good).all() if kind == "sensitization" else (relaxed < good).all()


def test_never_more_than_three_cues_of_a_kind_in_a_row():
    chart, rng = chart_of("discrimination"), np.random.default_rng(8)
    alike, given = np.zeros(50), []
    for _ in range(200):
        cue, alike = give(chart, alike, rng.random(50))
        given.append(cue)
    orders = np.array(given)
    four = np.lib.stride_tricks.sliding_window_view(orders, 4, axis=0).sum(axis=-1)
    assert ((four > 0) & (four < 4)).all()
    assert abs(orders.mean() - 0.5) < 0.02


def test_a_drill_of_attacks_gives_only_attacks():
    chart = chart_of("sensitization")
    cue, _ = give(chart, np.zeros(20), np.random.default_rng(1).random(20))
    assert {GIVEN[c] for c in cue} == {"attack"}
