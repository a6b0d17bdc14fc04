"""The published example of psignifit."""

import pytest

from cueladder.evidence.curve import fit_curve

# psignifit's own example: choice of two, 13 levels, 90 trials each.
X = [0.001, 0.0015, 0.002, 0.0025, 0.003, 0.0035, 0.004, 0.0045, 0.005, 0.006, 0.007, 0.008, 0.010]
RIGHT = [45, 50, 44, 44, 52, 53, 62, 64, 76, 79, 88, 90, 90]


def test_the_threshold_of_psignifits_example_is_reproduced() -> None:
    # psignifit 4.3 with its own prior: .0046464 at the highest posterior, 95 % .00425 to
    # .00493; it also allows for overdispersion, which makes its interval a little wider.
    # Maximum likelihood, Gaussian without lapse: .0046478, sd .0014163.
    found = fit_curve(X, RIGHT, [90] * 13, guess=0.5)
    assert found.threshold == pytest.approx(0.0046, abs=5e-5)
    assert found.threshold == pytest.approx(0.0046464, rel=0.01)
    assert (found.low, found.high) == pytest.approx((0.00425, 0.00493), rel=0.02)
    assert found.width / 3.29 == pytest.approx(0.0014163, rel=0.05)
