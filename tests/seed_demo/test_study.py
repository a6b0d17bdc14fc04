"""The study of the rules: its years, its figures, its verdict, its files."""

import contextlib
import csv
import io
from dataclasses import replace

import numpy as np
import pytest

from cueladder.rules import Given, Kind, Mark, enter, fresh, step
from cueladder.rules.rule import settings_of
from seed_demo.learners import MODELS, select
from seed_demo.lesson import Fencer, lesson
from seed_demo.study.__main__ import main
from seed_demo.study.figures import GROUPS, LEARNERS, Row
from seed_demo.study.flawless import lessons
from seed_demo.study.forecast import cases
from seed_demo.study.plan import MIXED, QUICK, READING
from seed_demo.study.rules import RUNGS, candidates, main_settings
from seed_demo.study.year import CALENDARS, FAST, FORGETFUL, spend, year

pytestmark = pytest.mark.thorough

READ, HEAT, BOTH = Kind.SENSITIZATION, Kind.DESENSITIZATION, Kind.DISCRIMINATION
TINY = replace(
    QUICK, cues=(10,), each=5, base=8, tuned=5, filtered=3, particles=15, thresholds=(0.9,)
)


def usual(kind):
    return main_settings(kind)[0]


@pytest.fixture(scope="module")
def many():
    """The usual settings where the bars are, on fencers of the tests' own."""
    spent = {}
    for condition in (READING, MIXED):
        season = year(400, condition.cues, condition.calendar, 77, forgetful=False)
        outcome = spend(usual(Kind(condition.kind)).chart(), season)
        spent[Kind(condition.kind)] = outcome
    return spent


def share(part, whole):
    """A share of sums over fencers, and its standard error."""
    ratio = part.sum() / whole.sum()
    spread = np.std(part - ratio * whole) / whole.mean() / np.sqrt(len(part))
    return ratio, spread


def test_reading_at_25_cues_keeps_its_bars(many):
    got = many[READ]
    error = got.rungs.std() / np.sqrt(len(got.rungs))
    assert got.rungs.mean() > 5.3 - 2 * error
    early, spread = share(got.early, got.climbs)
    assert early < 0.035 + 2 * spread
    assert share(got.checks, got.cues)[0] < 0.05


def test_mixed_at_35_cues_keeps_its_bars_though_tense_answers_count_as_no_pass(many):
    got = many[BOTH]
    error = got.rungs.std() / np.sqrt(len(got.rungs))
    assert got.rungs.mean() > 3.0 - 2 * error
    early, spread = share(got.early, got.climbs)
    assert early < 0.06 + 2 * spread
    assert share(got.wrong, got.climbs)[0] < 0.02


def test_counts_that_wait_climb_further_than_the_first_default(many):
    first = next(s for s in main_settings(BOTH) if not s.waits)
    season = year(400, 35, "weekly", 77, forgetful=False)
    assert spend(first.chart(), season).rungs.mean() < 0.5 * many[BOTH].rungs.mean()


@pytest.mark.parametrize("kind", Kind)
@pytest.mark.parametrize("cues", [8, 9, 13, 25])
def test_a_fencer_who_never_errs_meets_every_rung_from_eight_cues_up(kind, cues):
    chart = usual(kind).chart()
    assert len(lessons(chart, cues)) == max(p.height for p in chart.places) + 1


@pytest.mark.parametrize("kind", [READ, HEAT])
def test_single_drills_at_15_cues_take_who_never_errs_at_most_two_lessons_a_rung(kind):
    met = [0, *lessons(usual(kind).chart(), 15)]
    assert max(np.diff(met)) <= 2


def test_quick_asks_less_than_usual_and_strict_more():
    for kind in Kind:
        goals = [settings_of(kind)[name].goal for name in ("quick", "usual", "strict")]
        assert goals == sorted(goals)
        assert len(set(goals)) == 3


def test_a_fencer_of_the_study_is_taught_as_in_a_lesson_of_the_demo():
    """Same fencers, same chart: as many rungs met in the first two lessons."""
    chart, n = usual(READ).chart(), 150
    season = year(n, 30, "weekly", 5, lessons=2, forgetful=False)
    met = spend(chart, season).rungs[:n]
    rng, alone = np.random.default_rng(6), []
    for i in range(n):
        fencer, walk = Fencer(select(season.groups[0], np.array([i]))), fresh(chart)
        for day in ("2026-09-01", "2026-09-08"):
            taught = lesson(chart, walk, fencer, day, cues=30, rng=rng)
            fencer, walk = taught.fencer, taught.walk
        alone.append(0 if walk.met is None else chart.places[walk.met].height + 1)
    spread = np.hypot(met.std(), np.std(alone)) / np.sqrt(n)
    assert abs(met.mean() - np.mean(alone)) < 4 * spread


