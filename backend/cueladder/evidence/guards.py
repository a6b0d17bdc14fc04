"""Small numbers are said to be small: no percentage from a handful, no trend from three lessons."""

from typing import Any

from cueladder.evidence.checks import right_of, whole
from cueladder.evidence.words import count

LEAST_TRIALS = 10
"""Fewest trials from which a percentage may be shown (house rule, no published source)."""

LEAST_LESSONS = 4
"""Fewest lessons from which a trend may be shown (house rule, no published source)."""


def too_few_trials(trials: Any, noun: str = "cue") -> str | None:
    """Kind words when ``trials`` are too few to say anything, else None.

    Raises:
        ValueError: ``trials`` is not a whole number of 0 or more.
    """
    trials = whole("trials", trials)
    if trials >= LEAST_TRIALS:
        return None
    seen = f"only {count(trials, noun)}" if trials else f"no {noun}s"
    return f"Too early to say: {seen} so far, and it takes at least {LEAST_TRIALS}."


def too_few_lessons(lessons: Any) -> str | None:
    """Kind words when ``lessons`` are too few for a trend, else None.

    Raises:
        ValueError: ``lessons`` is not a whole number of 0 or more.
    """
    lessons = whole("lessons", lessons)
    if lessons >= LEAST_LESSONS:
        return None
    seen = f"only {count(lessons, 'lesson')}" if lessons else "no lessons"
    return f"Too early to say: {seen} so far, and it takes at least {LEAST_LESSONS}."


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


def share_words(right: Any, trials: Any) -> str:
    """ "7 of 9", or "14 of 20 (70 %)" once there are trials enough.

    Raises:
        ValueError: bad counts.
    """
    right, trials = right_of(right, trials, least=0)
    percent = percentage(right, trials)
    return f"{right} of {trials}" if percent is None else f"{right} of {trials} ({percent} %)"
