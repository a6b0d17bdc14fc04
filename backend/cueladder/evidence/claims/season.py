"""What a season came to: re-checks kept, heat given, lessons a second person marked, too."""

from __future__ import annotations

from typing import Any

from cueladder.evidence.guards import LEAST_TRIALS, share_words
from cueladder.evidence.season import between
from cueladder.evidence.words import between_in_ten
from cueladder.rules.said import joined, say, say_n

from .claim import Claim, Told, told

KEPT = Claim(
    "season.kept", "fencer", "range",
    says="18 of 22 re-checks held (81 %); in the long run: 6 to 10 times in 10",
    needs="10 re-checks of rungs that were met, on later days; all drills together",
    promise=0.95,
    true="held .5 to .95 throughout, or from drill to drill by .3 more or less; learning",
)  # fmt: skip
FEW = Claim(
    "season.kept_few", "fencer", "count",
    says="4 of 5 re-checks held",
    needs="none",
)  # fmt: skip
HEAT = Claim(
    "season.heat", "fencer", "count",
    says="214 of 820 cues (26 %) were intense: loud, or above the mildest rung of their drill",
    needs="none; marks of the lesson's own coach",
)  # fmt: skip
DOUBLE = Claim(
    "season.double", "fencer", "count",
    says="A second person marked in 3 of 24 lessons (13 %)",
    needs="none",
)  # fmt: skip
CLAIMS = (KEPT, FEW, HEAT, DOUBLE)


def kept(held: Any, checks: Any) -> tuple[Told, tuple[float, float] | None]:
    """How many re-checks held, and the range, from enough of them.

    Raises:
        ValueError: bad counts.
    """
    if checks == 0:
        return told(FEW, say("Nothing was due for a re-check yet.")), None
    counted = say_n(
        "%(share)s re-check held on a later day.",
        "%(share)s re-checks held on a later day.",
        checks,
        share=share_words(held, checks),
    )
    if checks < LEAST_TRIALS:
        return told(FEW, joined([counted, say("Too few to say more.")])), None
    low, high = between(held, checks)
    over_many = say("In the long run: %(range)s.", range=between_in_ten(low, high))
    return told(KEPT, joined([counted, over_many])), (low, high)


def heat(given: int, all_cues: int) -> Told:
    """How many cues were given with heat: loud ones, and those above a ladder's mildest rung."""
    if given == 0:
        return told(
            HEAT, say("No cue was intense: all were soft, or at the mildest rung of their drill.")
        )
    words = say(
        "%(share)s cues were intense: loud, or above the mildest rung of their drill.",
        share=share_words(given, all_cues),
    )
    return told(HEAT, words)


def double(lessons: int, of: int) -> Told:
    """In how many lessons a second person marked, too."""
    if lessons == 0:
        return told(DOUBLE, say("No lesson was marked by a second person."))
    words = say_n(
        "A second person marked, too, in %(share)s lesson.",
        "A second person marked, too, in %(share)s lessons.",
        of,
        share=share_words(lessons, of),
    )
    return told(DOUBLE, words)
