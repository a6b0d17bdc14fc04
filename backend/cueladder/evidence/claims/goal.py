"""What is held towards a goal by a competition, and what the plan backwards from it advises.

Nothing is foretold: what has held is counted, lessons are reckoned by the calendar, and days to
re-check come from a study of facts, which is said with them.
"""

from __future__ import annotations

from collections.abc import Sequence

from cueladder.evidence.words import lessons
from cueladder.rules.said import Said, joined, say, say_day, say_n, say_number

from .claim import Claim, Told, told

HELD = "re-checks passed on later days, at the rung named or a higher one; two settings differ in "
REACHED = Claim(
    "goal.reached", "fencer", "count",
    says="Harbour Cup, 12 March: the goal is reached; up to rung 3 it held in 2 settings",
    needs=HELD + "something that was told of both",
)  # fmt: skip
MISSES = Claim(
    "goal.misses", "fencer", "count",
    says="Harbour Cup, 12 March: to be secure in 2 settings; it has held in 1 so far",
    needs="a goal; none for what has not held yet",
)  # fmt: skip
OVER = Claim(
    "goal.over", "fencer", "count",
    says="Harbour Cup, 12 March, is over: by then it had held in 1 of 2 settings",
    needs="as above, with re-checks up to that day",
)  # fmt: skip
ROOM = Claim(
    "goal.room", "fencer", "count",
    says="Lately a lesson every 7 days: room for about 6 before it; it takes at least 2",
    needs="4 lesson days; the calendar, and nothing about how it will go",
)  # fmt: skip
ADVICE = Claim(
    "goal.advice", "fencer", "count",
    says="Advice, no promise: re-check it about 3 March",
    needs="the day it was last worked; the spacing is that of a study of facts, not of movements",
)  # fmt: skip
CLAIMS = (REACHED, MISSES, OVER, ROOM, ADVICE)


def reached(competition: str, day: str, rung: str, settings: Sequence[str]) -> Told:
    """It has held in settings enough.

    Args:
        competition, day: its name, and its day.
        rung: up to which it held in all of them.
        settings: each in words.
    """
    words = say_n(
        "%(competition)s, %(day)s: the goal is reached. Up to %(rung)s it held in %(n)s setting: "
        "%(settings)s.",
        "%(competition)s, %(day)s: the goal is reached. Up to %(rung)s it held in %(n)s settings: "
        "%(settings)s.",
        len(settings),
        competition=competition,
        day=say_day(day),
        rung=rung,
        settings=joined(settings, "; "),
    )
    return told(REACHED, words)


def misses(competition: str, day: str, settings: Sequence[str], of: int, met: bool) -> Told:
    """A setting is missing yet.

    Args:
        competition, day: its name, and its day.
        settings: those it has held in, each in words.
        of: how many the goal asks for.
        met: whether a rung is met, which may hold on a later day.
    """
    goal = say(
        "%(competition)s, %(day)s: to be secure in %(of)s settings.",
        competition=competition,
        day=say_day(day),
        of=of,
    )
    if settings:
        held = say("So far it held %(settings)s.", settings=joined(settings, "; "))
    elif met:
        held = say("Done once; it has not held on a later day yet.")
    else:
        held = say("No rung is done yet; one has to be before it can hold on a later day.")
    return told(MISSES, joined([goal, held]))


def over(competition: str, day: str, held: int, of: int) -> Told:
    """The competition is over; of its results nothing is known here, and nothing is asked."""
    words = say(
        "%(competition)s, %(day)s, is over: by then it had held in %(n)s of %(of)s settings.",
        competition=competition,
        day=say_day(day),
        n=min(held, of),
        of=of,
    )
    return told(OVER, words)


def room(every: float | None, left: int | None, needs: int) -> Told:
    """How many lessons fit in, and how many it takes at least.

    Args:
        every: days from lesson to lesson lately; None from too few.
        left: lessons there is room for at that pace.
        needs: lessons it takes if all goes well; 0 where the goal is reached.
    """
    takes: str = ""
    if needs:
        takes = say("It takes at least %(lessons)s, if all goes well.", lessons=lessons(needs))
    if every is None or left is None:
        few = say("Too few lessons so far to tell how many are left before it.")
        return told(ROOM, joined([few, takes]))
    pace = say_n(
        "With a lesson every %(days)s days, as lately, there is room for about %(n)s before it.",
        "With a lesson every %(days)s days, as lately, there is room for about %(n)s before it.",
        left,
        days=say_number(every, 0 if every == int(every) else 1),
    )
    short: str = ""
    if left < needs:
        short = say("That is too few: plan more lessons, or choose a later competition.")
    return told(ROOM, joined([pace, takes, short]))


def advice(spaced: str, today: str, due: str | None, by: str) -> Told:
    """When to re-check it: by the spacing of the study, and by the drill's own rule.

    Args:
        spaced: the day by the spacing, today at the earliest.
        today: the day it is.
        due: the first day on which the drill's rule asks by itself; None where it does not yet.
        by: the day of the competition.
    """
    if spaced == today:
        when = say("Advice, no promise: re-check it in the next lesson.")
    else:
        when = say("Advice, no promise: re-check it about %(day)s.", day=say_day(spaced))
    source = say(
        "So far apart, facts learned by heart lasted best (Cepeda and others 2008); on movements "
        "nobody has measured it."
    )
    return told(ADVICE, joined([when, source, _rule(due, by)]))


def _rule(due: str | None, by: str) -> Said | str:
    if due is None:
        return ""
    if due >= by:
        return say(
            "By its rule the drill asks for a re-check only from %(day)s on, after the "
            "competition, unless a new rung is done before.",
            day=say_day(due),
        )
    return say(
        "By its rule the drill asks for a re-check from %(day)s on, and in the lesson after a new "
        "rung.",
        day=say_day(due),
    )
