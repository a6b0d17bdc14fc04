"""The model of settings beside a general mixed-model library, and beside plain integration."""

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.special import expit
from scipy.stats import binom, norm
from statsmodels.genmod.bayes_mixed_glm import BinomialBayesMixedGLM

from cueladder.evidence.strangers import MEAN, Seen, Setting, fit, predict
from cueladder.evidence.teaching import changed, teaches_most


def seen_of(rows: list[tuple[str, str, str, int, int]]) -> list[Seen]:
    return [Seen(Setting(c, h, p), right, cues) for c, h, p, right, cues in rows]


CLUB = [
    ("Ilse", "right", "club", 22, 30), ("Marek", "right", "club", 11, 30),
    ("Marek", "left", "hall", 14, 20), ("Nora", "right", "hall", 18, 20),
    ("Nora", "left", "club", 9, 25),
]  # fmt: skip


def one_row_a_cue(
    rows: list[tuple[str, str, str, int, int]], names: tuple[tuple[int, str], ...]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    answers, design = [], []
    for c, h, p, right, cues in rows:
        answers += [1.0] * right + [0.0] * (cues - right)
        design += [[float((c, h, p)[kind] == name) for kind, name in names]] * cues
    return np.array(answers), np.array(design)


def test_the_mode_is_the_one_that_statsmodels_finds() -> None:
    # BinomialBayesMixedGLM of statsmodels: the same logistic model with a normal prior on the
    # mean (0, 1.5) and a log-normal one on each spread. At the spreads of its own mode the mean
    # and the settings must be the same.
    ours = fit(seen_of(CLUB))
    answers, design = one_row_a_cue(CLUB, ours.names)
    kinds = np.array([kind for kind, _ in ours.names])
    library = BinomialBayesMixedGLM(
        answers - 0.0, np.ones((len(answers), 1)), design, kinds, vcp_p=0.7, fe_p=MEAN[1]
    )
    theirs = library.fit_map(minim_opts={"gtol": 1e-5})
    spreads = np.exp(theirs.vcp_mean)[None, :]
    # its prior is centred on 0, ours on MEAN[0]: with so wide a prior the mean moves by little,
    # so it is taken out exactly by fitting ours with the same centre
    same = fit(seen_of(CLUB), spreads, centre=0.0)
    assert same.mode[0, 0] == pytest.approx(theirs.fe_mean[0], abs=2e-3)
    assert same.mode[0, 1:] == pytest.approx(theirs.vc_mean, abs=2e-3)
    assert np.abs(theirs.vc_mean).max() > 0.1, "nothing to compare"


def test_the_spread_of_the_settings_is_that_of_the_librarys_curvature() -> None:
    ours = fit(seen_of(CLUB))
    answers, design = one_row_a_cue(CLUB, ours.names)
    kinds = np.array([kind for kind, _ in ours.names])
    library = BinomialBayesMixedGLM(
        answers, np.ones((len(answers), 1)), design, kinds, vcp_p=0.7, fe_p=MEAN[1]
    )
    theirs = library.fit_map(minim_opts={"gtol": 1e-5})
    same = fit(seen_of(CLUB), np.exp(theirs.vcp_mean)[None, :], centre=0.0)
    # its own curvature with the spreads held: rows and columns of the mean and the settings
    at = np.concatenate((theirs.fe_mean, theirs.vcp_mean, theirs.vc_mean))
    kept = [0, *range(1 + 3, len(at))]
    whole = np.zeros((len(kept), len(kept)))
    for column, k in enumerate(kept):
        step = np.zeros(len(at))
        step[k] = 1e-4
        up, down = library.logposterior_grad(at + step), library.logposterior_grad(at - step)
        whole[:, column] = -((up - down) / 2e-4)[kept]
    assert np.linalg.inv(whole) == pytest.approx(same.covariance[0], abs=2e-3)


def integrated(right: list[int], cues: list[int], spread: float) -> NDArray[np.float64]:
    """Chance of 0 … 5 right of the first five with a new coach: two coaches seen, all else the
    same, summed on a fine grid with nothing approximated."""
    x = np.linspace(-6, 8, 561)
    u = norm.pdf(np.linspace(-5, 5, 201))
    u /= u.sum()
    shift = spread * np.linspace(-5, 5, 201)
    share = expit(x[:, None] + shift)
    weight = norm.pdf(x, MEAN[0], np.hypot(MEAN[1], np.sqrt(2) * spread))
    for k, n in zip(right, cues, strict=True):
        weight = weight * (binom.pmf(k, n, share) @ u)
    weight /= weight.sum()
    return np.array([weight @ (binom.pmf(k, 5, share) @ u) for k in range(6)])


@pytest.mark.parametrize(
    ("right", "cues", "spread"),
    [([15, 12], [20, 20], 0.7), ([20, 10], [20, 20], 1.0), ([38, 20], [40, 25], 0.4)],
)
def test_the_first_cues_with_a_stranger_are_those_of_plain_integration(
    right: list[int], cues: list[int], spread: float
) -> None:
    rows = [
        (f"coach {k}", "right", "club", a, n)
        for k, (a, n) in enumerate(zip(right, cues, strict=True))
    ]
    found = predict(fit(seen_of(rows), [[spread, spread, spread]]), Setting(None, "right", "club"))
    # hand and place have one name each: they belong to the mean, whose prior is so much wider
    assert sum(found.counts) == pytest.approx(1.0)
    assert np.array(found.counts) == pytest.approx(integrated(right, cues, spread), abs=0.02)


def test_what_teaches_most_takes_away_what_refitting_on_drawn_cues_does() -> None:
    # The expected fall of the variance, worked out, and by drawing the five cues many times.
    seen = seen_of(CLUB[:3])
    asked = Setting("Ilse", "left", "hall")
    option = changed(Setting("Ilse", "right", "club"), "hand", "left")
    (found,) = teaches_most(seen, asked, [option])
    rng = np.random.default_rng(5)
    before = predict(fit(seen), asked)
    chances = predict(fit(seen), option).counts
    drawn = rng.choice(6, 400, p=np.array(chances) / sum(chances))
    left = {
        int(k): predict(fit([*seen, Seen(option, int(k), 5)]), asked).variance for k in set(drawn)
    }
    simulated = 1 - np.mean([left[int(k)] for k in drawn]) / before.variance
    assert found.saves == pytest.approx(simulated, abs=0.02)
    assert found.saves > 0.02
