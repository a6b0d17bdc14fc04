"""The day's first cue apart, and better or worse since a day, cue for cue of the day alike."""

from __future__ import annotations

import math
from collections.abc import Sequence

from cueladder.evidence.day_first import Day, Since, first_against_rest, since, whole_sets
from cueladder.evidence.distributions import two_sided_normal_p
from cueladder.evidence.guards import share_words, too_few_lessons
from cueladder.evidence.season import ONE_SIDED, TWO_SIDED
from cueladder.rules.said import joined, say, say_day, say_n

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
BETTER = Claim(
    "day.better", "fencer", "finding",
    says="Better since 3 May, first cues held against first cues and later ones against later",
    needs="6 lessons before and 6 after",
    promise=0.05,
    false="no change, while lessons grow longer; lessons good and bad",
    true="right 6 times in 10 before, 85 in 100 after",
    power=(20, 0.80),
)  # fmt: skip
WORSE = Claim(
    "day.worse", "fencer", "finding",
    says="Worse since 3 May, first cues held against first cues and later ones against later",
    needs=BETTER.needs,
    promise=0.05,
    false="no change, while lessons grow shorter; lessons good and bad",
    true="right 85 in 100 before, 6 times in 10 after",
    power=(20, 0.80),
)  # fmt: skip
SINCE_OPEN = Claim(
    "day.since_open", "fencer", "open",
    says="Whether anything has changed since 3 May cannot yet be told",
    needs=BETTER.needs,
)  # fmt: skip
CLAIMS = (FIRST, FIRST_OPEN, BETTER, WORSE, SINCE_OPEN)

LEAST_DAYS, LEAST_EACH = 10, 6


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


def changed_since(day: str, before: Sequence[Day], after: Sequence[Day]) -> tuple[Told, Since]:
    """Better or worse since a day (ISO), with cues held against like cues of a day.

    It says that something changed, never why.

    Raises:
        ValueError: no lesson with a cue on one side.
    """
    found = since(before, after)
    lessons = [len(side) for side in found.figures]
    few = too_few_lessons(min(lessons), LEAST_EACH)
    if few is not None:
        return told(SINCE_OPEN, few), found
    counted = say_n(
        "Of %(n)s pair of a lesson before and one after, the later is the better in %(share)s.",
        "Of %(n)s pairs of a lesson before and one after, the later is the better in %(share)s.",
        found.pairs.pairs,
        share=share_words(round(found.pairs.better), found.pairs.pairs),
    )
    if found.pairs.p >= two_sided_normal_p(TWO_SIDED):
        words = say(
            "Whether anything has changed since %(day)s cannot yet be told.", day=say_day(day)
        )
        return told(SINCE_OPEN, joined([words, counted])), found
    if found.pairs.nap > 0.5:
        words = say(
            "Better since %(day)s, first cues held against first cues and later ones against "
            "later.",
            day=say_day(day),
        )
        return told(BETTER, joined([words, counted])), found
    words = say(
        "Worse since %(day)s, first cues held against first cues and later ones against later.",
        day=say_day(day),
    )
    return told(WORSE, joined([words, counted]), 3), found
