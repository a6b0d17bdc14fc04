"""Waits at one rung: longer than luck explains, and what the slips say of why."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import scipy

from cueladder.evidence.distributions import binomial_at_least, two_sided_normal_p
from cueladder.evidence.guards import LEAST_TRIALS, share_words
from cueladder.evidence.season import TWO_SIDED, between
from cueladder.evidence.words import cues, lessons, times_in_100
from cueladder.rules.said import Said, joined, say, say_n

from .claim import Claim, Told, told

RIGHT = 0.9
"""The yardstick: someone right so often at the rung."""

WRONG, ASKED = 0.1, 0.08
"""Share of the names that may be there by luck alone, on average; and what is asked for, a little
less, since a list is looked at again and again."""

STUCK = Claim(
    "wait.stuck", "club", "finding",
    says="Waits longer at this rung than luck explains",
    needs="the waits of all drills in progress; looked at every evening",
    promise=WRONG,
    false="right 9 times in 10: of the names on the list, so many are there by luck",
    true="right 7 times in 10 for 400 cues",
    power=(400, 0.80),
)  # fmt: skip
LONG = Claim(
    "wait.long", "club", "open",
    says="A long wait, which may be luck",
    needs=STUCK.needs,
)  # fmt: skip
LUCK = Claim(
    "wait.luck", "club", "open",
    says="Right 9 times in 10 is not ruled out: it may be bad luck",
    needs=STUCK.needs,
    promise=0.05,
    true="right 9 times in 10 and named all the same: it is left out of at most so many",
)  # fmt: skip
MOSTLY = Claim(
    "wait.mostly", "fencer", "finding",
    says="Mostly late (early, tense): 11 of 12 slips",
    needs="9 slips at the rung",
    promise=0.05,
    false="half of the slips are of one kind, half of another",
    true="95 in 100 are",
    power=(20, 0.80),
)  # fmt: skip
LESSONS = Claim(
    "wait.lessons", "fencer", "count",
    says="14 lessons at this rung: try …",
    needs="6 lessons at one rung since it was last met",
)  # fmt: skip
NO_KIND = Claim(
    "wait.no_kind", "fencer", "open",
    says="No one kind of slip stands out",
    needs="any",
)  # fmt: skip
CLAIMS = (STUCK, LONG, LUCK, MOSTLY, LESSONS, NO_KIND)

LONG_WAIT = 0.1
FEWEST_SLIPS = 9
FEWEST_LESSONS = 6


@dataclass(frozen=True)
class Waits:
    """Cues at one rung since it was last met.

    Attributes:
        rung: its name; ``right`` of ``cues`` passed, in ``lessons`` lessons.
        chance: that someone right 9 times in 10 would still be waiting.
        usual: cues that half of such fencers need; None where that is out of sight.
    """

    rung: str
    cues: int
    right: int
    lessons: int
    chance: float
    usual: int | None


def named(chances: Sequence[float]) -> list[bool]:
    """Whose wait is called longer than luck explains, of all that were looked at."""
    if not chances:
        return []
    return [bool(q <= ASKED) for q in scipy.stats.false_discovery_control(chances)]


def long_wait(wait: Waits, stuck: bool) -> Told:
    """A wait in words; it says so where luck is not ruled out."""
    parts: list[str] = [
        say(
            "%(cues)s at %(rung)s in %(lessons)s, %(share)s right. Someone right 9 times in 10 "
            "there would still be waiting %(chance)s.",
            cues=cues(wait.cues),
            rung=wait.rung,
            lessons=lessons(wait.lessons),
            share=share_words(wait.right, wait.cues),
            chance=times_in_100(wait.chance),
        )
    ]
    if wait.usual is not None:
        parts.append(say("Half of such fencers need no more than %(n)s in one go.", n=wait.usual))
    if maybe_luck(wait.right, wait.cues):
        parts.append(say("Right 9 times in 10 is not ruled out, so it may simply be bad luck."))
    return told(STUCK if stuck else LONG, joined(parts), 8 if stuck else 0)


def maybe_luck(right: int, trials: int) -> bool:
    """Whether these answers leave it open that the fencer is right 9 times in 10."""
    return trials == 0 or between(right, trials)[1] >= RIGHT


def stays(in_lessons: int, rung: str, why: str, advice: str) -> Told | None:
    """So many lessons at one rung: what the slips say, and what to try; None where it is short."""
    if in_lessons < FEWEST_LESSONS:
        return None
    words = say(
        "%(lessons)s at %(rung)s. %(why)s Try: %(advice)s",
        lessons=lessons(in_lessons),
        rung=rung,
        why=why,
        advice=advice,
    )
    return told(LESSONS, words, 5)


def overall(names: int, looked: int) -> Said:
    """What the list of waits comes to."""
    if looked == 0:
        return say("Nothing to look at: no drill was worked in these weeks.")
    seen = say_n("%(n)s drill in progress looked at", "%(n)s drills in progress looked at", looked)
    if names == 0:
        return say("%(seen)s: no wait is so long that luck alone could hardly make it.", seen=seen)
    return say(
        "%(seen)s; %(named)s named. On average at most one name in ten is here by bad luck "
        "alone, so look before you act.",
        seen=seen,
        named=names,
    )


def too_short(trials: int) -> bool:
    """Whether a wait is too short to say anything of it."""
    return trials < LEAST_TRIALS


def kind_of_slip(slips: Mapping[str, int]) -> str | None:
    """The kind that makes up more than half of all slips, beyond chance; None where none does."""
    total = sum(slips.values())
    if total < FEWEST_SLIPS:
        return None
    kind = max(slips, key=lambda each: slips[each])
    by_chance = binomial_at_least(slips[kind], total, 0.5)
    # the commonest kind was chosen by looking, and either of two could have been
    return kind if by_chance < two_sided_normal_p(TWO_SIDED) / 2 else None
