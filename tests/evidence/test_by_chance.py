from collections import Counter
from datetime import date, timedelta
from hashlib import sha256
from itertools import permutations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cueladder.evidence.by_chance import (
    Watched,
    begin_after,
    begun_early,
    counted,
    days_needed,
    drawn,
    plan,
    sides,
)
from cueladder.evidence.claims.by_chance import can_tell, did, overlap
from cueladder.evidence.order_fit import fits, found_in, gains, rank

DAY = date(2026, 9, 1)
DRILLS = ["quarte", "stop hit", "distance", "derobement"]
NAMES = {drill: drill.capitalize() for drill in DRILLS}


def weekly(n: int) -> list[date]:
    return [DAY + timedelta(days=7 * k) for k in range(n)]


def watched_as(one, before: int, after: int, chances: int = 4) -> list[Watched]:
    return [
        Watched(drill, day, after if day >= begins else before, chances)
        for drill, begins in zip(one.drills, one.begins, strict=True)
        for day in weekly(13)
    ]


def test_who_has_the_seed_can_draw_the_order_again_by_hand():
    order = drawn(DRILLS, "2026-09-01 Ilse")
    assert order == drawn(DRILLS[::-1], "2026-09-01 Ilse")
    digests = [sha256(f"2026-09-01 Ilse:{drill}".encode()).hexdigest() for drill in order]
    assert digests == sorted(digests) and sorted(order) == sorted(DRILLS)


def test_every_order_is_drawn_about_as_often_as_the_next():
    found = Counter(drawn(DRILLS[:3], f"seed {k}") for k in range(3000))
    assert len(found) == 6 and min(found.values()) > 420 and max(found.values()) < 580


@pytest.mark.parametrize(
    ("drills", "seed", "says"),
    [
        (DRILLS[:2], "x", "drills: choose 3 to 5 different ones, not 2"),
        ([*DRILLS[:3], DRILLS[0]], "x", "drills: choose 3 to 5 different ones"),
        (DRILLS, "", "seed: give one"),
    ],
)
def test_what_cannot_be_drawn_is_refused_with_what_to_do(drills, seed, says):
    with pytest.raises(ValueError, match=says):
        drawn(drills, seed)


@given(st.integers(3, 5), st.integers(0, 40))
def test_every_drill_is_watched_on_three_bout_days_before_and_after(drills, more):
    days = days_needed(drills) + more
    after = begin_after(drills, days)
    assert list(after) == sorted(set(after)) and len(after) == drills
    assert after[0] >= 3 and days - after[-1] >= 3


def test_too_few_bout_days_are_refused_with_how_many_it_takes():
    with pytest.raises(ValueError, match="4 drills need at least 9 bout days, not 8"):
        plan(DRILLS, weekly(8), "seed")


def test_a_drill_may_be_begun_from_the_day_after_the_bouts_before_its_turn():
    one = plan(DRILLS, weekly(13), "seed")
    assert begin_after(4, 13) == (3, 5, 7, 9)
    assert one.begins == tuple(weekly(13)[k - 1] + timedelta(days=1) for k in (3, 5, 7, 9))
    assert (one.first, one.last) == (weekly(13)[0], weekly(13)[-1])


def test_bouts_outside_the_plan_and_other_drills_do_not_count():
    one = plan(DRILLS, weekly(13), "seed")
    inside = Watched("quarte", DAY, 1, 2)
    others = [
        Watched("quarte", DAY - timedelta(days=1), 1, 2),
        Watched("quarte", one.last + timedelta(days=1), 1, 2),
        Watched("another", DAY, 1, 2),
    ]
    assert counted(one, [inside, *others]) == [inside]
    before, after = sides(one, [inside, *others], "quarte")
    assert (before, after) == ([inside], [])


def test_a_gain_is_the_change_of_the_share_weighted_by_the_chances_on_both_sides():
    met, chances = np.array([[1.0, 2.0, 6.0, 7.0]]), np.array([[4.0, 6.0, 8.0, 7.0]])
    after = np.array([[0.0, 0.0, 1.0, 1.0], [0.0, 0.0, 0.0, 0.0]])
    found = gains(met, chances, after)
    assert found[0, 0] == pytest.approx(10 * 15 / 25 * (13 / 15 - 3 / 10))
    assert found[0, 1] == 0.0, "never begun: nothing to compare"


def test_a_drill_that_never_comes_up_in_bouts_weighs_nothing():
    assert gains(np.zeros((1, 3)), np.zeros((1, 3)), np.ones((1, 3))) == pytest.approx(0.0)


def test_the_lessons_are_said_to_show_once_the_plan_has_ended():
    one = plan(DRILLS, weekly(13), "seed")
    watched = watched_as(one, before=1, after=3)
    early, _ = did([(one, watched)], one.last, NAMES)
    assert early.claim == "plan.running" and "24 November 2026" in early.words
    told, found = did([(one, watched)], one.last + timedelta(days=1), NAMES)
    assert told.claim == "plan.did" and found.p == pytest.approx(1 / 24)
    assert "only the one that was drawn" in told.words
    # 3, 5, 7 and 9 bout days before, of 13, at 1 and then 3 of 4
    assert (found.before, found.after) == ((24, 96), (84, 112))
    assert "begun: 24 of 96 (25 %); after: 84 of 112 (75 %)" in told.words


