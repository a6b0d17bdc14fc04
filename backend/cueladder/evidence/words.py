"""Figures in words that a parent of a ten-year-old can read."""

from __future__ import annotations

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


def at_least_in_ten(share: float) -> Said:
    """A lower bound as "at least 8 times in 10", rounded down so that it stays true."""
    if share >= 0.99:
        return say("at least %(n)s times in 100", n=int(100 * share + 1e-9))
    if share >= 0.95:
        return say("at least 19 times in 20")
    tenths = int(10 * share + 1e-9)
    if tenths == 0:
        return say("less than once in 10, perhaps")
    return say_n("at least once in 10", "at least %(n)s times in 10", tenths)
