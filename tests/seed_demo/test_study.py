"""The study of the rules: its figures, its verdict, its files."""

import csv
from dataclasses import replace
from xml.etree import ElementTree

import numpy as np
import pytest

from cueladder.rules import fresh
from cueladder.rules.rule import DEFAULT
from seed_demo.coverage import cases
from seed_demo.learners import MODELS, select
from seed_demo.lesson import Fencer, lesson
from seed_demo.study import COLUMNS, MARGIN, QUICK, main, report, rows, study
from seed_demo.study_rules import BASELINE, settings
from seed_demo.study_table import POOLED, equal_early, error, on_curve, rivals, run
from seed_demo.study_year import spend, year


@pytest.fixture(scope="module")
def quick():
    return study(QUICK)


@pytest.fixture(scope="module")
def small():
    kept = [s for s in settings(quick=True) if s.label.startswith(("changepoint", "run 10", "ten"))]
    years = {m: year(m, 60, 3, 8, 30) for m in MODELS}
    return run(kept, years, "sensitization", 3, 3)


def test_no_rule_beats_the_default_on_both_by_more_than_5_percent_and_chance(quick):
    best = quick.strongest()
    assert best.worse > 1 - MARGIN - 2 * best.worse_error, report(quick)


def test_a_poor_default_would_be_found_out(quick):
    table = quick.first
    poor = [s.label for s in table.settings].index("ten in a row, re-check 15")
    order = [poor, *(i for i in range(len(table.settings)) if i != poor)]
    swapped = replace(
        table,
        settings=[table.settings[i] for i in order],
        outcomes={k: v[order] for k, v in table.outcomes.items()},
    )
    best = rivals(swapped)[0]
    assert best.worse < 1 - MARGIN - 2 * best.worse_error


def test_the_default_needs_fewer_cues_than_ten_in_a_row_with_a_stricter_recheck(quick):
    table = quick.first
    row = [s.label for s in table.settings].index("ten in a row, re-check 10")
    for per_fencer in (False, True):
        ratio, spread = equal_early(table, row, per_fencer=per_fencer)
        assert ratio + 2 * spread < 1


def test_the_default_comes_first_and_every_family_and_baseline_is_tried():
    for coarse in (True, False):
        tried = settings(coarse)
        assert tried[0].rule == DEFAULT
        families = {s.family for s in tried}
        assert families == {"changepoint", "run", "window", "sequential", BASELINE}
        assert len({s.label for s in tried}) == len(tried)


def test_a_fencer_of_the_study_is_taught_as_in_a_lesson_of_the_demo():
    """Same fencers, same chart: the same share of right answers in the first lesson."""
    chart = settings(quick=True)[0].chart("sensitization", 4)
    season = year("steady", 200, 5, 1, 30)
    met = spend(chart, season).met[-1]
    rng = np.random.default_rng(6)
    alone = []
    for i in range(200):
        fencer = Fencer(select(season.group, np.array([i])))
        walk = lesson(chart, fresh(chart), fencer, "2026-09-01", cues=30, rng=rng).walk
        alone.append(0 if walk.met is None else walk.met + 1)
    spread = np.hypot(met.std(), np.std(alone)) / np.sqrt(200)
    assert abs(met.mean() - np.mean(alone)) < 4 * spread


def test_a_season_adds_up():
    chart = settings(quick=True)[0].chart("sensitization", 3)
    season = year("steady", 100, 5, 12, 30)
    outcome = spend(chart, season)
    there = outcome.reached > 0
    assert there.any() and (~there).any()
    assert (outcome.cues[~there] == season.allowance).all()
    assert (outcome.cues[there] <= outcome.lessons[there] * 30).all()
    assert (outcome.met[-1, there] == 3).all()
    assert (outcome.met[-1, ~there] < 3).all()
    assert (outcome.early <= outcome.climbs).all()
    assert (outcome.climbs[there] >= 3).all()


def test_the_same_seed_gives_the_same_study_and_another_seed_another():
    chart = settings(quick=True)[0].chart("discrimination", 3)
    one, two, other = (spend(chart, year("plateau", 40, s, 6, 40)) for s in (1, 1, 2))
    for name in ("cues", "climbs", "early", "met"):
        assert (getattr(one, name) == getattr(two, name)).all()
    assert (one.climbs != other.climbs).any()


def test_pooled_figures_are_the_mean_over_all_models(small):
    each = np.mean([small.mean("cues", m)[0] for m in MODELS], axis=0)
    assert small.mean("cues", POOLED)[0] == pytest.approx(each)


def test_the_monte_carlo_error_of_a_mean_is_its_standard_error(small):
    cues = small.outcomes["cues"][0]
    within = [cues[small.model == m].var(ddof=1) / 60 for m in range(len(MODELS))]
    wanted = np.sqrt(np.sum(within)) / len(MODELS)
    assert error(small.mean("cues"))[0] == pytest.approx(wanted, rel=0.15)


def test_a_curve_is_read_between_its_best_settings():
    early, cues = np.array([0.01, 0.1, 0.1, 0.05]), np.array([900.0, 500.0, 700.0, 950.0])
    assert on_curve(cues, early, 0.1) == 500
    assert on_curve(cues, early, 0.01 * 10**0.5) == pytest.approx(700)
    assert on_curve(cues, early, 0.5) == 500


def test_the_command_writes_the_figures_and_the_picture_and_prints_the_verdict(
    tmp_path, capsys, monkeypatch
):
    tiny = replace(QUICK, fencers=20, again=20, lessons=4)
    monkeypatch.setattr("seed_demo.study.QUICK", tiny)
    main(["--out", str(tmp_path), "--quick", "--rungs", "2"])
    with (tmp_path / "frontier.csv").open(newline="") as file:
        found = list(csv.DictReader(file))
    assert tuple(found[0]) == COLUMNS
    assert {r["model"] for r in found} == {POOLED, *MODELS}
    assert {r["run"] for r in found} == {"1", "2"}
    assert all(0 <= float(r["early_share"]) <= 1 for r in found)
    assert ElementTree.parse(tmp_path / "frontier.svg").getroot().tag.endswith("svg")
    said = capsys.readouterr().out
    assert "pooled: default" in said and "strongest rival" in said and "3-down-1-up" in said


def test_rows_carry_every_setting_for_every_model(quick):
    first = [r for r in rows(quick) if r["run"] == 1]
    assert len(first) == len(quick.first.settings) * (1 + len(MODELS))


def test_forecast_cases_start_at_nothing_and_add_up():
    for gains, remaining, truth in cases("steady", 20, np.random.default_rng(2)):
        assert len(gains) >= 4
        assert sum(gains) + remaining == 6
        assert truth >= 1
