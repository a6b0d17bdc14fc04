"""The rules' odds: the figures they were chosen by, and textbook run lengths."""

import math

import numpy as np
import pytest
from scipy.stats import norm

from cueladder.evidence.odds import odds, run_length
from cueladder.rules import ChangePoint, Run, Sequential, Slips, Window
from cueladder.rules.table import compile_rule
from cueladder.story.rule_words import rule_words

PAIR_ONLY = Slips(in_row=2, in_last=None)

# Computed once by an independent prototype (no published source): states, then for a true rate
# (climb chance, expected cues), starting fresh, no cap.
PROTOTYPE = [
    (
        Run(10, PAIR_ONLY),
        11,
        {0.7: (0.112, 12.8), 0.8: (0.419, 17.4), 0.9: (0.855, 16.0), 0.97: (0.990, 11.7)},
    ),
    (
        Run(15, PAIR_ONLY),
        16,
        {0.7: (0.020, 14.2), 0.8: (0.180, 24.6), 0.9: (0.740, 28.6), 0.97: (0.983, 19.0)},
    ),
    (
        Sequential(),
        144,
        {0.7: (0.004, 7.2), 0.8: (0.046, 12.3), 0.9: (0.408, 22.8), 0.97: (0.945, 21.0)},
    ),
    (
        ChangePoint(0.8, 0.97, patience=2),
        66,
        {0.7: (0.014, 9.8), 0.8: (0.122, 16.2), 0.9: (0.635, 23.5), 0.97: (0.978, 18.5)},
    ),
]


@pytest.mark.parametrize(("rule", "states", "figures"), PROTOTYPE, ids=lambda v: type(v).__name__)
def test_the_chart_reproduces_the_prototype_table(rule, states, figures):
    table = compile_rule(rule, holds=False)
    assert table.ready == states
    for p, (climb, cues) in figures.items():
        found = odds(table, p)
        assert found.climb == pytest.approx(climb, abs=0.00051)
        assert found.cues == pytest.approx(cues, abs=0.051)


# Feller, Introduction to Probability vol. 1, XIII.7 (from memory): expected trials to the first
# run of r successes, (1 - p^r) / ((1 - p) p^r).
@pytest.mark.parametrize(
    ("p", "r", "expected"),
    [
        (0.5, 2, 6),
        (0.5, 3, 14),
        (0.5, 5, 62),
        (0.5, 10, 2046),
        (1 / 6, 2, 42),
        (0.8, 3, 4.7656),
        (0.9, 5, 6.9351),
    ],
)
def test_a_run_rule_without_step_back_takes_fellers_expected_cues(p, r, expected):
    never = Slips(in_row=10_000, in_last=None)
    table = compile_rule(_Forgiving(r, never), holds=False)
    assert odds(table, p).cues == pytest.approx(expected, rel=1e-4)
    assert odds(table, p).cues == pytest.approx((1 - p**r) / ((1 - p) * p**r), rel=1e-9)
    assert odds(table, p).climb == pytest.approx(1.0)


class _Forgiving(Run):
    """A run rule that never steps back: misses are forgotten at once."""

    def after(self, state, outcome):
        after = super().after((state[0],), outcome)
        return after if not isinstance(after, tuple) else after[:1]


# Levitt 1971, J. Acoust. Soc. Am. 49:467: k-down-1-up settles where p^k = 1/2. The same run of k
# then climbs as often as it is cut short.
@pytest.mark.parametrize(("k", "p"), [(1, 0.500), (2, 0.707), (3, 0.794), (4, 0.841)])
def test_k_clean_in_a_row_is_an_even_chance_at_levitts_targets(k, p):

    class Staircase(Run):
        def after(self, state, outcome):
            from cueladder.rules import Move, Outcome

            return super().after(state, outcome) if outcome is Outcome.PASS else Move.BACK

    table = compile_rule(Staircase(k, PAIR_ONLY), holds=False)
    assert odds(table, p).climb == pytest.approx(0.5, abs=0.002)


