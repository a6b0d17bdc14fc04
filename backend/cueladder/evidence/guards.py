"""Small numbers are said to be small: no percentage from a handful, no trend from three lessons."""

from typing import Any

from cueladder.evidence.checks import right_of, whole
from cueladder.rules.said import Said, say, say_n

LEAST_TRIALS = 10
"""Fewest trials from which a percentage may be shown (house rule, no published source)."""

LEAST_LESSONS = 4
"""Fewest lessons from which a trend may be shown (house rule, no published source)."""


def too_few_trials(trials: Any, of: str = "cues") -> Said | None:
    """Kind words when ``trials`` are too few to say anything, else None.

    Args:
        trials: how many there are.
        of: what they are: ``cues``, ``attacks`` or ``decoys``.

    Raises:
        ValueError: ``trials`` is not a whole number of 0 or more.
    """
    trials = whole("trials", trials)
    if trials >= LEAST_TRIALS:
        return None
    if of == "attacks":
        seen = say_n("only %(n)s cue to answer so far", "only %(n)s cues to answer so far", trials)
        none = say("no cues to answer so far")
    elif of == "decoys":
        seen = say_n("only %(n)s cue to leave so far", "only %(n)s cues to leave so far", trials)
        none = say("no cues to leave so far")
    else:
        seen = say_n("only %(n)s cue so far", "only %(n)s cues so far", trials)
        none = say("no cues so far")
    return _too_early(seen if trials else none, LEAST_TRIALS)


def too_few_lessons(lessons: Any, least: int = LEAST_LESSONS) -> Said | None:
    """Kind words when ``lessons`` are fewer than ``least``, too few for a trend, else None.

    Raises:
        ValueError: ``lessons`` is not a whole number of 0 or more.
    """
    lessons = whole("lessons", lessons)
    if lessons >= least:
        return None
    seen = say_n("only %(n)s lesson so far", "only %(n)s lessons so far", lessons)
    return _too_early(seen if lessons else say("no lesson that can be counted so far"), least)


def _too_early(seen: Said, least: int) -> Said:
    return say(
        "Too early to say: %(seen)s, and it takes at least %(least)s.", seen=seen, least=least
    )


def percentage(right: Any, trials: Any) -> int | None:
    """Whole percentage right, or None under `LEAST_TRIALS` trials.

    Never rounds up to 100 or down to 0 unless every trial was right or wrong.

    Raises:
        ValueError: bad counts.
    """
    right, trials = right_of(right, trials, least=0)
    if trials < LEAST_TRIALS:
        return None
    if 0 < right < trials:
        return min(99, max(1, int(100 * right / trials + 0.5)))
    return 100 if right else 0


def share_words(right: Any, trials: Any) -> Said:
    """ "7 of 9", or "14 of 20 (70 %)" once there are trials enough.

    Raises:
        ValueError: bad counts.
    """
    right, trials = right_of(right, trials, least=0)
    percent = percentage(right, trials)
    if percent is None:
        return say("%(right)s of %(all)s", right=right, all=trials)
    return say("%(right)s of %(all)s (%(percent)s %%)", right=right, all=trials, percent=percent)
