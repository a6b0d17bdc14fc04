"""A suggestion comes where the marks ask for it, is right there, and does not come elsewhere."""

import numpy as np
import pytest

from cueladder.evidence.claims.learn import setting
from cueladder.evidence.learning import breaks
from cueladder.evidence.learning.breaks import Lost
from cueladder.evidence.learning.compare import TOO_MANY, Served, suggested
from cueladder.rules.settings import REENTRY
from tests.learning.planted import Size, truth
from tests.learning.suggested import SLOW, look, true_rungs, wrong_rows

CLUB = Size(fencers=30, lessons=25)


@pytest.fixture(scope="module")
def forgetful():
    figures = truth(np.random.default_rng(5), loss=0.10, gain=2.3, step=0.6, paces=0.7)
    return look(figures, CLUB, 5)


@pytest.mark.thorough
def test_a_club_that_forgets_fast_is_told_to_start_lower_after_breaks_and_rightly(forgetful):
    new = forgetful.told["new_breaks"]
    assert new is not None
    assert new[2]["back"] > 2
    assert not wrong_rows(true_rungs(forgetful.figures, CLUB, 5), new)


def test_a_club_with_too_few_lessons_is_told_nothing_and_from_how_many_marks_it_would_be():
    figures = truth(np.random.default_rng(5), loss=0.12)
    told = look(figures, Size(fencers=6, drills=1, lessons=4), 5).told
    assert told["suggested"] is None
    assert told["new_breaks"] is None
    assert not told["known"]["loss"]["told"]
    assert told["known"]["loss"]["marks"] > told["marks"]


def test_under_three_fencers_nothing_is_fitted_at_all():
    figures = truth(np.random.default_rng(5))
    told = look(figures, Size(fencers=2, drills=1, lessons=10), 5).told
    assert told["known"] is None
    assert told["settings"] is None


def test_a_rule_of_sixty_clean_answers_is_advised_against():
    told = look(truth(np.random.default_rng(8), loss=0.02), CLUB, 8, SLOW).told
    assert told["suggested"] in ("quick", "usual", "strict")
    was, new = told["settings"]["own"], told["settings"][told["suggested"]]
    assert new["lessons"][2] < was["lessons"][1]
    assert new["early"][2] <= TOO_MANY


def test_nothing_is_suggested_while_the_ranges_overlap():
    here = Served((3.0, 2.6, 3.4), (0.02, 0.0, 0.05), (0.0, 0.0, 0.0))
    near = Served((2.7, 2.3, 2.7), (0.02, 0.0, 0.05), (0.0, 0.0, 0.0))
    far = Served((2.2, 2.0, 2.5), (0.02, 0.0, 0.05), (0.0, 0.0, 0.0))
    early = Served((2.2, 2.0, 2.5), (0.1, 0.05, 0.15), (0.0, 0.0, 0.0))
    assert suggested({"now": here, "other": near}, "now") is None
    assert suggested({"now": here, "other": early}, "now") is None
    assert suggested({"now": here, "other": near, "better": far}, "now") == "better"


def row(days: int, back: tuple[int, int], keep: tuple[float, float]) -> Lost:
    return Lost(days, (0.0, 0.0, 0.0), back, keep)


def test_a_row_moves_only_as_far_as_the_marks_surely_ask_and_never_higher_after_longer():
    rows = [row(7, (0, 1), (0.5, 1.0)), row(19, (2, 4), (0.0, 0.0)), row(59, (1, 5), (0.0, 0.0))]
    new = breaks.suggested(rows, REENTRY, lower_only=False)
    assert new == ((10, 0, 1.0), (28, 2, 0.0), (90, 2, 0.0), (None, "half", 0.0))


def test_on_a_heat_ladder_no_start_is_ever_set_higher():
    rows = [row(7, (0, 0), (1.0, 1.0)), row(19, (0, 0), (1.0, 1.0)), row(59, (0, 1), (0.5, 0.5))]
    assert breaks.suggested(rows, REENTRY, lower_only=True) is None
    higher = breaks.suggested(rows, REENTRY, lower_only=False)
    assert higher is not None
    assert [back for _, back, _ in higher] == [0, 0, 1, "half"]


def test_a_suggestion_says_in_what_it_is_better_and_what_it_may_cost():
    surer = str(setting("strict", "usual", quicker=False).words)
    assert "fewer climbs that come too early" in surer
    assert "may take more lessons" in surer
    assert "fewer lessons a rung" in str(setting("quick", "usual", quicker=True).words)
