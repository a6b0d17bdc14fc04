"""Published figures for signal detection."""

import pytest

from cueladder.evidence.detection import detect, from_rates

# d' and c follow from the definitions in Stanislaw & Todorov 1999 (Behavior Research
# Methods 31:137) and Macmillan & Creelman, Detection Theory; the figures were computed
# independently of this code.
RATES = [
    (0.80, 0.10, 2.1232, 0.2200),
    (0.70, 0.10, 1.8060, 0.3786),
    (0.50, 0.40, 0.2533, 0.1267),
    (0.99, 0.01, 4.6527, 0.0),
    (0.69, 0.31, 0.9917, 0.0),
]


@pytest.mark.parametrize("hit, alarm, d, c", RATES)
def test_sensitivity_and_readiness_follow_the_textbook(
    hit: float, alarm: float, d: float, c: float
) -> None:
    found = from_rates(hit, alarm)
    assert found[0] == pytest.approx(d, abs=5.1e-5)
    assert found[1] == pytest.approx(c, abs=5.1e-5)


@pytest.mark.parametrize(
    "hits, attacks, alarms, decoys, d, c",
    [(10, 10, 0, 10, 3.3812, 0.0), (20, 20, 1, 20, 3.4460, -0.2578)],
)
def test_the_log_linear_correction_is_hautus(
    hits: int, attacks: int, alarms: int, decoys: int, d: float, c: float
) -> None:
    # Hautus 1995 (Behavior Research Methods 27:46): formula; figures computed independently.
    found = detect(hits, attacks, alarms, decoys)
    assert found.sensitivity == pytest.approx(d, abs=5.1e-5)
    assert found.criterion == pytest.approx(c, abs=5.1e-5)


def test_the_corrected_example_of_statpsych_is_reproduced() -> None:
    # R package statpsych, documentation of signal(), read on its page: signal(82, 46, 100,
    # 100) gives HR .8168317, FAR .460396, d' 1.002793, bias -.4019603 (its bias is our c).
    found = detect(82, 100, 46, 100)
    assert found.hit_rate == pytest.approx(0.8168317, abs=5e-8)
    assert found.false_alarm_rate == pytest.approx(0.460396, abs=5e-7)
    assert found.sensitivity == pytest.approx(1.002793, abs=5e-7)
    assert found.criterion == pytest.approx(-0.4019603, abs=5e-8)
