"""The filter knows the invented learners, and no more."""

import numpy as np
import pytest

from seed_demo.study.filter import limit, seeing
from seed_demo.study.year import year


@pytest.fixture(scope="module")
def season():
    return year(20, 25, "weekly", 8, lessons=5, forgetful=False)


def test_a_surer_filter_climbs_early_less_often(season):
    bold, sure = (limit(season, 7, threshold, 40, 1) for threshold in (0.7, 0.97))
    assert sure.early < bold.early
    assert 0 < sure.rungs < 7


def test_its_confidence_is_honest(season):
    """At 90 % sure about one climb in ten or fewer is early: most climbs are surer than that."""
    assert limit(season, 7, 0.9, 80, 1).early < 0.17


def test_the_same_seed_gives_the_same_limit():
    season = year(5, 10, "weekly", 8, lessons=3, forgetful=False)
    assert limit(season, 7, 0.9, 20, 1) == limit(season, 7, 0.9, 20, 1)


def test_it_can_meet_no_rung_without_a_cue():
    season = year(10, 3, "weekly", 8, lessons=2, forgetful=False)
    assert limit(season, 7, np.nextafter(0, 1), 20, 1).rungs <= 6


def test_no_sure_filter_gets_further_than_one_who_sees_the_true_rate(season):
    assert limit(season, 7, 0.97, 40, 1).rungs < seeing(season, 7) < 7
