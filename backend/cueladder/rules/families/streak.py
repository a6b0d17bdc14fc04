"""Rules that count clean answers: a run in a row, or so many among the last few."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from ..errors import RuleError, whole
from ..mark import Move, Outcome
from ..said import say
from .family import Progress, State


@dataclass(frozen=True)
class Slips:
    """When run and window rules step back: misses in a row, or among the last few."""

    in_row: int = 2
    in_last: tuple[int, int] | None = (3, 8)

    @property
    def memory(self) -> int:
        """How many past cues must be remembered."""
        return max(self.in_row - 1, self.in_last[1] - 1 if self.in_last else 0)

    def after(self, history: State, missed: bool) -> State | None:
        """The history (1 a miss, newest first) with one more cue; None says step back."""
        longer = (int(missed), *history)
        if missed:
            if len(longer) >= self.in_row and all(longer[: self.in_row]):
                return None
            if self.in_last and sum(longer[: self.in_last[1]]) >= self.in_last[0]:
                return None
        kept = longer[: self.memory]
        while kept and not kept[-1]:
            kept = kept[:-1]
        return kept

    def to_json(self) -> dict[str, Any]:
        """The two fields as they stand in a rule."""
        return {
            "back_in_row": self.in_row,
            "back_in_last": list(self.in_last) if self.in_last else None,
        }

    @classmethod
    def from_json(cls, doc: Mapping[str, Any]) -> Slips:
        """Read the two fields; absent ones take the defaults."""
        in_row = whole(doc, "back_in_row", 2, 6, default=2)
        last = doc.get("back_in_last", (3, 8))
        if last is None:
            return cls(in_row, None)
        if (
            not isinstance(last, list | tuple)
            or len(last) != 2
            or not all(isinstance(v, int) and not isinstance(v, bool) for v in last)
            or not 2 <= last[0] <= last[1] <= 12
        ):
            raise RuleError("back_in_last", say("should be [misses, cues], e.g. [3, 8], cues ≤ 12"))
        return cls(in_row, (last[0], last[1]))


@dataclass(frozen=True)
class Run:
    """n passes in a row; anything else sets the run to 0."""

    n: int
    slips: Slips = Slips()

    @property
    def start(self) -> State:
        """No run yet, no misses remembered."""
        return (0,)

    def after(self, state: State, outcome: Outcome) -> State | Move:
        """Lengthen or cut the run, and watch the misses."""
        history = self.slips.after(state[1:], _missed(outcome))
        if history is None:
            return Move.BACK
        if outcome is not Outcome.PASS:
            return (0, *history)
        return Move.CLIMB if state[0] + 1 >= self.n else (state[0] + 1, *history)

    @property
    def finished(self) -> State:
        """The run whole."""
        return (self.n,)

    def kept(self, state: State, share: float) -> State:
        """Nothing: what is in a row is in one lesson."""
        return self.start

    def progress(self, state: State) -> Progress:
        """The run so far."""
        return (state[0], self.n)

    def to_json(self) -> dict[str, Any]:
        """The rule as data."""
        return {"family": "run", "n": self.n, **self.slips.to_json()}


@dataclass(frozen=True)
class Window:
    """k passes among the last w cues, w at most 12."""

    k: int
    w: int
    slips: Slips = Slips()

    @property
    def start(self) -> State:
        """An empty window (as bits) and no misses remembered."""
        return (0,)

    def after(self, state: State, outcome: Outcome) -> State | Move:
        """Slide the window one cue on, and watch the misses."""
        history = self.slips.after(state[1:], _missed(outcome))
        if history is None:
            return Move.BACK
        window = (state[0] << 1 | (outcome is Outcome.PASS)) & ((1 << self.w) - 1)
        if window.bit_count() >= self.k:
            return Move.CLIMB
        return (window & ((1 << (self.w - 1)) - 1), *history)

    @property
    def finished(self) -> State:
        """As many passes as it takes, and nothing else."""
        return ((1 << self.k) - 1,)

    def kept(self, state: State, share: float) -> State:
        """Nothing: the last few cues are those of one lesson."""
        return self.start

    def progress(self, state: State) -> Progress:
        """Passes in the window."""
        return (state[0].bit_count(), self.k)

    def to_json(self) -> dict[str, Any]:
        """The rule as data."""
        return {"family": "window", "k": self.k, "w": self.w, **self.slips.to_json()}


def _missed(outcome: Outcome) -> bool:
    return outcome in (Outcome.MISS, Outcome.STARTLE)
