"""Published figures for clean runs and intervals of a proportion."""

import pytest

from cueladder.evidence.reliability import interval, reliability_shown, trials_needed, worst_rate

# H. Jose 2023, "Deriving the Success Run Theorem", Quality Digest: the formula, 22 for
# 90/90 and 59 for 95/95. The other cells follow from the formula; no handbook page was
# found, so none is cited.
SUCCESS_RUN = {
    0.80: {0.80: 8, 0.90: 16, 0.95: 32, 0.99: 161},
    0.90: {0.80: 11, 0.90: 22, 0.95: 45, 0.99: 230},
    0.95: {0.80: 14, 0.90: 29, 0.95: 59, 0.99: 299},
    0.99: {0.80: 21, 0.90: 44, 0.95: 90, 0.99: 459},
}


@pytest.mark.parametrize("confidence", SUCCESS_RUN)
@pytest.mark.parametrize("reliability", SUCCESS_RUN[0.80])
def test_the_success_run_theorem_gives_the_published_trials(
    confidence: float, reliability: float
) -> None:
    assert trials_needed(confidence, reliability) == SUCCESS_RUN[confidence][reliability]


def test_the_trials_are_not_those_of_the_bayesian_form_which_asks_one_fewer() -> None:
    # R = (1-C)^(1/(n+1)) is the trap: with it n trials would show what our n + 1 show
    for confidence, row in SUCCESS_RUN.items():
        for reliability, n in row.items():
            assert reliability_shown(n, confidence) >= reliability
            assert reliability_shown(n - 1, confidence) < reliability


@pytest.mark.parametrize("n, bound", [(14, 0.1926), (20, 0.1391), (100, 0.0295)])
def test_the_bound_after_no_slips_is_exact_and_close_to_the_rule_of_three(
    n: int, bound: float
) -> None:
    # Rule of three: Hanley & Lippman-Hand 1983 (JAMA 249:1743), recalled from memory;
    # the exact values follow from 1 - .05^(1/n).
    assert worst_rate(n) == pytest.approx(bound, abs=5e-5)
    assert worst_rate(n) == pytest.approx(3 / n, rel=0.12)


# Newcombe 1998 (Statistics in Medicine 17:857), 95 %: methods 3 (Wilson) and 5 (exact).
NEWCOMBE = [
    (81, 263, (0.2553, 0.3662), (0.2527, 0.3676)),
    (15, 148, (0.0624, 0.1605), (0.0578, 0.1617)),
    (0, 20, (0.0, 0.1611), (0.0, 0.1684)),
    (1, 29, (0.0061, 0.1718), (0.0009, 0.1776)),
]


@pytest.mark.parametrize("x, n, wilson, exact", NEWCOMBE)
def test_intervals_for_a_proportion_are_newcombes(
    x: int, n: int, wilson: tuple[float, float], exact: tuple[float, float]
) -> None:
    assert interval(x, n, method="wilson") == pytest.approx(wilson, abs=5.1e-5)
    assert interval(x, n, method="exact") == pytest.approx(exact, abs=5.1e-5)
