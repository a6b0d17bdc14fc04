"""A fencer's pace in seconds a cue."""

from __future__ import annotations

from collections.abc import Sequence

# Prior of 12 s a cue with the weight of twenty cues; longer gaps are pauses and count as a minute.
# Our own guesses, no published source.
SECONDS, WORTH, LONGEST = 12.0, 20, 60.0


def pace(seconds: Sequence[float], expected: float = SECONDS) -> float:
    """Seconds a cue, shrunk towards the expected pace while cues are few.

    Args:
        seconds: observed seconds from cue to cue.
        expected: mean of the prior.
    """
    total = sum(min(s, LONGEST) for s in seconds)
    return (WORTH * expected + total) / (WORTH + len(seconds))
