"""Predicted minutes against lessons played by simulated fencers of steady skill."""

import random
import statistics

import pytest

from cueladder.planning import plan
from tests.drills import chart_of
from tests.planning.lessons import Fencer, past, play

KINDS = ("sensitization", "desensitization", "discrimination")
FENCERS, LESSONS = 40, 25


@pytest.fixture(scope="module")
def evenings():
    """For each fencer the plan and what its lesson came to when played many times."""
    charts = {kind: chart_of(kind) for kind in KINDS}
    found = []
    for seed in range(FENCERS):
        rng = random.Random(seed)
        skill = {kind: rng.uniform(0.6, 0.98) for kind in KINDS}
        fencer = Fencer(rng, skill, rng.uniform(8, 16), hold=0.3)
        days = ["2026-01-05", "2026-01-12", "2026-01-19"][: rng.randint(1, 3)]
        standings = past(fencer, charts, days, 30)
        day = rng.choice(["2026-01-23", "2026-01-29", "2026-02-20"])
        lesson = plan(rng.choice([10, 20, 30]), standings, day)
        runs = [play(lesson, standings, day, fencer) for _ in range(LESSONS)]
        found.append((lesson, runs))
    return found


def planned(lesson):
    return sum(block.minutes for block in lesson.blocks)


def test_the_minutes_planned_are_those_lessons_take_on_average(evenings):
    errors = []
    for lesson, runs in evenings:
        taken = statistics.mean(sum(minutes for minutes, _ in run) for run in runs)
        errors.append(abs(planned(lesson) - taken) / taken)
    assert statistics.median(errors) <= 0.12


def test_one_lesson_takes_the_minutes_planned_within_a_fifth_half_the_time(evenings):
    errors = [
        abs(planned(lesson) - sum(minutes for minutes, _ in run)) / planned(lesson)
        for lesson, runs in evenings
        for run in runs
    ]
    assert statistics.median(errors) <= 0.20


@pytest.mark.parametrize("role", ["re-check", "main", "second", "sure success"])
def test_each_kind_of_block_takes_the_minutes_planned_for_it(evenings, role):
    errors = []
    for lesson, runs in evenings:
        for i, block in enumerate(lesson.blocks):
            if block.role == role:
                taken = statistics.mean(run[i][0] for run in runs)
                errors.append((block.minutes - taken) / taken)
    assert len(errors) >= 20
    assert statistics.median(map(abs, errors)) <= 0.20
    assert abs(statistics.mean(errors)) <= 0.10


@pytest.mark.parametrize("role", ["re-check", "main", "second"])
def test_the_chance_of_climbing_is_how_often_fencers_climb(evenings, role):
    said, was = [], []
    for lesson, runs in evenings:
        for i, block in enumerate(lesson.blocks):
            if block.role == role:
                said.append(block.climb)
                was.append(statistics.mean(run[i][1] for run in runs))
    assert statistics.mean(said) == pytest.approx(statistics.mean(was), abs=0.08)
