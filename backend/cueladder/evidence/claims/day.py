"""The day's first cue, apart from the ones that follow."""

from __future__ import annotations

import math
from collections.abc import Sequence

from cueladder.evidence.day_first import Day, first_against_rest, whole_sets
from cueladder.evidence.guards import share_words, too_few_lessons
from cueladder.evidence.season import ONE_SIDED
from cueladder.rules.said import joined, say

from .claim import Claim, Told, told

FIRST = Claim(
    "day.first", "fencer", "finding",
    says="The day's first cue goes wrong more often than the ones that follow",
    needs="10 lessons, each compared with itself: the first cue with the next ones that came "
    "whatever was answered (of a re-check two)",
    promise=0.05,
    false="the first as good as the next, lessons good and bad; sets that end on three clean",
    true="the first right 4 times in 10, the rest 9 in 10; a re-check a lesson",
    power=(20, 0.80),
)  # fmt: skip
FIRST_OPEN = Claim(
    "day.first_open", "fencer", "open",
    says="Whether the day's first cue is harder than the ones that follow cannot yet be told",
    needs=FIRST.needs,
)  # fmt: skip
CLAIMS = (FIRST, FIRST_OPEN)

LEAST_DAYS = 10


def first_cue(days: Sequence[Day], given: int) -> Told:
    """Does the day's first cue go worse than the next ones?

    Args: as `day_first.whole_sets`.

    Raises:
        ValueError: as there.
    """
    sets = whole_sets(days, given)
    found = first_against_rest(days, given)
    few = too_few_lessons(len(sets), LEAST_DAYS)
    if few is not None or found is None:
        return told(FIRST_OPEN, few or say("Too early to say."))
    rest = [answer for day in sets for answer in day[1:]]
    counted = say(
        "The day's first: %(first)s right; the next ones: %(rest)s.",
        first=share_words(sum(bool(day[0]) for day in sets), len(sets)),
        rest=share_words(sum(map(bool, rest)), len(rest)),
    )
    if found.difference < 0 and math.sqrt(found.statistic or 0.0) >= ONE_SIDED:
        words = say("The day's first cue goes wrong more often than the ones that follow.")
        return told(FIRST, joined([words, counted]), 4)
    words = say(
        "Whether the day's first cue is harder than the ones that follow cannot yet be told."
    )
    return told(FIRST_OPEN, joined([words, counted]))
