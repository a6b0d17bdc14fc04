"""What a rule does: worked out exactly from its chart, and at the club's own marking."""

from __future__ import annotations

from cueladder.evidence.marking import Marking
from cueladder.evidence.words import cues as cues_words
from cueladder.evidence.words import in_ten, times_in_100
from cueladder.rules.said import Said, joined, say, say_n, say_number

from .claim import Claim, Told, told

ODDS = Claim(
    "rule.odds", "drill", "count",
    says="A fencer right 8 times in 10 would be sent up about 12 times in 100",
    needs="the chart: exact, for steady fencers and marks that are never wrong",
)  # fmt: skip
OVER = Claim(
    "rule.over", "drill", "count",
    says="Over five weekly lessons of 25 cues right 8 times in 10 would be sent up 30 in 100",
    needs="the chart: exact, for steady fencers, with the cap and the counts that are kept",
)  # fmt: skip
FOOLED = Claim(
    "rule.fooled", "drill", "count",
    says="This rule is easily fooled",
    needs="the chart: more than 20 in 100 climb at 8 right in 10",
)  # fmt: skip
MARKED = Claim(
    "rule.marked", "drill", "count",
    says="As this club marks, right 8 times in 10 looks like 87 in 100 and is sent up 57 in 100",
    needs="60 cues marked by two, 20 of them slips; the error is rather too large than too small",
)  # fmt: skip
RISKS = Claim(
    "rule.risks", "drill", "count",
    says="Sends up someone right 80 times in 100 with a chance of 5 in 100",
    needs="the chart: the risks it has, its limit of cues included, not those it was asked for",
)  # fmt: skip
AHEAD = Claim(
    "rule.ahead", "fencer", "range",
    says="Sent up about 60 times in 100, after 24 cues (8 times in 10 it takes 15 to 40)",
    needs="the fencer's own cues; from few of them in tenths only",
    promise=0.80,
    true="right 8, 9 and 97 in 100; 30 cues seen",
)  # fmt: skip
AHEAD_ASKED = 0.85
"""Confidence asked of the range of cues, so that it holds 8 times in 10 also from few cues."""

CLAIMS = (ODDS, OVER, FOOLED, MARKED, RISKS, AHEAD)


def sent_up(early: float, tries: float, due: float, quick: float) -> Told:
    """Chance to climb and cues a try of who is right 8 times in 10, and 97 in 100."""
    words = say(
        "A fencer who is right 8 times in 10 would be sent up %(early)s, and each try takes about "
        "%(cues)s cues. One who is right 97 times in 100 would be sent up %(due)s, after about "
        "%(quick)s cues.",
        early=times_in_100(early),
        cues=say_number(tries),
        due=times_in_100(due),
        quick=say_number(quick),
    )
    return told(ODDS, words)


def over_lessons(cues: int, early: float, due: float, secure: float, pace: int | None) -> Told:
    """What becomes of a rung over five weekly lessons.

    Args:
        cues: cues a lesson gives the drill.
        early: chance that who is right 8 times in 10 is sent up.
        due: chance that who is right 97 times in 100 is; ``secure`` that the rung holds by then.
        pace: lesson by which half of the latter are up; None if none of the five.
    """
    words = say(
        "Over five weekly lessons of %(cues)s cues a fencer who is right 8 times in 10 would be "
        "sent up %(early)s. One who is right 97 times in 100 would be sent up %(due)s, and the "
        "rung be secure %(secure)s.",
        cues=cues,
        early=times_in_100(early),
        due=times_in_100(due),
        secure=times_in_100(secure),
    )
    if pace is None:
        return told(OVER, words)
    often = say_n(
        "Half of those are up in the first lesson.", "Half of those are up by lesson %(n)s.", pace
    )
    return told(OVER, joined([words, often]))


def fooled(early: float) -> Told:
    """The warning of a rule that sends up too many too early."""
    words = say(
        "This rule is easily fooled: it sends up a fencer who is right only 8 times in 10 "
        "%(often)s. Ask for more clean answers, or let a slip cost more.",
        often=times_in_100(early),
    )
    return told(FOOLED, words)


def marked(marking: Marking, seen: float, early: float) -> Told:
    """What 8 right in 10 look like as this club marks, and how often that is sent up."""
    words = say(
        "As two of you marked %(cues)s, a slip is marked as one %(slip)s and a right answer as "
        "right %(right)s. So a fencer who is right 8 times in 10 looks right %(seen)s, and would "
        "be sent up %(early)s.",
        cues=cues_words(marking.cues),
        slip=times_in_100(marking.slip),
        right=times_in_100(marking.right),
        seen=times_in_100(seen),
        early=times_in_100(early),
    )
    return told(MARKED, words)


def risks(low: str, early: float, high: str, missed: float, longest: int) -> Told:
    """What a sequential rule risks, its limit included."""
    words = say(
        "Weighs from the first cue on whether the fencer is right %(high)s times in 100 or only "
        "%(low)s. Who is right %(low)s times in 100 is sent up %(early)s; who is right %(high)s "
        "is sent back %(missed)s. %(longest)s cues without an answer: one step back.",
        high=high,
        low=low,
        early=times_in_100(early),
        missed=times_in_100(missed),
        longest=longest,
    )
    return told(RISKS, words)


def ahead(
    climb: tuple[float, float, float], mean: float, takes: tuple[int, int], few: bool
) -> Told:
    """One count of a fencer, with its ranges; coarser where they rest on little.

    Args:
        climb: chance of climbing, and its range.
        mean: cues on average; ``takes`` their range.
        few: whether it rests on few cues.
    """
    chance = in_ten if few else times_in_100
    low, high = chance(climb[1]), chance(climb[2])
    reach: Said = say("(likely between %(low)s and %(high)s)", low=low, high=high)
    if low == high:
        reach = say("(likely close to that)")
    words = say(
        "Sent up %(chance)s %(reach)s, after %(cues)s on average (8 times in 10 it takes %(low)s "
        "to %(high)s).",
        chance=chance(climb[0]),
        reach=reach,
        cues=cues_words(round(mean)),
        low=takes[0],
        high=takes[1],
    )
    return told(AHEAD, words)
