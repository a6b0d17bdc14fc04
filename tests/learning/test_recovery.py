"""Planted figures are found again, and the ranges hold: the small version of the table."""

import numpy as np
import pytest

from cueladder.evidence.learning.fit import fit
from cueladder.evidence.learning.law import Practice
from cueladder.evidence.learning.told import known
from tests.learning.coverage import NAMES, one_club
from tests.learning.planted import Size, planted, truth

pytestmark = pytest.mark.thorough

SMALL = Size(fencers=16, lessons=14)


def test_ranges_hold_eight_times_in_ten_though_the_rule_leaves_a_rung_when_it_is_climbed():
    told = np.array([one_club(k, 11, SMALL) for k in range(6)])
    inside = 1 - told[:, :, 0].mean() - told[:, :, 1].mean()
    # 66 ranges, those of a club alike: 80 % within three standard errors
    assert 0.62 <= inside <= 0.96, f"{inside:.2f} of {told.shape[0] * len(NAMES)} ranges hold"


def test_a_club_that_forgets_fast_is_told_from_one_that_hardly_does():
    rng = np.random.default_rng(5)
    slow, fast = (
        fit(planted(truth(rng, loss=loss), Size(), rng), rng).range_of("loss")
        for loss in (0.01, 0.10)
    )
    assert slow[1] < 0.01 < slow[2] + 0.005
    assert 0.07 < fast[0] < 0.13
    assert slow[2] < fast[1]


def test_more_marks_give_narrower_ranges():
    widths = []
    for lessons in (8, 32):
        rng = np.random.default_rng(3)
        figures = truth(rng)
        found = fit(planted(figures, Size(lessons=lessons), rng), rng)
        widths.append(np.subtract(*found.range_of("loss")[:0:-1]))
    assert widths[1] < 0.7 * widths[0]


def test_few_marks_are_said_not_to_tell_and_how_many_would():
    rng = np.random.default_rng(2)
    found = fit(planted(truth(rng), Size(fencers=5, drills=1, lessons=5), rng), rng)
    loss = known(found)["loss"]
    assert not loss.told
    assert loss.marks > 2 * found.model.cells.marks


def test_practice_fades_by_its_share_a_week_and_grows_by_the_cues_given():
    rng = np.random.default_rng(1)
    cells = planted(truth(rng), Size(fencers=3, drills=1, lessons=4), rng)
    before = Practice(cells).before(0.1)
    for series in range(3):
        here = np.flatnonzero(cells.series == series)
        worked = 0.0
        for lesson in here:
            worked *= 0.9 ** cells.gap[lesson]
            assert before[lesson] == pytest.approx(worked)
            worked += cells.cues[lesson]


def test_the_fit_is_the_same_for_the_same_seed_and_fencers_stay_numbers():
    made = []
    for _ in range(2):
        rng = np.random.default_rng(9)
        found = fit(planted(truth(rng), SMALL, rng), rng, points=10)
        made.append(found.range_of("gain"))
    assert made[0] == made[1]
