"""Published figures for kappa."""

import pytest

from cueladder.evidence.agreement import agreement


def test_cohens_own_table_gives_his_kappa_and_its_largest_value() -> None:
    # Cohen 1960 (Educational and Psychological Measurement 20:37), as counts of 200.
    found = agreement([[88, 14, 18], [10, 40, 10], [2, 6, 12]])
    assert found.kappa == pytest.approx(0.492, abs=5e-4)
    assert found.largest == pytest.approx(0.831, abs=5e-4)


def test_two_dermatologists_agree_as_in_the_sas_manual() -> None:
    # SAS/STAT, PROC FREQ, agreement study: the table was read on its page; kappa .3449,
    # standard error .0724, limits .2030 and .4868 are recalled from memory.
    found = agreement([[10, 4, 1, 0], [5, 10, 12, 2], [2, 4, 12, 5], [0, 2, 6, 13]])
    assert found.kappa == pytest.approx(0.3449, abs=5.1e-5)
    assert found.error == pytest.approx(0.0724, abs=5.1e-5)
    # the limits printed there are those of the large-sample error; ours are a bootstrap's
    assert found.kappa is not None and found.error is not None
    limits = (found.kappa - 1.959964 * found.error, found.kappa + 1.959964 * found.error)
    assert limits == pytest.approx((0.2030, 0.4868), abs=5.1e-5)
    assert (found.low, found.high) == pytest.approx(limits, abs=0.02)


@pytest.mark.parametrize(
    "table, kappa",
    [
        ([[20, 5], [10, 15]], 0.40),
        ([[45, 15], [25, 15]], 0.1304),
        ([[25, 35], [5, 35]], 0.2593),
    ],
)
def test_the_common_textbook_tables_give_their_kappas(table: list[list[int]], kappa: float) -> None:
    # Widely reprinted two-by-two examples (also in the encyclopaedia article on kappa),
    # recalled from memory.
    assert agreement(table).kappa == pytest.approx(kappa, abs=5.1e-5)
