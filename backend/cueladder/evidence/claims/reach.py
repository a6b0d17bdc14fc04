"""How far up a ladder the answers hold."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from cueladder.evidence.guards import too_few_trials
from cueladder.evidence.threshold import Reach, reach
from cueladder.evidence.words import cues
from cueladder.rules.said import Said, later, say

from .claim import Claim, Told, told

Family = Literal["read", "heat"]

RECENT = 4
"""Lessons looked at: what was before them tells of someone who knew less."""

RANGE = Claim(
    "reach.range", "fencer", "range",
    says="Lately read (met calmly) cues up to a rung between 3 and 5, right 8 times in 10 "
    "or better",
    needs="10 cues of the last lessons; in a mixed drill 10 of either kind",
    promise=0.90,
    true="curves that end below, within and above the ladder; learning; led by the rule",
)  # fmt: skip
WHOLE = Claim(
    "reach.whole", "fencer", "finding",
    says="Lately read (met calmly) every cue of the ladder, right 8 times in 10 or better",
    needs=RANGE.needs,
    promise=0.05,
    false="right 7 times in 10 at the top",
    true="right 97 times in 100 at the top",
    power=(200, 0.80),
)  # fmt: skip
TRIED = Claim(
    "reach.tried", "fencer", "finding",
    says="Lately read (met calmly) every cue tried, up to rung 3",
    needs=RANGE.needs,
    promise=0.05,
    false="right 7 times in 10 at the hardest rung tried",
    true="right 97 times in 100 there",
    power=(200, 0.80),
)  # fmt: skip
NOT_FIRST = Claim(
    "reach.not_first", "fencer", "finding",
    says="Not yet right 8 times in 10 on the plainest (mildest) cue",
    needs=RANGE.needs,
    promise=0.05,
    false="right 9 times in 10 on the first rung",
    true="right 5 times in 10 on the first rung",
    power=(200, 0.80),
)  # fmt: skip
FEW = Claim("reach.few", "fencer", "open", says="Too early to say", needs="fewer cues than that")
CLAIMS = (RANGE, WHOLE, TRIED, NOT_FIRST, FEW)

Counts = tuple[Sequence[int], Sequence[int]]
WORDS = {
    "read": (
        later("Lately read every cue of the ladder (%(cues)s)."),
        later("Lately read every cue tried, up to %(rung)s (%(cues)s)."),
        later(
            "Lately not yet right 8 times in 10 on the plainest cue (%(cues)s): that is where to "
            "work."
        ),
        later("Lately read cues up to %(rung)s (%(cues)s)."),
        later("Lately read cues up to a rung between %(low)s and %(high)s (%(cues)s)."),
        later(
            "Lately read cues up to %(high)s at most; %(cues)s do not yet settle whether the "
            "plainest is right 8 times in 10."
        ),
    ),
    "heat": (
        later("Lately met every cue of the ladder calmly (%(cues)s)."),
        later("Lately met every cue tried calmly, up to %(rung)s (%(cues)s)."),
        later(
            "Lately not yet right 8 times in 10 on the mildest cue (%(cues)s): that is where to "
            "work."
        ),
        later("Lately met cues calmly up to %(rung)s (%(cues)s)."),
        later("Lately met cues calmly up to a rung between %(low)s and %(high)s (%(cues)s)."),
        later(
            "Lately met cues calmly up to %(high)s at most; %(cues)s do not yet settle whether the "
            "mildest is right 8 times in 10."
        ),
    ),
}


def reach_of(family: Family, kinds: Sequence[Counts], labels: Sequence[str]) -> tuple[Told, Reach]:
    """How far up a ladder the answers are right 8 times in 10.

    Args:
        family: ``read`` or ``heat``.
        kinds: (right, cues) of each rung for each kind of cue that the drill mixes: one, or those
            to answer and those to leave alone. With two, the lower one counts: who answers
            everything does not read, and who answers nothing does not hold.
        labels: a name for each rung.

    Raises:
        ValueError: as `evidence.threshold.reach`.
    """
    found = [reach(right, trials) for right, trials in kinds]
    both = Reach(
        min(one.low for one in found),
        min(one.high for one in found),
        found[0].target,
        min(one.tried for one in found),
        found[0].top,
        sum(one.trials for one in found),
    )
    few = too_few_trials(min(one.trials for one in found))
    if few is not None:
        return told(FEW, few), both
    return _told(family, both, labels), both


def _told(family: Family, found: Reach, labels: Sequence[str]) -> Told:
    whole, tried, not_first, single, between, at_most = WORDS[family]

    def with_(message: str) -> Said:
        return say(
            message,
            rung=labels[max(found.low, 0)],
            low=labels[max(found.low, 0)],
            high=labels[max(found.high, 0)],
            cues=cues(found.trials),
        )

    if found.low == found.top:
        return told(WHOLE, with_(whole))
    if found.low == found.tried:
        return told(TRIED, with_(tried))
    if found.high == -1:
        return told(NOT_FIRST, with_(not_first), acts=4)
    if found.low == -1:
        return told(RANGE, with_(at_most))
    return told(RANGE, with_(single if found.low == found.high else between))
