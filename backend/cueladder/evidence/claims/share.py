"""How often right at one rung."""

from __future__ import annotations

from typing import Any

from cueladder.evidence.guards import LEAST_TRIALS, share_words
from cueladder.evidence.season import between
from cueladder.evidence.words import between_in_ten, cues
from cueladder.rules.said import say

from .claim import Claim, Told, told

RANGE = Claim(
    "share.range", "fencer", "range",
    says="34 of 40 right at this rung; over many such cues: right 6 to 10 times in 10",
    needs="10 cues at the rung",
    promise=0.95,
    true="right .5 to .99 throughout; learning; stopped by the rule at a good moment",
)  # fmt: skip
COUNT = Claim(
    "share.count", "fencer", "count",
    says="7 of 9 right at this rung",
    needs="one cue",
)  # fmt: skip
CLAIMS = (RANGE, COUNT)


def share_at(rung: str, right: Any, trials: Any) -> tuple[Told, tuple[float, float] | None]:
    """What ``right`` of ``trials`` cues at a rung show, and the range, from cues enough.

    It speaks of the cues that were given: of someone who is learning, the next ones will be
    better.

    Raises:
        ValueError: bad counts.
    """
    counted = say("%(share)s right at %(rung)s.", share=share_words(right, trials), rung=rung)
    if trials < LEAST_TRIALS:
        few = say(
            "%(right)s of %(cues)s right at %(rung)s; too few to say more.",
            right=right,
            cues=cues(trials),
            rung=rung,
        )
        return told(COUNT, few), None
    low, high = between(right, trials)
    words = say(
        "%(counted)s Over many such cues: right %(range)s.",
        counted=counted,
        range=between_in_ten(low, high),
    )
    return told(RANGE, words), (low, high)
