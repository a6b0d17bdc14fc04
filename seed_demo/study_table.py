"""Figures of the study: means over fencers, standard errors by resampling fencers.

Every rule meets the same fencers with the same calendar and luck (common random numbers), and
one resampling weights the fencers alike for all rules, so differences are judged pairwise.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from .learners import MODELS, Floats
from .study_rules import Setting
from .study_year import Outcome, Year, spend

RESAMPLES = 300
POOLED = "pooled"


@dataclass(frozen=True)
class Table:
    """Outcomes of all settings; fencers of all models side by side, as many of each.

    Attributes:
        settings: the rows.
        model: index into MODELS of each fencer, shape (n,).
        outcomes: name of an `Outcome` array to shape (settings, n).
        weights: first row 1 for each fencer, then RESAMPLES bootstrap weights (Efron 1979),
            drawn within each model, shape (RESAMPLES + 1, n).
    """

    settings: Sequence[Setting]
    model: Floats
    outcomes: dict[str, Floats]
    weights: Floats

    def mean(self, name: str, model: str = POOLED) -> Floats:
        """Mean a fencer of each setting, shape (RESAMPLES + 1, settings); row 0 the estimate."""
        w = self._weights(model)
        return np.asarray(w @ self.outcomes[name].T / w.sum(axis=1, keepdims=True))

    def share(self, part: str, whole: str, model: str = POOLED) -> Floats:
        """Sum of one outcome over the sum of another, of each setting; shape as `mean`."""
        below = np.maximum(self.mean(whole, model), 1e-12)
        return np.asarray(self.mean(part, model) / below)

    def early(self, model: str = POOLED) -> Floats:
        """Share of climbs made while truly below .85."""
        return self.share("early", "climbs", model)

    def _weights(self, model: str) -> Floats:
        if model == POOLED:
            return self.weights
        return np.asarray(self.weights * (self.model == MODELS.index(model)))


def run(
    settings: Sequence[Setting], years: dict[str, Year], kind: str, rungs: int, seed: int
) -> Table:
    """Take the fencers of every model through the season under every setting."""
    sizes = [years[m].gaps.shape[1] for m in MODELS]
    rows = []
    for setting in settings:
        chart = setting.chart(kind, rungs)
        rows.append([spend(chart, years[m]) for m in MODELS])
    names = [n for n in Outcome.__dataclass_fields__ if n != "met"]
    outcomes = {
        name: np.array([np.concatenate([getattr(o, name) for o in row]) for row in rows])
        for name in names
    }
    rng = np.random.default_rng([seed, 99])
    drawn = [rng.multinomial(n, np.full(n, 1 / n), RESAMPLES) for n in sizes]
    weights = np.vstack([np.ones(sum(sizes)), np.hstack(drawn)])
    return Table(settings, np.repeat(np.arange(len(MODELS)), sizes), outcomes, weights)


def error(values: Floats) -> Floats:
    """Standard error: spread of the resampled values (rows 1 on)."""
    return np.asarray(values[1:].std(axis=0, ddof=1))


@dataclass(frozen=True)
class Rival:
    """A setting held against the default; ratios below 1 are better than the default's.

    Attributes:
        label: the setting.
        cues, early: ratios of mean cues and of the early share, with standard errors.
        worse: the larger of the two ratios, the one that decides, with standard error.
    """

    label: str
    cues: float
    cues_error: float
    early: float
    early_error: float
    worse: float
    worse_error: float


def rivals(table: Table, model: str = POOLED) -> list[Rival]:
    """Every setting but the default (row 0) against it, the strongest first."""
    cues, early = table.mean("cues", model), table.early(model)
    cues = cues / cues[:, :1]
    early = early / np.maximum(early[:, :1], 1e-12)
    worse = np.maximum(cues, early)
    found = [
        Rival(
            table.settings[i].label,
            *(float(v) for x in (cues, early, worse) for v in (x[0, i], error(x)[i])),
        )
        for i in range(1, len(table.settings))
    ]
    return sorted(found, key=lambda r: r.worse)


def on_curve(cues: Floats, early: Floats, at: float) -> float:
    """Cues at an early share on the lower envelope of a family's settings.

    Linear in the logarithm of the share; at a share beyond the loosest setting that setting's
    cues, which then come with fewer early climbs.

    Args:
        cues, early: of the family's settings, shape (settings,).
        at: the early share to read at.
    """
    order = np.lexsort((cues, early))
    best = np.minimum.accumulate(cues[order])
    kept = np.concatenate(([True], np.diff(best) < 0))
    x = np.log(np.maximum(early[order][kept], 1e-6))
    return float(np.interp(np.log(max(at, 1e-6)), x, best[kept]))


def equal_early(
    table: Table, baseline: int, model: str = POOLED, *, per_fencer: bool = False
) -> tuple[float, float]:
    """Cues of the change-point family over a baseline's at equal early climbs, and the error.

    Args:
        table: the outcomes.
        baseline: row of the baseline.
        model: a learning model, or all pooled.
        per_fencer: early climbs equal in number a fencer instead of in share of all climbs.
    """
    family = [i for i, s in enumerate(table.settings) if s.family == "changepoint"]
    early = table.mean("early", model) if per_fencer else table.early(model)
    ratio = np.array(
        [
            on_curve(c[family], e[family], e[baseline]) / c[baseline]
            for c, e in zip(table.mean("cues", model), early, strict=True)
        ]
    )
    return float(ratio[0]), float(ratio[1:].std(ddof=1))
