"""The walk on arrays is the walk of the rules."""

import numpy as np
import pytest

from cueladder.evidence.learning import crowd as many
from cueladder.rules import (
    ChangePoint,
    Given,
    Mark,
    Run,
    Sequential,
    Tally,
    Window,
    compile_chart,
    enter,
    fresh,
    step,
)
from cueladder.rules.rule import Slips
from seed_demo.lesson import GIVEN, MARKS
from seed_demo.study.drill import drill

RULES = [
    Tally(),
    Tally(6, 3, 2, floor=4),
    ChangePoint(0.5, 0.9),
    Run(5),
    Run(3, Slips(1, None)),
    Window(6, 8),
    Sequential(0.6, 0.9, 0.1, 0.1, 12),
]
KINDS = ["sensitization", "desensitization", "discrimination"]
HISTORIES, LESSONS, CUES = 40, 8, 50


def as_row(walk):
    return (
        walk.place,
        walk.work,
        walk.phase,
        walk.counters,
        walk.cues,
        walk.check,
        tuple((rung.place, rung.holds) for rung in walk.rungs),
        walk.met,
        walk.secure,
    )


def row_of(crowd, i):
    def none(value):
        return None if value < 0 else int(value)

    phase = many.PHASES[crowd.phase[i]]
    check = (int(crowd.check_k[i]), int(crowd.check_state[i])) if phase == "check" else None
    return (
        int(crowd.place[i]),
        int(crowd.work[i]),
        phase,
        tuple(int(s) for s in crowd.counters[:, i]),
        int(crowd.cues[i]),
        check,
        tuple(
            (int(place), int(holds))
            for place, holds in zip(crowd.rungs[:, i], crowd.holds[:, i], strict=True)
            if place >= 0
        ),
        none(crowd.met[i]),
        none(crowd.secure[i]),
    )


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("rule", RULES, ids=lambda r: type(r).__name__.lower())
def test_every_field_agrees_with_the_rules_after_every_cue_of_random_histories(kind, rule):
    chart = compile_chart(drill(kind, rule, rungs=4, cap=20))
    board = many.Board(chart)
    rng = np.random.default_rng(5)
    walks = [fresh(chart)] * HISTORIES
    crowd = many.fresh(board, HISTORIES)
    day = np.full(HISTORIES, 739000)
    seen = set()
    for _ in range(LESSONS):
        days = rng.choice([0, 1, 7, 10, 11, 28, 29, 90, 91, 400], HISTORIES)
        day += days
        walks = [
            enter(chart, w, np.datetime64(int(d) - 719163, "D").astype(str))
            for w, d in zip(walks, day, strict=True)
        ]
        many.enter(board, crowd, days)
        pass_rate = rng.choice([0.3, 0.7, 0.9, 0.99], HISTORIES)
        for _ in range(CUES):
            given = rng.integers(0, len(chart.meaning), HISTORIES)
            mark = np.array(
                [
                    MARKS.index(_mark(chart, g, rng, p))
                    for g, p in zip(given, pass_rate, strict=True)
                ]
            )
            was = [w.place for w in walks]
            walks = [
                step(chart, w, GIVEN[g], MARKS[m])
                for w, g, m in zip(walks, given, mark, strict=True)
            ]
            told = many.step(board, crowd, given, mark)
            seen |= set(told.tolist())
            for i, walk in enumerate(walks):
                assert row_of(crowd, i) == as_row(walk)
                rose = chart.places[walk.place].height > chart.places[was[i]].height
                if walk.phase != "close":
                    assert rose == (told[i] in (many.CLIMBED, many.HELD))
    assert {many.CLIMBED, many.HELD, many.FAILED, many.BACK} <= seen


def test_a_mark_that_the_drill_does_not_know_is_refused():
    board = many.Board(compile_chart(drill("sensitization", ChangePoint())))
    crowd = many.fresh(board, 1)
    with pytest.raises(ValueError, match="cannot be given"):
        many.step(board, crowd, np.array([1]), np.array([0]))


def _mark(chart, given, rng, pass_rate):
    cells = list(chart.meaning[GIVEN[given]])
    if rng.random() < pass_rate:
        return Mark.CORRECT
    return cells[rng.integers(1, len(cells))]


def test_the_two_cues_are_attack_and_decoy_in_that_order():
    assert GIVEN == (Given.ATTACK, Given.DECOY)
