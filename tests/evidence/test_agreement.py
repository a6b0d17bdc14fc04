import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from statsmodels.stats.inter_rater import cohens_kappa

from cueladder.evidence.agreement import agreement, compare_marks

tables = st.integers(2, 4).flatmap(
    lambda k: st.lists(st.lists(st.integers(0, 30), min_size=k, max_size=k), min_size=k, max_size=k)
)


def two_marks_used(table: list[list[int]]) -> bool:
    counts = np.array(table)
    return bool(counts.sum() and (counts.sum(0) > 0).sum() > 1 and (counts.sum(1) > 0).sum() > 1)


@settings(deadline=None)
@given(tables.filter(two_marks_used))
def test_kappa_and_its_error_agree_with_statsmodels(table: list[list[int]]) -> None:
    ours, theirs = agreement(table), cohens_kappa(np.array(table))
    assert ours.kappa == pytest.approx(theirs.kappa, abs=1e-12)
    assert ours.largest == pytest.approx(theirs.kappa_max, abs=1e-12)
    assert ours.error == pytest.approx(np.sqrt(max(theirs.var_kappa, 0.0)), abs=1e-7)


@settings(deadline=None)
@given(tables.filter(two_marks_used))
def test_it_does_not_matter_which_observer_comes_first(table: list[list[int]]) -> None:
    here, there = agreement(table), agreement(np.array(table).T)
    assert here.kappa == pytest.approx(there.kappa, abs=1e-12)
    assert here.error == pytest.approx(there.error, abs=1e-7)


@settings(deadline=None)
@given(tables.filter(two_marks_used))
def test_kappa_stays_below_the_largest_possible(table: list[list[int]]) -> None:
    found = agreement(table)
    assert found.kappa is not None and found.largest is not None
    assert -1.0 <= found.kappa <= found.largest + 1e-12 <= 1.0 + 1e-9


def test_marks_and_table_give_the_same() -> None:
    first = ["correct"] * 12 + ["late"] * 6 + ["early"] * 2
    second = ["correct"] * 10 + ["late"] * 8 + ["early", "correct"]
    found = compare_marks(first, second)
    assert found.marks == ("correct", "early", "late")
    assert found.table == ((10, 0, 2), (1, 1, 0), (0, 0, 6))
    assert found == agreement(found.table, found.marks)


def test_where_they_differ_comes_most_frequent_first() -> None:
    first = ["late"] * 5 + ["correct"] * 9 + ["early"]
    second = ["correct"] * 5 + ["correct"] * 9 + ["late"]
    found = compare_marks(first, second)
    assert found.differ == (("late", "correct", 5), ("early", "late", 1))


def test_full_agreement_is_one() -> None:
    found = compare_marks(["correct", "late"] * 6, ["correct", "late"] * 6)
    assert (found.kappa, found.largest) == (1.0, 1.0)


def test_kappa_is_not_defined_when_both_used_one_mark_only() -> None:
    found = compare_marks(["correct"] * 12, ["correct"] * 12)
    assert found.kappa is None and found.largest is None and found.error is None
    assert found.observed == 1.0


def test_lists_of_other_lengths_are_refused() -> None:
    with pytest.raises(ValueError, match=r"^second: 1 marks against 2"):
        compare_marks(["late", "late"], ["late"])
    with pytest.raises(ValueError, match=r"^first: give at least one mark"):
        compare_marks([], [])


@pytest.mark.parametrize("bad", [[[1, 2]], [[1, -2], [0, 1]], [[0.5, 1], [1, 1]], [[0, 0], [0, 0]]])
def test_tables_that_are_no_square_of_counts_are_refused(bad: list[list[float]]) -> None:
    with pytest.raises(ValueError, match=r"^table: "):
        agreement(bad)


def test_a_name_for_every_mark_is_asked_for() -> None:
    with pytest.raises(ValueError, match=r"^marks: 1 names for 2 rows"):
        agreement([[1, 2], [3, 4]], ["late"])
