"""A small version of the table: some of its lines, with fewer seasons, on a seed of its own."""

from dataclasses import replace

import pytest

from tests.claims.__main__ import TRIES
from tests.claims.line import Line, Try, run

SEED = 77
# Quick to simulate, and at least one of every module of the register that infers something.
QUICK = ("share.", "apart.", "wait.mostly", "order.guessable", "heat.costs", "reach.whole",
         "plan.did")  # fmt: skip
CUES = {"order.guessable": (40,), "reach.whole": (200,), "heat.costs": (80, 200), "plan.did": (14,)}


def small(each: Try) -> Try:
    cues = CUES.get(each.claim, (20, 80))
    return Try(each.claim, each.truth, each.side, each.season, cues, 60, each.told_only)


LINES = [each for each in TRIES if each.claim.startswith(QUICK)]


@pytest.mark.parametrize("each", LINES, ids=lambda e: f"{e.claim}: {e.truth}")
def test_a_claim_keeps_its_promise(each: Try) -> None:
    line = run(small(each), SEED)
    if each.side == "false":
        # sixty seasons cannot tell 5 in 100 from 10: only what is clearly wrong fails
        assert all(share is not None and share <= 0.12 for share in line.shares), line.shares
    elif each.side == "holds":
        assert all(share is None or share >= 0.85 for share in line.shares), line.shares


def test_a_line_outside_its_promise_is_found_out() -> None:
    bad = Try("heat.costs", "made up", "false", lambda rng, at: [True], (40,), 40)
    assert not run(bad, SEED).kept()
    never = Try("share.range", "made up", "holds", lambda rng, at: [False], (40,), 200)
    assert not run(never, SEED).kept()
    unseen = Try("heat.costs", "made up", "true", lambda rng, at: [False], (40, 200), 40)
    assert not run(unseen, SEED).kept()


def test_a_range_that_holds_too_often_is_found_out_where_its_line_asks() -> None:
    always = Try("stranger.first", "made up", "holds", lambda rng, at: [True], (40,), 200)
    assert run(always, SEED).kept()
    wide = replace(always, at_most=0.85)
    assert not run(wide, SEED).kept() and run(wide, SEED).limit == "75%–85%"
    short = replace(wide, season=lambda rng, at: [bool(rng.random() < 0.6)])
    assert not run(short, SEED).kept()
    right = replace(wide, season=lambda rng, at: [bool(rng.random() < 0.8)])
    assert run(right, SEED).kept()


def test_a_claim_that_is_never_said_breaks_no_promise_to_be_true() -> None:
    silent = Try("share.range", "made up", "holds", lambda rng, at: [None], (40,), 40)
    line: Line = run(silent, SEED)
    assert line.shares == (None,) and line.kept()
