"""The change-point rule: has it become reliable?"""

from __future__ import annotations

import math
from dataclasses import asdict, dataclass
from typing import Any, Protocol

from ..mark import Move, Outcome
from ..settings import DROP, READING
from .family import ALPHA, BETA, Progress, State


class _Figures(Protocol):
    """The whole figures both forms of the rule come down to."""

    @property
    def goal(self) -> int: ...
    @property
    def slip(self) -> int: ...
    @property
    def floor(self) -> int: ...
    @property
    def drop(self) -> int: ...
    @property
    def patience(self) -> int: ...


class _Sums:
    """Two one-sided cumulative sums with whole scores.

    Page 1954, Biometrika 41:100; run lengths by Markov chain: Brook & Evans 1972,
    Biometrika 59:539. A pass scores 1 upwards and a slip takes ``slip`` off, to at most ``floor``
    below nothing; climb at ``goal``. The second sum adds ``drop`` a slip, loses 1 a pass, and at
    ``patience`` slips' worth says back. A hold is a slip upwards and nothing downwards.
    """

    @property
    def start(self) -> State:
        """Both sums at zero."""
        return (0, 0)

    @property
    def finished(self: _Figures) -> State:
        """The goal reached."""
        return (self.goal, 0)

    def after(self: _Figures, state: State, outcome: Outcome) -> State | Move:
        """Update both sums; the downward line is read only after a miss."""
        up, down = state
        if outcome is Outcome.PASS:
            up, down = up + 1, max(0, down - 1)
            return Move.CLIMB if up >= self.goal else (up, down)
        up = max(-self.floor, up - self.slip)
        if outcome is Outcome.HOLD:
            return (up, down)
        down += self.drop
        return Move.BACK if down >= self.patience * self.drop else (up, down)

    def kept(self, state: State, share: float) -> State:
        """That share of the upward sum; slips of another day are not close together."""
        return (int(state[0] * share), 0)

    def progress(self: _Figures, state: State) -> Progress:
        """The upward sum against its goal; below nothing where slips are owed."""
        return (state[0], self.goal)


@dataclass(frozen=True)
class Tally(_Sums):
    """Has it *become* reliable, in a coach's own figures.

    To a coach, as a reading drill has it: twenty clean; a slip costs ten; four slips close
    together, one step back. Chosen by experiment: see pages/guide/default-rule.md.
    """

    goal: int = READING["usual"]["goal"]
    slip: int = READING["usual"]["slip"]
    patience: int = READING["usual"]["patience"]
    floor: int = READING["usual"]["floor"]

    @property
    def drop(self) -> int:
        """What a slip adds downwards, in passes."""
        return DROP

    def to_json(self) -> dict[str, Any]:
        """The rule as data."""
        return {"family": "changepoint", **asdict(self)}


@dataclass(frozen=True)
class ChangePoint(_Sums):
    """Has it *become* reliable, in rates: from ``p0``, not yet enough, to ``p1``, reliable.

    Scores are the likelihood ratios of p1 against p0 in units of a pass. The downward score
    watches for a fall from the rate at which the upward score neither gains nor loses, to p0.
    """

    p0: float = 0.80
    p1: float = 0.96
    patience: int = 3

    @property
    def floor(self) -> int:
        """Nothing is owed."""
        return 0

    @property
    def slip(self) -> int:
        """What a slip takes off, in passes (default 9)."""
        return max(1, round(_slip_score(self.p0, self.p1)))

    @property
    def goal(self) -> int:
        """The score at which to climb (default 16): Wald's line ln((1-beta)/alpha)."""
        return max(1, round(math.log((1 - BETA) / ALPHA) / math.log(self.p1 / self.p0)))

    @property
    def drop(self) -> int:
        """What a slip adds downwards, in passes (default 6)."""
        score = _slip_score(self.p0, self.p1)
        neutral = score / (1 + score)
        return max(1, round(_slip_score(self.p0, neutral)))

    def to_json(self) -> dict[str, Any]:
        """The rule as data."""
        return {"family": "changepoint", **asdict(self)}


def _slip_score(p0: float, p1: float) -> float:
    """A slip's log likelihood ratio in units of a pass's."""
    return math.log((1 - p0) / (1 - p1)) / math.log(p1 / p0)
