"""What partners ticked, in sets that fencers gave each other."""

from __future__ import annotations

from cueladder.evidence.words import cues
from cueladder.rules.said import Said, joined, say, say_n

from .claim import Claim, Told, told

COUNT = Claim(
    "partner.count", "fencer", "count",
    says="By the partner's own ticks 9 of 10 cues right, at rung 3 of 8",
    needs="one set by a partner; no share is given and no rung is moved: who ticks, a child above "
    "all, sees less than a coach",
)  # fmt: skip
CLAIMS = (COUNT,)


def ticked(rung: str, right: int, given: int, sets: int) -> Told:
    """What partners ticked at a rung.

    Args:
        rung: in words.
        right: cues ticked as right, of so many ``given``.
        sets: how many sets these come from.
    """
    if given == 0:
        return told(COUNT, say("A partner's card for %(rung)s came back empty.", rung=rung))
    counted = say(
        "By the partner's own ticks %(right)s of %(cues)s right, at %(rung)s.",
        right=right,
        cues=cues(given),
        rung=rung,
    )
    return told(COUNT, joined([counted, _of(sets)]))


def _of(sets: int) -> Said | str:
    return "" if sets == 1 else say_n("(%(n)s set.)", "(%(n)s sets.)", sets)
