"""Figures in words that a parent of a ten-year-old can read."""


def count(number: int, noun: str) -> str:
    """The number and its noun, "1 cue" or "2 cues"; irregular plurals are not supported."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def in_ten(share: float) -> str:
    """A share between 0 and 1 as "8 times in 10", never rounded up to a perfect ten.

    Shares short of 0 or 1 are kept off "never" and "always", since a rounded
    ten in ten would promise what was not seen.
    """
    if share >= 1.0:
        return "10 times in 10"
    if share <= 0.0:
        return "0 times in 10"
    tenths = round(10 * share)
    if tenths == 10:
        return "more than 9 times in 10"
    if tenths == 0:
        return "less than once in 10"
    return "about once in 10" if tenths == 1 else f"about {tenths} times in 10"


def at_least_in_ten(share: float) -> str:
    """A lower bound as "at least 8 times in 10", rounded down so that it stays true."""
    if share >= 0.99:
        return f"at least {int(100 * share + 1e-9)} times in 100"
    if share >= 0.95:
        return "at least 19 times in 20"
    tenths = int(10 * share + 1e-9)
    if tenths == 0:
        return "less than once in 10, perhaps"
    return "at least once in 10" if tenths == 1 else f"at least {tenths} times in 10"