def test_bouts_that_stay_as_they_were_show_nothing():
    one = plan(DRILLS, weekly(13), "seed")
    told, found = did([(one, watched_as(one, 2, 2))], one.last + timedelta(days=1), NAMES)
    assert (told.claim, found.as_good) == ("plan.open", 24)
    assert "24 of 24 orders" in told.words


def test_three_drills_alone_cannot_tell_even_where_they_fit_best():
    one = plan(DRILLS[:3], weekly(13), "seed")
    watched = [w for w in watched_as(one, 1, 4) if w.drill in one.drills]
    told, found = did([(one, watched)], one.last + timedelta(days=1), NAMES)
    assert (told.claim, found.as_good, found.orders) == ("plan.open", 1, 6)
    assert "once in 6" in told.words
    assert did([(one, watched)] * 2, one.last + timedelta(days=1), NAMES)[0].claim == "plan.did"


def test_under_ten_chances_before_or_after_nothing_is_said_however_well_they_fit():
    one = plan(DRILLS, weekly(13), "seed")
    rare = [w for w in watched_as(one, 0, 1, chances=1) if w.day in weekly(13)[4:10:2]]
    told, found = did([(one, rare)], one.last + timedelta(days=1), NAMES)
    assert told.claim == "plan.open" and found.after[1] < 10
    assert "at least 10 times" in told.words


def test_a_drill_begun_before_its_turn_is_named():
    one = plan(DRILLS, weekly(13), "seed")
    begun = dict(zip(one.drills, one.begins, strict=True))
    assert begun_early(one, begun) == []
    begun[one.drills[2]] = DAY
    assert begun_early(one, begun) == [one.drills[2]]
    told, _ = did([(one, watched_as(one, 1, 3))], one.last + timedelta(days=1), NAMES, begun)
    assert f"{NAMES[one.drills[2]]} was begun before its turn" in told.words
    assert "never" not in told.words


def test_a_drill_that_was_never_begun_is_named():
    one = plan(DRILLS, weekly(13), "seed")
    begun = dict(zip(one.drills[:3], one.begins[:3], strict=True))
    watched = watched_as(one, 1, 3)
    told, _ = did([(one, watched)], one.last + timedelta(days=1), NAMES, begun)
    assert f"{NAMES[one.drills[3]]} was never begun" in told.words
    assert "never" not in did([(one, watched)], one.last + timedelta(days=1), NAMES)[0].words


def test_more_met_than_chances_is_refused():
    one = plan(DRILLS, weekly(13), "seed")
    with pytest.raises(ValueError, match="5 is more than the 4 trials"):
        fits([(one, [Watched("quarte", DAY, 5, 4)])])
    with pytest.raises(ValueError, match="plans: give 1 to 6, not 0"):
        fits([])


def test_a_plan_says_beforehand_what_it_can_tell():
    assert can_tell(3, 13).claim == "plan.cannot"
    assert "once in 6" in can_tell(3, 13).words
    assert "fits best of all" in can_tell(4, 13).words
    found = can_tell(5, 20, 0.86)
    assert found.claim == "plan.can"
    assert "among the 6 that fit best" in found.words
    assert "from 4 times in 10 to 7 times in 10" in found.words
    assert "about 9 times in 10" in found.words


def test_more_bouts_find_more():
    few, many = (
        found_in(5, 20, chances, (0.4, 0.7), np.random.default_rng(1), 150) for chances in (1, 6)
    )
    assert few < 0.7 < many
    assert found_in(5, 20, 4, (0.5, 0.5), np.random.default_rng(1), 300) < 0.10


@pytest.mark.parametrize("seed", range(4))
def test_whatever_the_bouts_were_at_most_one_order_in_twenty_is_told_from_luck(seed):
    # what the lessons did not change stays as it was, whichever order is drawn: take the same bouts
    # and draw every order in turn
    rng = np.random.default_rng(seed)
    chances = rng.poisson(3, (5, 14)).astype(float)
    met = rng.binomial(chances.astype(int), rng.uniform(0.2, 0.8, (5, 14))).astype(float)
    after = (np.arange(14) >= np.array(begin_after(5, 14))[:, None]).astype(float)
    found = []
    for order in permutations(range(5)):
        _, as_good, orders = rank([gains(met[list(order)], chances[list(order)], after)])
        found.append(as_good / orders)
    assert len(found) == 120
    for p in (1 / 120, 0.05, 0.2, 0.5):
        assert np.mean(np.array(found) <= p + 1e-12) <= p + 1e-12
    assert min(found) < 0.05, "the best order is told from luck, so the bound is not empty"


def test_the_overlap_of_a_drill_names_pairs_and_both_figures():
    one = plan(DRILLS, weekly(13), "seed")
    told = overlap(one, watched_as(one, 1, 3), one.drills[0])
    assert told is not None and told.claim == "plan.overlap"
    assert "Of 30 pairs" in told.words and "better in 30 " in told.words
    assert "NAP 1.00, Tau-U 1.00" in told.words
    assert overlap(one, [], one.drills[0]) is None
