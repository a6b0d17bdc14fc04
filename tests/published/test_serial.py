"""Published figures for the runs test."""

import pytest

from cueladder.evidence.serial import judge_order, runs_test


def test_the_nist_example_gives_its_z() -> None:
    # NIST/SEMATECH e-Handbook 1.3.5.13, recalled from memory: 200 values, 100 above and
    # 100 below the median, 120 runs: Z = 2.6938, without continuity correction.
    assert runs_test(100, 100, 120).z == pytest.approx(2.6938, abs=5.1e-5)


COINS = "HTTHHHTTTTTTTHHHTHTHHHTHHHTHTH"


def test_the_coins_of_the_pracma_manual_give_its_z() -> None:
    # R package pracma, documentation of runs.test(), read on its page: x1 gives
    # Z -.1617764. It moves short series half a run towards the mean, which we do not.
    found = judge_order([toss == "H" for toss in COINS]).runs
    corrected = (found.runs + 0.5 - found.expected) / found.deviation
    assert corrected == pytest.approx(-0.1617764, abs=5e-8)


def test_fifty_turns_of_the_pracma_manual_give_its_z() -> None:
    # As above: x2, nought and one by turns fifty times, gives Z 9.849873.
    assert judge_order([False, True] * 50).runs.z == pytest.approx(9.849873, abs=5e-7)


@pytest.mark.parametrize("each, few, many", [(5, 2, 10), (10, 6, 16), (15, 10, 22)])
def test_exact_p_turns_significant_where_the_printed_tables_say(
    each: int, few: int, many: int
) -> None:
    # Swed & Eisenhart 1943 (Annals of Mathematical Statistics 14:66), critical values at
    # .025 on either side as reprinted in Siegel 1956; recalled from memory.
    assert runs_test(each, each, few).p <= 0.05 < runs_test(each, each, few + 1).p
    assert runs_test(each, each, many).p <= 0.05 < runs_test(each, each, many - 1).p
