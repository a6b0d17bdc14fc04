import numpy as np
import psignifit
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import norm

from cueladder.evidence.curve import WIDTH_IN_SD, fit_curve
from cueladder.evidence.threshold import Reach, fiercest_cue_held, smallest_cue_read


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


@settings(deadline=None, max_examples=25)
@given(st.integers(0, 10**6))
def test_reading_the_scale_backwards_mirrors_the_fit(seed: int) -> None:
    rng = np.random.default_rng(seed)
    trials = rng.integers(5, 30, 6)
    right = answers(rng, 2.5, 3.0, trials)
    down = fit_curve(np.arange(6), right, trials, rising=False)
    up = fit_curve(-np.arange(6), right, trials, rising=True)
    assert up.threshold == pytest.approx(-down.threshold, abs=1e-6)
    assert (up.low, up.high) == pytest.approx((-down.high, -down.low), abs=1e-6)


@settings(deadline=None, max_examples=25)
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


@settings(deadline=None, max_examples=40)
@given(
    st.lists(st.tuples(st.integers(0, 20), st.integers(0, 20)), min_size=2, max_size=9),
    st.sampled_from([0.0, 0.5]),
)
def test_any_counts_give_a_range_in_order_within_the_ladder(
    counts: list[tuple[int, int]], guess: float
) -> None:
    right = [min(pair) for pair in counts]
    trials = [max(pair) for pair in counts]
    if not sum(trials):
        trials[0] = 1
    found = smallest_cue_read(right, trials, guess=guess)
    assert -1.0 <= found.low <= found.position <= found.high <= len(counts) - 1
    assert found.rung is None or 0 <= found.rung <= found.tried
    assert found.words


def test_a_stricter_target_never_moves_the_reach_up() -> None:
    right, trials = [15, 14, 13, 9, 4, 1], [15] * 6
    reached = [smallest_cue_read(right, trials, target=t).position for t in (0.5, 0.7, 0.8, 0.9)]
    assert reached == sorted(reached, reverse=True)


def test_the_range_holds_the_true_reach_about_as_often_as_it_says() -> None:
    rng = np.random.default_rng(11)
    held = 0
    for _ in range(150):
        middle, width = rng.uniform(2.0, 5.0), rng.uniform(2.0, 5.0)
        trials = np.full(7, 12)
        right = answers(rng, middle, width, trials)
        truth = middle - norm.ppf(0.8 / 0.98) * width / WIDTH_IN_SD
        found = smallest_cue_read(right.tolist(), trials.tolist())
        held += found.low <= truth <= found.high
    assert 0.72 <= held / 150 <= 0.90


def test_more_cues_narrow_the_range() -> None:
    right, trials = np.array([10, 9, 7, 4, 1]), np.full(5, 10)
    few = smallest_cue_read(right.tolist(), trials.tolist())
    many = smallest_cue_read((5 * right).tolist(), (5 * trials).tolist())
    assert many.high - many.low < few.high - few.low


def test_no_rung_is_claimed_that_was_not_tried() -> None:
    found = smallest_cue_read([15, 15, 0, 0, 0, 0], [15, 15, 0, 0, 0, 0])
    assert (found.rung, found.tried) == (1, 1)
    assert found.position > 1.0
    assert "nothing harder was tried" in found.words


def test_a_fencer_below_the_target_on_the_first_rung_has_no_rung_yet() -> None:
    found = smallest_cue_read([5, 0, 0], [15, 0, 0])
    assert found.rung is None
    assert found.words.startswith("Not yet right 8 times in 10 on the plainest cue")


def test_words_name_the_rungs() -> None:
    labels = ["whole arm", "forearm", "wrist", "fingers"]
    found = smallest_cue_read([20, 20, 19, 6], [20] * 4, labels=labels)
    assert found.rung == 2
    assert found.words.startswith("Reads cues up to wrist, right 8 times in 10 or better")
    held = fiercest_cue_held([20, 20, 19, 6], [20] * 4)
    assert held.words.startswith("Holds cues up to rung 3")
    assert held.position == found.position


def test_nine_cues_are_too_few() -> None:
    found = smallest_cue_read([5, 4], [5, 4])
    assert found.rung is None
    assert found.words.startswith("Too early to say: only 9 cues")


def test_what_luck_alone_would_give_is_taken_off() -> None:
    middle, width, trials = 2.5, 3.0, 400
    rise = norm.cdf((middle - np.arange(6)) * WIDTH_IN_SD / width)
    right = [round(trials * (0.5 + 0.5 * share)) for share in rise]
    truth = middle - norm.ppf(0.6) * width / WIDTH_IN_SD  # .5 + .5 * .6 is the target, .8
    found: Reach = smallest_cue_read(right, [trials] * 6, guess=0.5)
    assert found.position == pytest.approx(truth, abs=0.15)


@pytest.mark.parametrize(
    "right, trials, options, said",
    [
        ([3, 2], [2, 2], {}, "^right: entry 1 is more than its trials"),
        ([1, 2], [2, 2, 2], {}, "^right: 2 entries, but 3 were expected"),
        ([0, 0], [0, 0], {}, "^trials in all: give a whole number of 1 or more"),
        ([1], [2], {}, "^trials: a ladder has at least two rungs"),
        ([1, 0.5], [2, 2], {}, "^right: give whole numbers"),
        ([1, 1], [2, 2], {"target": 0.5, "guess": 0.5}, "^target: choose it above guess"),
        ([1, 1], [2, 2], {"guess": 1.0}, "^guess: give a number from 0"),
        ([1, 1], [2, 2], {"labels": ["arm"]}, "^labels: 1 names for 2 rungs"),
        ([1, 1], [2, 2], {"confidence": 1.0}, "^confidence: "),
    ],
)
def test_bad_input_is_refused_by_name(
    right: list[int], trials: list[int], options: dict[str, object], said: str
) -> None:
    with pytest.raises(ValueError, match=said):
        smallest_cue_read(right, trials, **options)  # type: ignore[arg-type]


def test_a_curve_needs_two_levels() -> None:
    with pytest.raises(ValueError, match=r"^x: give at least two different levels"):
        fit_curve([1, 1], [1, 1], [2, 2])