def test_a_year_adds_up():
    season = year(60, 50, "weekly", 5, lessons=12)
    got = spend(usual(READ).chart(), season)
    there = got.reached > 0
    assert there.any() and (~there).any()
    assert (got.cues <= got.lessons * 50).all()
    assert (got.rungs[there] == RUNGS).all()
    assert (got.lessons[~there] == 12).all()
    assert (got.wrong <= got.early).all() and (got.early <= got.climbs).all()
    assert (got.easy + got.checks <= 2 * got.cues).all()
    assert (got.climbs >= got.rungs).all()


def test_the_same_seed_gives_the_same_year_and_another_seed_another():
    chart = usual(READ).chart()
    one, two, other = (spend(chart, year(10, 40, "irregular", s, lessons=6)) for s in (1, 1, 2))
    for name in ("cues", "climbs", "early", "met"):
        assert (getattr(one, name) == getattr(two, name)).all()
    assert (one.easy != other.easy).any()


def test_the_calendars_are_what_they_say():
    weekly = year(5, 3, "weekly", 1).gaps
    assert (weekly[0] == 0).all() and (weekly[1:] == 7).all()
    assert set(np.unique(year(40, 3, "irregular", 1).gaps[1:])) == set(CALENDARS["irregular"][0])


def test_the_fast_forgetters_learn_alike_and_forget_five_times_as_fast():
    season = year(400, 3, "weekly", 1)
    for plain, fast in zip(season.groups[:3], season.groups[3:], strict=True):
        assert fast.model == plain.model
        assert (fast.traits.forget == FAST * plain.traits.forget).all()
        assert fast.traits.gain.mean() == pytest.approx(plain.traits.gain.mean(), rel=0.15)
    assert (season.models[: 3 * 400] != FORGETFUL).all()


def test_the_first_default_begins_anew_in_every_lesson_and_the_usual_does_not():
    for setting in main_settings(READ):
        chart = setting.chart()
        walk = enter(chart, fresh(chart), "2026-09-01")
        for _ in range(12):
            walk = step(chart, walk, Given.ATTACK, Mark.CORRECT)
        later = enter(chart, walk, "2026-09-08")
        kept = setting.label in ("usual", "quick", "strict")
        assert any(later.counters) == kept


def test_the_usual_rule_comes_first_among_the_candidates_and_no_rule_twice():
    for kind in Kind:
        tried = list(candidates(kind))
        assert tried[0].rule == settings_of(kind)["usual"]
        assert len({setting.rule for setting in tried}) == len(tried)


@pytest.fixture(scope="module")
def printed(tmp_path_factory):
    """What the command writes and prints: its rows by file, and its text."""
    out, said = tmp_path_factory.mktemp("study"), io.StringIO()
    with pytest.MonkeyPatch.context() as patch, contextlib.redirect_stdout(said):
        patch.setattr("seed_demo.study.__main__.QUICK", TINY)
        main(["--out", str(out), "--quick", "--seed", "3"])
    rows = {}
    for path in out.iterdir():
        with path.open(newline="") as file:
            rows[path.stem] = list(csv.DictReader(file))
    return rows, said.getvalue()


def test_the_command_writes_every_figure_of_every_setting_and_candidate(printed):
    rows, _ = printed
    assert set(rows) == {"conditions", "candidates"}
    for each in rows.values():
        assert set(each[0]) == set(Row.__dataclass_fields__)
        assert all(0 <= float(row["early"]) <= 1 for row in each)
    for kind in Kind:
        mine = [row for row in rows["conditions"] if row["kind"] == kind.value]
        assert {row["who"] for row in mine} == set(GROUPS)
        assert len(mine) == len(GROUPS) * len(main_settings(kind))


def test_the_figures_of_all_learners_are_the_mean_of_each(printed):
    rows, _ = printed
    mine = [r for r in rows["conditions"] if r["kind"] == READ.value and r["rule"] == "usual"]
    each = {row["who"]: float(row["rungs"]) for row in mine}
    assert each[LEARNERS] == pytest.approx(np.mean([each[m] for m in MODELS]), abs=1e-3)


def test_the_command_names_the_limits_and_says_of_each_bar_whether_it_is_met(printed):
    _, said = printed
    for part in ("exact optimum", "knows the learners", "sees the true rate", "never errs"):
        assert part in said
    judged = [line for line in said.splitlines() if ": met" in line or "MISSED" in line]
    assert len(judged) == 7


def test_forecast_cases_start_at_nothing_and_add_up():
    tried = list(cases(4, np.random.default_rng(2)))
    assert {case.model for case in tried} <= set(MODELS)
    for case in tried:
        assert len(case.gains) >= 4
        assert sum(case.gains) + case.remaining == RUNGS
        assert case.truth >= 1
