import numpy as np
import psignifit
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from cueladder.evidence.curve import WIDTH_IN_SD, fit_curve
from cueladder.evidence.threshold import position, reach
from tests.examples import examples


def answers(
    rng: np.random.Generator, middle: float, width: float, trials: np.ndarray, lapse: float = 0.02
) -> np.ndarray:
    """Right answers on a ladder, falling as the rungs get harder."""
    z = (middle - np.arange(trials.size)) * WIDTH_IN_SD / width
    return rng.binomial(trials, (1 - lapse) * norm.cdf(z))


@pytest.mark.parametrize("seed", range(8))
def test_fits_agree_with_psignifit_on_random_data(seed: int) -> None:
    # Stated tolerance: threshold within a fifth of its standard error, ends of the
    # interval within a third of it; width within 12 %.
    rng = np.random.default_rng(seed)
    levels, guess = 8, (0.0, 0.5)[seed % 2]
    trials = rng.integers(20, 50, levels)
    middle, width = rng.uniform(2, 5), rng.uniform(2, 6)
    x = np.arange(levels)
    rise = norm.cdf((x - middle) * WIDTH_IN_SD / width)
    right = rng.binomial(trials, guess + (1 - guess - 0.02) * rise)
    ours = fit_curve(x, right, trials, guess=guess)
    theirs = psignifit.psignifit(
        np.column_stack([x, right, trials]),
        experiment_type="2AFC" if guess else "yes/no",
        fixed_parameters={"eta": 1e-8} if guess else {"gamma": 1e-8, "eta": 1e-8},
        verbose=False,
    )
    mean = theirs.get_parameter_estimate("mean")
    low, high = theirs.confidence_intervals["threshold"]["0.95"]
    error = (high - low) / 3.92
    assert ours.threshold == pytest.approx(mean["threshold"], abs=error / 5)
    assert (ours.low, ours.high) == pytest.approx((low, high), abs=error / 3)
    assert ours.width == pytest.approx(mean["width"], rel=0.12)
    assert ours.lapse == pytest.approx(mean["lambda"], abs=0.01)


@examples(20)
@given(st.integers(0, 10**6))
def test_reading_the_scale_backwards_mirrors_the_fit(seed: int) -> None:
    rng = np.random.default_rng(seed)
    trials = rng.integers(5, 30, 6)
    right = answers(rng, 2.5, 3.0, trials)
    down = fit_curve(np.arange(6), right, trials, rising=False)
    up = fit_curve(-np.arange(6), right, trials, rising=True)
    assert up.threshold == pytest.approx(-down.threshold, abs=1e-6)
    assert (up.low, up.high) == pytest.approx((-down.high, -down.low), abs=1e-6)


@examples(20)
@given(st.integers(0, 10**6), st.floats(0.1, 20), st.floats(-50, 50))
def test_another_unit_of_the_scale_gives_the_same_threshold_in_that_unit(
    seed: int, unit: float, shift: float
) -> None:
    rng = np.random.default_rng(seed)
    trials = rng.integers(5, 30, 6)
    right = answers(rng, 2.5, 3.0, trials)
    plain = fit_curve(np.arange(6), right, trials, rising=False)
    other = fit_curve(np.arange(6) * unit + shift, right, trials, rising=False)
    assert other.threshold == pytest.approx(plain.threshold * unit + shift, abs=1e-4 * unit)


def test_a_higher_level_asks_for_an_easier_cue() -> None:
    right, trials = [20, 19, 15, 8, 3, 1], [20] * 6
    at = [
        fit_curve(range(6), right, trials, rising=False, level=level).threshold
        for level in (0.3, 0.5, 0.7, 0.9)
    ]
    assert at == sorted(at, reverse=True)


@examples(40)
@given(st.lists(st.tuples(st.integers(0, 20), st.integers(0, 20)), min_size=2, max_size=9))
def test_any_counts_give_a_range_in_order_within_what_was_tried(
    counts: list[tuple[int, int]],
) -> None:
    right = [min(pair) for pair in counts]
    trials = [max(pair) for pair in counts]
    if not sum(trials):
        trials[0] = 1
    found = reach(right, trials)
    assert -1 <= found.low <= found.high <= found.tried <= found.top == len(counts) - 1


def test_a_stricter_target_never_moves_the_reach_up() -> None:
    right, trials = [15, 14, 13, 9, 4, 1], [15] * 6
    for found in (
        [position(right, trials, target=t) for t in (0.5, 0.7, 0.8, 0.9)],
        [reach(right, trials, target=t).low for t in (0.5, 0.7, 0.8, 0.9)],
        [reach(right, trials, target=t).high for t in (0.5, 0.7, 0.8, 0.9)],
    ):
        assert found == sorted(found, reverse=True)


def test_more_cues_narrow_the_range() -> None:
    right, trials = np.array([10, 9, 7, 4, 1]), np.full(5, 10)
    few = reach(right.tolist(), trials.tolist())
    many = reach((5 * right).tolist(), (5 * trials).tolist())
    assert many.high - many.low < few.high - few.low


def test_a_faultless_fencer_reaches_the_top_and_nothing_below_it() -> None:
    found = reach([30] * 7, [30] * 7)
    assert (found.low, found.high, found.top) == (6, 6, 6)


def test_clean_answers_on_a_hard_rung_speak_for_the_easier_ones() -> None:
    assert reach([0, 0, 20], [0, 0, 20]).low == 2


def test_a_few_clean_answers_at_the_top_do_not_name_it() -> None:
    found = reach([30, 30, 10], [30, 30, 10])
    assert (found.low, found.high) == (1, 2)


def test_no_rung_is_named_that_was_not_tried() -> None:
    found = reach([25, 25, 0, 0, 0, 0], [25, 25, 0, 0, 0, 0])
    assert (found.low, found.high, found.tried) == (1, 1, 1)
    assert position([25, 25, 0, 0, 0, 0], [25, 25, 0, 0, 0, 0]) > 1.0


def test_a_fencer_below_the_target_on_the_first_rung_has_no_rung_yet() -> None:
    assert reach([5, 0, 0], [15, 0, 0]).high == -1


@pytest.mark.parametrize(
    "right, trials, options, said",
    [
        ([3, 2], [2, 2], {}, "^right: entry 1 is more than its trials"),
        ([1, 2], [2, 2, 2], {}, "^right: 2 entries, but 3 were expected"),
        ([0, 0], [0, 0], {}, "^trials in all: give a whole number of 1 or more"),
        ([1], [2], {}, "^trials: a ladder has at least two rungs"),
        ([1, 0.5], [2, 2], {}, "^right: give whole numbers"),
        ([1, 1], [2, 2], {"target": 1.0}, "^target: "),
    ],
)
def test_bad_input_is_refused_by_name(
    right: list[int], trials: list[int], options: dict[str, float], said: str
) -> None:
    with pytest.raises(ValueError, match=said):
        reach(right, trials, **options)


def test_a_curve_needs_two_levels() -> None:
    with pytest.raises(ValueError, match=r"^x: give at least two different levels"):
        fit_curve([1, 1], [1, 1], [2, 2])
