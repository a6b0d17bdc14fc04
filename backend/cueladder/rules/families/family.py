"""What every rule family offers: a small state machine over outcomes.

`table.compile_rule` turns any of them into the same table.
"""

from __future__ import annotations

from typing import Any, Protocol

from ..mark import Move, Outcome

State = tuple[int, ...]
Progress = tuple[int, int]

# The usual risks of a sequential test: a climb too early, a climb missed.
ALPHA = 0.05
BETA = 0.10


class Rule(Protocol):
    """What every rule family offers."""

    def __hash__(self) -> int:
        """A rule is a value: the same figures are the same rule."""

    @property
    def start(self) -> State:
        """State of a fresh count."""

    @property
    def finished(self) -> State:
        """State of a count whose rule is met, of which a slip takes its price off."""

    def after(self, state: State, outcome: Outcome) -> State | Move:
        """Next state, or CLIMB or BACK. A hold costs what a slip costs but never says back."""

    def kept(self, state: State, share: float) -> State:
        """What is left of a count on a later day: that share of it, or ``start``."""

    def progress(self, state: State) -> Progress:
        """(have, need) as shown to the coach."""

    def to_json(self) -> dict[str, Any]:
        """The rule as data."""
