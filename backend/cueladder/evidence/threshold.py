"""Smallest cue read and fiercest cue held: how far up a ladder the answers hold."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from cueladder.evidence.checks import share
from cueladder.evidence.curve import WIDTH_IN_SD, checked_guess, columns, posterior_of, quantiles
from cueladder.evidence.distributions import normal_quantiles
from cueladder.evidence.guards import too_few_trials
from cueladder.evidence.words import asked_in_ten, cues
from cueladder.rules.said import Said, later, say

# Where nothing is right often enough, and how far it is.
READS = (
    later("Not yet right %(often)s on the plainest cue; that is where to work."),
    later("Reads cues up to %(rung)s%(beyond)s, right %(often)s or better%(between)s (%(cues)s)."),
)
HOLDS = (
    later("Not yet right %(often)s on the mildest cue; that is where to work."),
    later("Holds cues up to %(rung)s%(beyond)s, right %(often)s or better%(between)s (%(cues)s)."),
)


@dataclass(frozen=True)
class Reach:
    """How far up a ladder the answers hold.

    Positions count rungs from 0 (plainest or mildest). Real-valued ones are cut to
    -1 (not even rung 0) .. rungs - 1 (all of them).

    Attributes:
        rung: hardest rung tried at which answers are right with at least ``target``
            (posterior median, rounded down); None if not even rung 0, or too early.
        position, low, high: the same as real positions, with a central interval at
            ``confidence``; they may lie beyond the rungs tried.
        tried: hardest rung tried.
        words: one plain sentence.
    """

    rung: int | None
    position: float
    low: float
    high: float
    target: float
    confidence: float
    tried: int
    trials: int
    words: str


def smallest_cue_read(
    right: Sequence[int],
    trials: Sequence[int],
    *,
    target: float = 0.8,
    guess: float = 0.0,
    confidence: float = 0.8,
    labels: Sequence[str] | None = None,
) -> Reach:
    """Hardest read rung at which answers are right with at least ``target``.

    Args:
        right, trials: counts for every rung of the ladder, plainest first; 0 trials
            where a rung was not tried.
        target: share right wanted.
        guess: share right by luck alone (.5 when attack or decoy is the question).
        confidence: of the interval.
        labels: a name for each rung, for the words.

    Raises:
        ValueError: bad counts, fewer than two rungs, no trials, target below guess.
    """
    return _reach(right, trials, target, guess, confidence, labels, READS)


def fiercest_cue_held(
    right: Sequence[int],
    trials: Sequence[int],
    *,
    target: float = 0.8,
    guess: float = 0.0,
    confidence: float = 0.8,
    labels: Sequence[str] | None = None,
) -> Reach:
    """Hardest heat rung at which answers are right with at least ``target``.

    Arguments and errors as for `smallest_cue_read`, mildest rung first.
    """
    return _reach(right, trials, target, guess, confidence, labels, HOLDS)


def _reach(
    right: Sequence[int],
    trials: Sequence[int],
    target: float,
    guess: float,
    confidence: float,
    labels: Sequence[str] | None,
    words: tuple[str, str],
) -> Reach:
    rungs = np.arange(len(trials), dtype=np.float64)
    xs, rights, ns = columns(rungs.tolist(), right, trials)
    if xs.size < 2:
        raise ValueError("trials: a ladder has at least two rungs")
    names = (
        list(labels) if labels is not None else [say("rung %(n)s", n=i + 1) for i in range(xs.size)]
    )
    if len(names) != xs.size:
        raise ValueError(f"labels: {len(names)} names for {xs.size} rungs")
    if share("target", target) <= checked_guess(guess):
        raise ValueError("target: choose it above guess, or luck alone would reach it")
    top = float(xs[-1])
    tried = int(xs[ns > 0].max())
    posterior = posterior_of(xs, rights, ns, guess, False, (0.0, top), 1.0)
    # the rise must reach this level for the share right to be `target`; a fencer whose
    # slips alone keep below the target reaches it at no rung
    level = (target - guess) / (1.0 - guess - posterior.lapse)
    z = normal_quantiles(np.minimum(level, 1.0 - 1e-12))
    at = np.where(level < 1.0, posterior.middle - z * posterior.width / WIDTH_IN_SD, -1.0)
    tail = (1.0 - share("confidence", confidence)) / 2.0
    at = np.clip(at, -1.0, top)
    low, position, high = quantiles(at, posterior.weight, [tail, 0.5, 1.0 - tail])
    total = int(ns.sum())
    few = too_few_trials(total)
    rung = None if few or position < 0 else min(int(position + 1e-9), tried)
    told = few or _words(rung, low, high, names, target, total, tried, words)
    return Reach(rung, position, low, high, target, confidence, tried, total, told)


def _words(
    rung: int | None,
    low: float,
    high: float,
    names: Sequence[str],
    target: float,
    trials: int,
    tried: int,
    words: tuple[str, str],
) -> Said:
    often = asked_in_ten(target)
    not_yet, up_to = words
    if rung is None:
        return say(not_yet, often=often)
    beyond = say(" (nothing harder was tried)") if rung == tried < len(names) - 1 else ""
    lowest, highest = (min(max(0, int(end)), tried) for end in (low, high))
    between: str = ""
    if lowest != highest:
        between = say(
            "; most likely between %(low)s and %(high)s", low=names[lowest], high=names[highest]
        )
    return say(
        up_to, rung=names[rung], beyond=beyond, often=often, between=between, cues=cues(trials)
    )
