"""Wald's sequential test as a rule: best for a one-off test, such as an entry test."""

from __future__ import annotations

import math
from dataclasses import asdict, dataclass
from typing import Any

from ..mark import Move, Outcome
from .family import ALPHA, BETA, Progress, State


@dataclass(frozen=True)
class Sequential:
    """Wald's sequential probability ratio test of p1 against p0 (Wald 1945).

    Climb above ln((1-beta)/alpha), back below ln(beta/(1-alpha)); ``longest`` cues without a
    decision count as back. A hold scores as a miss upwards; where that would cross the lower
    line the count restarts instead.
    """

    p0: float = 0.80
    p1: float = 0.97
    alpha: float = ALPHA
    beta: float = BETA
    longest: int = 60

    @property
    def start(self) -> State:
        """No cues, no misses."""
        return (0, 0)

    @property
    def lines(self) -> tuple[float, float]:
        """(lower, upper) decision lines on the log likelihood ratio."""
        return (
            math.log(self.beta / (1 - self.alpha)),
            math.log((1 - self.beta) / self.alpha),
        )

    def ratio(self, state: State) -> float:
        """Log likelihood ratio after ``state = (cues, misses)``."""
        cues, misses = state
        return (cues - misses) * math.log(self.p1 / self.p0) - misses * math.log(
            (1 - self.p0) / (1 - self.p1)
        )

    def after(self, state: State, outcome: Outcome) -> State | Move:
        """One more cue; compare with both lines."""
        nxt = (state[0] + 1, state[1] + (outcome is not Outcome.PASS))
        lower, upper = self.lines
        ratio = self.ratio(nxt)
        if ratio >= upper - 1e-9:
            return Move.CLIMB
        if ratio <= lower + 1e-9 or nxt[0] >= self.longest:
            return self.start if outcome is Outcome.HOLD else Move.BACK
        return nxt

    @property
    def finished(self) -> State:
        """As many cues as it takes without a miss."""
        return (self.progress(self.start)[1], 0)

    def kept(self, state: State, share: float) -> State:
        """That share of the cues, and of the misses, rounded up: what was gained fades first."""
        if share == 1:
            return state
        nxt = (int(state[0] * share), math.ceil(state[1] * share))
        return nxt if self.ratio(nxt) > self.lines[0] + 1e-9 else self.start

    def progress(self, state: State) -> Progress:
        """How far towards the upper line, in clean answers."""
        unit = math.log(self.p1 / self.p0)
        goal = math.ceil(self.lines[1] / unit - 1e-9)
        return (min(goal, max(0, math.floor(self.ratio(state) / unit + 1e-9))), goal)

    def to_json(self) -> dict[str, Any]:
        """The rule as data."""
        return {"family": "sequential", **asdict(self)}
