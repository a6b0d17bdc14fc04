"""Figures in words that a parent of a ten-year-old can read."""

from __future__ import annotations

from math import ceil, floor

from cueladder.rules.said import Said, say, say_n


def cues(n: int) -> Said:
    """ "1 cue" or "2 cues"."""
    return say_n("%(n)s cue", "%(n)s cues", n)


def lessons(n: int) -> Said:
    """ "1 lesson" or "2 lessons"."""
    return say_n("%(n)s lesson", "%(n)s lessons", n)


def in_ten(share: float) -> Said:
    """A share between 0 and 1 as "8 times in 10", never rounded up to a perfect ten.

    Shares short of 0 or 1 are kept off "never" and "always", since a rounded
    ten in ten would promise what was not seen.
    """
    if share >= 1.0:
        return say("10 times in 10")
    if share <= 0.0:
        return say("0 times in 10")
    tenths = round(10 * share)
    if tenths == 10:
        return say("more than 9 times in 10")
    if tenths == 0:
        return say("less than once in 10")
    return say_n("about once in 10", "about %(n)s times in 10", tenths)


def asked_in_ten(share: float) -> Said:
    """A share that was asked for, not measured, as "8 times in 10"."""
    tenths = round(10 * share)
    if not 0 < tenths < 10:
        return in_ten(share)
    return say_n("once in 10", "%(n)s times in 10", tenths)


def between_in_ten(low: float, high: float) -> Said:
    """A range of shares as "6 to 9 times in 10", its ends rounded outwards: it stays as wide."""
    least, most = floor(10 * low + 1e-9), ceil(10 * high - 1e-9)
    if most - least <= 1:
        # too narrow for tenths
        least, most = floor(100 * low + 1e-9), ceil(100 * high - 1e-9)
        return say("%(low)s to %(high)s times in 100", low=least, high=most)
    return say("%(low)s to %(high)s times in 10", low=least, high=most)


def times_in_100(chance: float) -> Said:
    """A chance as "about 12 times in 100", never rounded to never or always."""
    n = round(100 * chance)
    if n <= 0:
        return say("less than once in 100")
    if n >= 100:
        return say("more than 99 times in 100")
    return say_n("about once in 100", "about %(n)s times in 100", n)
