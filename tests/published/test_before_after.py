"""Published figures for the non-overlap of all pairs."""

import pytest

from cueladder.evidence.before_after import before_after


def test_parker_and_vannests_data_give_their_overlap() -> None:
    # Parker & Vannest 2009 (Behavior Therapy 40:357). That these are the paper's data,
    # with .96, is recalled from memory and uncertain; .9636 was computed independently
    # as the Mann-Whitney U over n m.
    before = [4, 3, 4, 3, 4, 7, 5, 2, 3, 2]
    after = [5, 9, 7, 9, 7, 5, 9, 11, 11, 10, 9]
    assert before_after(before, after).nap == pytest.approx(0.9636, abs=5.1e-5)


def test_the_example_of_the_r_manuals_gives_their_overlap() -> None:
    # R packages SingleCaseES (same data) and scda, documentation of NAP(), read on the
    # page of scda: .9166667.
    before, after = [20, 20, 26, 25, 22, 23], [28, 25, 24, 27, 30, 30, 29]
    assert before_after(before, after).nap == pytest.approx(0.9166667, abs=5e-8)


def test_a_series_without_overlap_gives_the_p_of_the_scia_manual() -> None:
    # Python package scia, documentation of nap(), read on its page: 30 of 30 pairs,
    # U 0, p .003914 one-sided, by the normal with tie and continuity corrections.
    found = before_after([5, 7, 8, 5, 7], [12, 16, 18, 15, 14, 19])
    assert (found.nap, found.better, found.pairs) == (1.0, 30.0, 30)
    assert found.p / 2 == pytest.approx(0.003914, abs=5e-7)
