"""The rules the study tries: every family over a grid, and baselines from outside the product."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

from cueladder.rules import ChangePoint, Chart, Rule, Run, Sequential, Window, compile_chart
from cueladder.rules.rule import Slips

from .study_drill import drill

BASELINE = "baseline"
CHECKS = (5, 10, 15)
# Step-back rules slower than the default of runs (2 misses running, or 3 in 8).
SLOWER_BACK = (Slips(3, (4, 8)), Slips(4, None))


@dataclass(frozen=True)
class Setting:
    """One rule to try.

    Attributes:
        family: rule family, or BASELINE.
        label: how the report calls it.
        rule: the rule.
        check_cues: cues of the re-check on a later day, all of which must be clean.
    """

    family: str
    label: str
    rule: Rule
    check_cues: int = CHECKS[0]

    def chart(self, kind: str, rungs: int) -> Chart:
        """The setting compiled for a study drill."""
        made = drill(kind, self.rule, rungs=rungs)
        return compile_chart(made, check_cues=self.check_cues)


def settings(quick: bool = False) -> list[Setting]:
    """All settings, the default first; those that compile to the same table only once."""
    kept: dict[object, Setting] = {}
    for s in _families(quick):
        kept.setdefault(s.chart("sensitization", 2).table, s)
    return [*kept.values(), *_baselines()]


def _families(quick: bool) -> Iterator[Setting]:
    yield _change(ChangePoint())
    if quick:
        rates = [(0.5, 0.9), (0.7, 0.93), (0.75, 0.95), (0.8, 0.95), (0.8, 0.98), (0.85, 0.97)]
        patient = [(0.8, 0.95, 3), (0.8, 0.97, 3), (0.82, 0.97, 4)]
        runs, windows = (5, 8, 10, 12, 15, 17, 20), ((9, 10), (11, 12))
        slow_runs = (14, 16)
        tests = [(0.8, 0.97, 0.05, 0.1), (0.8, 0.95, 0.11, 0.005), (0.8, 0.93, 0.13, 0.005)]
    else:
        low = (0.4, 0.5, 0.6, 0.7, 0.75, 0.78, 0.8, 0.82, 0.85, 0.88, 0.9)
        high = (0.85, 0.9, 0.93, 0.95, 0.97, 0.98, 0.99)
        rates = [(a, b) for a, b in product(low, high) if b >= a + 0.05 - 1e-9]
        near = product((0.75, 0.78, 0.8, 0.82, 0.85), (0.93, 0.95, 0.96, 0.97, 0.98), (3, 4))
        patient = list(near)
        runs, slow_runs = tuple(range(3, 26)), tuple(range(10, 21))
        windows = tuple((k, w) for w in (5, 6, 8, 10, 11, 12) for k in range(max(3, w - 2), w + 1))
        pairs = ((0.7, 0.97), (0.75, 0.95), (0.8, 0.93), (0.8, 0.95), (0.8, 0.97), (0.85, 0.95))
        tests = [
            (*pair, alpha, beta)
            for pair in pairs
            for alpha in (0.05, 0.08, 0.11, 0.13, 0.2)
            for beta in (0.005, 0.02, 0.1)
        ]
    for p0, p1 in rates:
        yield _change(ChangePoint(p0, p1, 2))
    for p0, p1, patience in patient:
        yield _change(ChangePoint(p0, p1, patience))
    for n in runs:
        yield Setting("run", f"run {n}", Run(n))
    for n, slips in product(slow_runs, SLOWER_BACK):
        words = f"back at {slips.in_row} running" + (" or 4 of 8" if slips.in_last else "")
        yield Setting("run", f"run {n} ({words})", Run(n, slips))
    for k, w in windows:
        yield Setting("window", f"window {k} of {w}", Window(k, w))
    for p0, p1, alpha, beta in tests:
        label = f"sequential {p0:g} {p1:g} {alpha:g} {beta:g}"
        yield Setting("sequential", label, Sequential(p0, p1, alpha, beta))


def _baselines() -> Iterator[Setting]:
    for check in CHECKS:
        # 3-down-1-up (Levitt 1971): three right, one step on; one slip, one step back.
        yield Setting(BASELINE, f"3-down-1-up, re-check {check}", Run(3, Slips(1, None)), check)
        yield Setting(BASELINE, f"ten in a row, re-check {check}", Run(10, Slips(2, None)), check)


def _change(rule: ChangePoint) -> Setting:
    scores = f"{rule.goal}/{rule.slip}, {rule.drop}, back at {rule.patience}"
    return Setting("changepoint", f"changepoint {rule.p0:g} {rule.p1:g} ({scores})", rule)
