"""What was watched in bouts, beside the same in lessons."""

from __future__ import annotations

from typing import Any

from cueladder.evidence.guards import LEAST_TRIALS
from cueladder.evidence.season import RISK, between
from cueladder.evidence.words import between_in_ten
from cueladder.rules.said import Said, joined, say, say_n

from .claim import Claim, Told, told

RANGE = Claim(
    "bout.range", "fencer", "range",
    says="In lessons 18 of 20 answered (7 to 10 times in 10), in bouts 5 of 12 (1 to 8 times in "
    "10)",
    needs="10 real ones met in bouts, watched and counted by a person; beside them 10 cues of the "
    "last lessons",
    promise=0.95,
    true="answered .2 to .9 throughout, or from bout to bout by another .2; learning",
)  # fmt: skip
COUNT = Claim(
    "bout.count", "fencer", "count",
    says="In bouts 5 of 8 real ones answered so far; fell for 2 of 4 feints",
    needs="one bout watched",
)  # fmt: skip
CLAIMS = (RANGE, COUNT)

Range = tuple[float, float]


def shares(answered: Any, met: Any, lesson: tuple[int, int] | None) -> tuple[Told, Range | None]:
    """Real ones answered in bouts, beside the cues to answer of the last lessons.

    The two are set side by side and no difference is concluded: who meets what in a bout is chosen
    by the opponent, in a lesson by the coach.

    Args:
        answered, met: counts of the bouts.
        lesson: (right, cues) of the last lessons; None where there are none.

    Returns:
        What to say, and the range in bouts, from enough of them.

    Raises:
        ValueError: bad counts.
    """
    if met == 0:
        return told(COUNT, say("In bouts no real one was met so far.")), None
    if met < LEAST_TRIALS:
        words = say_n(
            "In bouts %(answered)s of %(n)s real one answered so far; too few to say more.",
            "In bouts %(answered)s of %(n)s real ones answered so far; too few to say more.",
            met,
            answered=answered,
        )
        return told(COUNT, words), None
    # two ranges are read together
    ends = between(answered, met, RISK / 2)
    bouts: dict[str, object] = {
        "answered": answered,
        "met": met,
        "range": between_in_ten(*ends),
    }
    if lesson is None or lesson[1] < LEAST_TRIALS:
        words = say("In bouts %(answered)s of %(met)s real ones answered (%(range)s).", **bouts)
        return told(RANGE, words), ends
    words = say(
        "In lessons %(right)s of %(cues)s answered (%(lessons)s), in bouts %(answered)s of "
        "%(met)s (%(range)s).",
        right=lesson[0],
        cues=lesson[1],
        lessons=between_in_ten(*between(*lesson, RISK / 2)),
        **bouts,
    )
    return told(RANGE, words), ends


def rest(fallen: int, shown: int, scored: int, conceded: int) -> Said:
    """The feints and the touches, as they were counted."""
    feints = ""
    if shown:
        feints = say_n(
            "Fell for %(fallen)s of %(n)s feint.",
            "Fell for %(fallen)s of %(n)s feints.",
            shown,
            fallen=fallen,
        )
    touches = ""
    if scored or conceded:
        touches = say(
            "Touches by this action: %(scored)s for, %(conceded)s against.",
            scored=scored,
            conceded=conceded,
        )
    return joined([feints, touches])


def in_bouts(words: str) -> Said:
    """What is said of telling the two kinds apart, of bouts."""
    return say("In bouts: %(words)s", words=words)