# Wald & Wolfowitz 1948: lower bounds on the expected sample size of a test with given errors. The
# figures for .5/.8 and .6/.9 were computed independently, no printed source. They bound a test of
# the *attained* errors, so the rule is held against the bound at what it attains.
@pytest.mark.parametrize(
    ("rule", "low", "high"),
    [
        (Sequential(0.5, 0.8, 0.05, 0.05, longest=400), 11.8757, 13.7487),
        (Sequential(0.6, 0.9, 0.05, 0.10, longest=400), 6.4073, 10.5007),
    ],
    ids=["5to8", "6to9"],
)
def test_the_sequential_family_stays_near_walds_bound_and_never_beats_it(rule, low, high):
    table = compile_rule(rule, holds=False)
    at_low, at_high = odds(table, rule.p0), odds(table, rule.p1)
    alpha, beta = at_low.climb, 1 - at_high.climb
    bounds = (
        _bound(rule.p0, rule.p1, 1 - alpha, alpha, beta),
        _bound(rule.p1, rule.p0, 1 - beta, beta, alpha),
    )
    for found, bound in zip((at_low.cues, at_high.cues), bounds, strict=True):
        assert bound <= found <= 1.2 * bound
    asked = (
        _bound(rule.p0, rule.p1, 1 - rule.alpha, rule.alpha, rule.beta),
        _bound(rule.p1, rule.p0, 1 - rule.beta, rule.beta, rule.alpha),
    )
    assert asked == pytest.approx((low, high), abs=5e-5)


def test_a_sequential_rule_is_told_by_the_risks_it_has_and_not_by_those_it_was_asked_for():
    # asked for .10; with its limit of 60 cues a fencer right 9 times in 10 is sent back about half
    # the time (exact, from the chart)
    rule = Sequential(0.8, 0.9)
    missed = 1 - odds(compile_rule(rule, holds=False), 0.9).climb
    assert missed > 0.4
    assert f"sent back about {round(100 * missed)} times in 100" in rule_words(rule)


def _bound(p, q, right, wrong, other):
    divergence = p * math.log(p / q) + (1 - p) * math.log((1 - p) / (1 - q))
    return (wrong * math.log(wrong / (1 - other)) + right * math.log(right / other)) / divergence


# NIST/SEMATECH e-Handbook, sequential sampling plans (from memory), and Montgomery, Introduction
# to Statistical Quality Control, item-by-item sequential sampling (from memory). Defectives x
# against lines -h1 + s n and h2 + s n.
@pytest.mark.parametrize(
    ("p0", "p1", "h1", "h2", "s"),
    [(0.01, 0.10, 0.939, 1.205, 0.0397), (0.01, 0.06, 1.22, 1.57, 0.028)],
)
def test_the_sequential_lines_are_walds(p0, p1, h1, h2, s):
    # In our terms a success is "no defect", so the reliable rate is 1 - p0 and the risks swap.
    rule = Sequential(p0=1 - p1, p1=1 - p0, alpha=0.10, beta=0.05)
    per_defect = math.log((1 - rule.p0) / (1 - rule.p1)) + math.log(rule.p1 / rule.p0)
    lower, upper = rule.lines
    assert upper / per_defect == pytest.approx(h1, abs=0.006)
    assert -lower / per_defect == pytest.approx(h2, abs=0.006)
    assert math.log(rule.p1 / rule.p0) / per_defect == pytest.approx(s, abs=0.0006)


# Average run lengths of the two-sided normal cumulative sum chart, k = .5 (Montgomery's table,
# from memory), by Brook & Evans 1972, Biometrika 59:539, with the same Markov routine. For one
# side the chain is discretised; two equal sides halve the run length in control.
@pytest.mark.parametrize(
    ("h", "shift", "arl"), [(5, 0.0, 465), (5, 1.0, 10.4), (4, 0.0, 168), (4, 1.0, 8.38)]
)
def test_the_markov_routine_gives_the_tabled_run_lengths_of_a_cumulative_sum(h, shift, arl):
    up, down = _one_sided(h, shift), _one_sided(h, -shift)
    assert 1 / (1 / up + 1 / down) == pytest.approx(arl, rel=0.01)


def _one_sided(h, shift, k=0.5, cells=400):
    width = 2 * h / (2 * cells - 1)
    i = np.arange(cells)
    edge = (i[None, :] - i[:, None]) * width + k - shift
    inner = norm.cdf(edge + width / 2) - norm.cdf(edge - width / 2)
    inner[:, 0] = norm.cdf(edge[:, 0] + width / 2)
    return run_length(inner)[0]


def test_a_window_rule_of_all_its_cues_is_a_run_rule():
    window = compile_rule(Window(6, 6, PAIR_ONLY), holds=False)
    run = compile_rule(Run(6, PAIR_ONLY), holds=False)
    for p in (0.5, 0.8, 0.95):
        assert odds(window, p).climb == pytest.approx(odds(run, p).climb)
        assert odds(window, p).cues == pytest.approx(odds(run, p).cues)
