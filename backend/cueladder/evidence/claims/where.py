"""In which settings a rung has held: with whom, where, fresh or after bouting.

What was unlearned in one room comes back in another (renewal), so a rung that has held with one
coach in one place is known to hold there, and nothing more is said of it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from cueladder.evidence.guards import LEAST_TRIALS
from cueladder.evidence.invariance import across_lessons
from cueladder.rules.said import Said, joined, say, say_n

from .claim import Claim, Told, told

NEEDS = "re-checks passed on later days; a lesson whose setting was not told counts as the coach's"
ONE_COACH = Claim(
    "where.one_coach", "fencer", "count",
    says="Secure with one coach: it held with Ilse Brandt",
    needs=NEEDS,
)  # fmt: skip
SEVERAL = Claim(
    "where.several", "fencer", "count",
    says="Secure in two settings: it held with Ilse Brandt, and with Marco Venn at the school gym",
    needs=NEEDS + "; two settings differ in something that was told of both",
)  # fmt: skip
PARTNER = Claim(
    "where.partner", "fencer", "count",
    says="Secure with one coach: it held with Ilse Brandt. It held with a partner, too, by the "
    "partner's own ticks",
    needs="as above; and a partner's card of ten, all ticked right, since the rung held with a "
    "coach. It makes no second setting, and reaches no goal",
)  # fmt: skip
HELD = Claim(
    "where.held", "fencer", "count",
    says="It held on a later day with Ilse Brandt",
    needs="as above, with older lessons that are not read",
)  # fmt: skip
DIFFERS = Claim(
    "where.differs", "fencer", "finding",
    says="Goes less well with Marco Venn than with Ilse Brandt, at the same rungs",
    needs="3 runs of lessons by the other coach, each between two by the usual one, and 10 cues of "
    "either at the same rungs there",
    promise=0.05,
    false="no difference, right .6 to .95; learning; lessons that differ by up to 8 in 100",
    true="right 9 in 10 with one, 5 in 10 with the other",
    power=(200, 0.80),
)  # fmt: skip
OPEN = Claim(
    "where.open", "fencer", "open",
    says="Whether it goes better with one of the two cannot yet be told",
    needs=DIFFERS.needs,
)  # fmt: skip
CLAIMS = (ONE_COACH, SEVERAL, PARTNER, HELD, DIFFERS, OPEN)

RUNS = 3
"""Fewest runs of lessons with the other coach (house choice)."""

BOUND = 3.1
"""In standard errors. Above `TWO_SIDED`: cues of one lesson are more alike than of two. Chosen on
seasons in which lessons differ, see the table of claims."""


def where(settings: Sequence[str], coaches: int, whole: bool, partner: bool = False) -> Told:
    """In which settings the rung last secured has held.

    Args:
        settings: each in words ("with Ilse Brandt, Main hall"), all different for sure.
        coaches: how many coaches gave the cues in them.
        whole: whether no re-check is left out, so that "one" may be said.
        partner: whether it held with a partner, too.
    """
    return _beside(_with_coaches(settings, coaches, whole), partner)


def _beside(alone: Told, partner: bool) -> Told:
    """The same, and whether it held with a partner, too."""
    if not partner:
        return alone
    too = say("It held with a partner, too, by the partner's own ticks.")
    return told(PARTNER, joined([alone.words, too]))


def _with_coaches(settings: Sequence[str], coaches: int, whole: bool) -> Told:
    if len(settings) > 1:
        words = say_n(
            "Secure in %(n)s setting: it held %(settings)s.",
            "Secure in %(n)s settings: it held %(settings)s.",
            len(settings),
            settings=_and(settings),
        )
        return told(SEVERAL, words)
    if whole and coaches == 1:
        words = say("Secure with one coach so far: it held %(setting)s.", setting=settings[0])
        return told(ONE_COACH, words)
    return told(HELD, say("It held on a later day %(setting)s.", setting=settings[0]))


def where_unnamed(settings: int, coaches: int, whole: bool, partner: bool = False) -> Told:
    """The same without names of people or places, for a page that a link opens.

    Args: as for `where`, with the number of settings.
    """
    return _beside(_unnamed(settings, coaches, whole), partner)


def _unnamed(settings: int, coaches: int, whole: bool) -> Told:
    if settings > 1:
        words = say_n("It held in %(n)s setting.", "It held in %(n)s different settings.", settings)
        return told(SEVERAL, words)
    if whole and coaches == 1:
        return told(ONE_COACH, say("So far it held with one coach."))
    return told(HELD, say("It held on a later day."))


def compared(rows: Sequence[Sequence[int]], runs: int, usual: str, other: str) -> Told | None:
    """Does it go as well with another coach as with the usual one?

    Args:
        rows: from `evidence.flanked.strata`.
        runs: how many runs of lessons with the other coach they come from.
        usual, other: names of the coaches.

    Returns:
        None from too few lessons or cues.
    """
    kept = np.array([row for row in rows if row[1] and row[3]])
    if runs < RUNS or not len(kept):
        return None
    a, n, b, m = (int(each) for each in kept.sum(axis=0))
    if min(n, m) < LEAST_TRIALS:
        return None
    counted = say(
        "At the same rungs and about the same time: %(a)s of %(n)s right with %(usual)s, %(b)s of "
        "%(m)s with %(other)s.",
        a=a, n=n, b=b, m=m, usual=usual, other=other,
    )  # fmt: skip
    effect = across_lessons(kept)
    if math.sqrt(effect.statistic or 0.0) < BOUND:
        words = say("Whether it goes better with one of the two cannot yet be told.")
        return told(OPEN, joined([words, counted]))
    less, more = (other, usual) if effect.difference < 0 else (usual, other)
    words = say("Goes less well with %(less)s than with %(more)s.", less=less, more=more)
    return told(DIFFERS, joined([words, counted]), 4)


def _and(settings: Sequence[str]) -> Said:
    first, last = joined(settings[:-1], "; "), settings[-1]
    return say("%(first)s; and %(last)s", first=first, last=last)
