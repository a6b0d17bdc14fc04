"""Published and worked figures for marks that are sometimes wrong."""

import pytest

from cueladder.evidence.marking import Marking, marking_of, true_share


def test_the_worked_example_of_an_imperfect_test_is_reproduced() -> None:
    # Rogan & Gladen 1978: 23 of 150 seen, sensitivity .96, specificity .89 -> .0510; the worked
    # example of a public epidemiology package, recomputed.
    assert true_share(23 / 150, 0.96, 0.89) == pytest.approx(0.0510, abs=5.1e-5)


def test_letting_a_third_of_slips_pass_makes_eight_in_ten_look_like_866() -> None:
    # by hand: .8 + .2 / 3
    marking = Marking(slip=2 / 3, right=1.0, cues=100)
    assert marking.seen(0.8) == pytest.approx(0.8667, abs=5.1e-5)
    # what is seen of slips, turned back
    assert 1 - true_share(1 - marking.seen(0.8), 2 / 3, 1.0) == pytest.approx(0.8)


def test_specific_agreement_follows_its_definition_on_cohens_kind_of_table() -> None:
    # Cicchetti & Feinstein 1990 (from memory): positive agreement 2a/(2a + b + c), here with
    # 40, 5, 5, 50 by hand: 80/90 and 100/110.
    found = marking_of(40, 5, 5, 50)
    assert found is not None
    assert (found.slip, found.right) == pytest.approx((80 / 90, 100 / 110))
