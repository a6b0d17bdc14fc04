"""A fencer's own seconds from cue to cue."""

from __future__ import annotations

from collections.abc import Sequence

# With nothing known, 12 s a cue, worth twenty cues; a gap over a minute is a pause in which
# something else went on, and counts as a minute. House guesses, no published source.
SECONDS, WORTH, LONGEST = 12.0, 20, 60.0


def pace(seconds: Sequence[float], expected: float = SECONDS) -> float:
    """Seconds a cue, drawn towards what is expected until there are cues enough.

    Args:
        seconds: observed seconds from cue to cue.
        expected: the pace to start from.
    """
    total = sum(min(s, LONGEST) for s in seconds)
    return (WORTH * expected + total) / (WORTH + len(seconds))
