"""What a club's own lessons say of how its fencers learn, and which rule would serve them."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from cueladder.rules.said import Said, joined, later, say, say_n, say_number

from .claim import Claim, Told, told

NEEDS = "300 marks of 3 fencers; told where its range is narrow enough to say something"
TRUE = "clubs of 24 fencers on two reading drills, led by the rule; figures drawn from wide ranges"
GAIN = Claim(
    "learn.gain", "club", "range",
    says="A hundred cues take a fencer right 7 times in 10 to 85 to 89 times in 100",
    needs=NEEDS, promise=0.80, true=TRUE,
)  # fmt: skip
LOSS = Claim(
    "learn.loss", "club", "range",
    says="A week away loses 2 to 4 % of what practice gave",
    needs=NEEDS, promise=0.80, true=TRUE,
)  # fmt: skip
FRESH = Claim(
    "learn.fresh", "club", "range",
    says="Who is right 8 times in 10 is right 68 to 74 times in 100 in the first three cues",
    needs=NEEDS, promise=0.80, true=TRUE,
)  # fmt: skip
LAPSE = Claim(
    "learn.lapse", "club", "range",
    says="However well a rung is known, 0.9 to 2.1 cues in 100 go wrong",
    needs=NEEDS, promise=0.80, true=TRUE,
)  # fmt: skip
PEOPLE = Claim(
    "learn.people", "club", "range",
    says="One fencer in six starts as if 3 to 6 times in 100 further from right than the middle",
    needs=NEEDS, promise=0.80, true=TRUE,
)  # fmt: skip
OPEN = Claim(
    "learn.open", "club", "open",
    says="Cannot tell yet what a week away costs: it would take about 9,000 marks",
    needs="nothing",
)  # fmt: skip
UNSOUND = Claim(
    "learn.unsound", "club", "open",
    says="The marks do not settle on one answer",
    needs="a fit whose weighed draws are worth under 5 in 100 of their number",
)  # fmt: skip
SERVED = Claim(
    "learn.served", "drill", "range",
    says="Under “usual” fencers like yours would need 4.6 to 5.9 lessons a rung",
    needs="a gain that can be told; fencers are simulated by the club's own figures",
    promise=0.80, true=TRUE + "; judged on 4,000 fencers of the true figures",
)  # fmt: skip
DID = Claim(
    "learn.did", "club", "count",
    says="Your lessons took 4.8 a rung",
    needs="one climb",
)  # fmt: skip
BETTER = Claim(
    "learn.better", "drill", "finding",
    says="“Strict” would make fewer climbs that come too early than what you have",
    needs="ranges that do not overlap: of lessons a rung, or of early climbs",
    promise=0.05,
    false="clubs under “usual” that are told of a setting which truly is not better for them",
    true="clubs under a rule of sixty clean answers",
    power=(25, 0.80),
)  # fmt: skip
SAME = Claim(
    "learn.same", "drill", "open",
    says="The ranges overlap: no setting is clearly better than the one you have",
    needs="a gain that can be told",
)  # fmt: skip
BREAKS = Claim(
    "learn.breaks", "drill", "finding",
    says="After 29 to 90 days start 4 rungs lower, not 2",
    needs="a gain and a loss that can be told; 95 % ranges that leave the present rows out",
    promise=0.05,
    false="figures drawn from wide ranges: a row that leads away from what breaks truly cost",
    true="clubs that lose a tenth a week: a start lower than the present one",
    power=(25, 0.80),
)  # fmt: skip
KEPT = Claim(
    "learn.breaks_kept", "drill", "open",
    says="What your fencers lose over a break does not clearly ask for another table",
    needs="a gain and a loss that can be told",
)  # fmt: skip
CHECKS = Claim(
    "learn.checks", "drill", "count",
    says="After 11 to 28 days 31 of 40 re-checks held",
    needs="one re-check",
)  # fmt: skip
CLAIMS = (
    GAIN, LOSS, FRESH, LAPSE, PEOPLE, OPEN, UNSOUND, SERVED, DID, BETTER, SAME, BREAKS, KEPT,
    CHECKS,
)  # fmt: skip

OPENS = {
    "gain": later("how much a cue gains"),
    "loss": later("what a week away costs"),
    "fresh": later("whether the first cues of a lesson are harder"),
    "lapse": later("how often a known rung still goes wrong"),
    "people": later("how far apart your fencers start"),
}
SETTINGS = {
    "quick": later("quick"), "usual": later("usual"), "strict": later("strict"),
    "own": later("the rule you have"),
}  # fmt: skip
QUICKER = later(
    "With fencers like yours “%(new)s” would take fewer lessons a rung than what you have "
    "(%(now)s): the ranges do not overlap."
)
SURER = later(
    "With fencers like yours “%(new)s” would make fewer climbs that come too early than what you "
    "have (%(now)s): those ranges do not overlap. It may take more lessons a rung."
)
# What moves a chance is told by where a chance like this one ends.
MOVED = {
    "gain": (GAIN, 0.7, later(
        "A hundred cues take a fencer who is right 7 times in 10 to %(range)s at the same rung."
    )),
    "fresh": (FRESH, 0.8, later(
        "Who is right 8 times in 10 later in a lesson is right %(range)s in its first three cues."
    )),
    "people": (PEOPLE, 0.7, later(
        "Where the middle fencer starts right 7 times in 10, one in six starts at %(range)s or "
        "above."
    )),
}  # fmt: skip
PERCENT = {
    "loss": (LOSS, later("A week away loses %(low)s to %(high)s %% of what practice gave.")),
    "lapse": (LAPSE, later(
        "However well a rung is known, %(low)s to %(high)s cues in 100 go wrong."
    )),
}  # fmt: skip


def figure(name: str, known: Mapping[str, Any]) -> Told:
    """One of the figures in words, or that it cannot be told yet."""
    if not known["told"]:
        words = say(
            "Cannot tell yet %(what)s: it would take about %(marks)s marks of this kind.",
            what=say(OPENS[name]),
            marks=say_number(known["marks"]),
        )
        return told(OPEN, words)
    low, high = known["low"], known["high"]
    if name in MOVED:
        claim, chance, text = MOVED[name]
        return told(claim, say(text, range=_in_100(moved(chance, low), moved(chance, high))))
    claim, text = PERCENT[name]
    return told(claim, say(text, low=say_number(100 * low, 1), high=say_number(100 * high, 1)))


def unsound() -> Told:
    """That nothing is to be relied on."""
    words = say("The marks do not settle on one answer; take nothing from them yet.")
    return told(UNSOUND, words)


def _in_100(low: float, high: float) -> Said:
    """A range of chances, its ends rounded outwards."""
    least, most = math.floor(100 * low + 1e-9), math.ceil(100 * high - 1e-9)
    return say("%(low)s to %(high)s times in 100", low=least, high=most)


def moved(chance: float, logits: float) -> float:
    """A chance so many logits on."""
    return 1 / (1 + math.exp(-math.log(chance / (1 - chance)) - logits))


def served(name: str, one: Mapping[str, Any]) -> Told:
    """How a setting would serve fencers like the club's."""
    _, low, high = one["lessons"]
    early, never = one["early"], one["never"]
    words = say(
        "%(setting)s: %(low)s to %(high)s lessons a rung; %(early)s to %(earlier)s in 100 climbs "
        "too early; %(never)s to %(nevers)s fencers in 100 never climb.",
        setting=say(SETTINGS[name]),
        low=say_number(low, 1),
        high=say_number(high, 1),
        early=math.floor(100 * early[1]),
        earlier=math.ceil(100 * early[2]),
        never=math.floor(100 * never[1]),
        nevers=math.ceil(100 * never[2]),
    )
    return told(SERVED, words)


def did(one: Mapping[str, Any]) -> Told:
    """What the club's coaches really did."""
    words = say(
        "In your own lessons: %(lessons)s lessons of a drill a rung; %(early)s to %(earlier)s in "
        "100 climbs came too early by these figures, which know no sudden insight and so rather "
        "say too many; %(never)s in 100 who had eight lessons or more of a drill never climbed.",
        lessons=say_number(one["lessons"][0], 1),
        early=math.floor(100 * one["early"][1]),
        earlier=math.ceil(100 * one["early"][2]),
        never=round(100 * one["never"][0]),
    )
    return told(DID, words)


def setting(suggested: str | None, now: str, quicker: bool = False) -> Told:
    """Whether another setting would serve better, and in what.

    Args:
        suggested: its name; None where there is none.
        now: the present setting.
        quicker: whether it takes fewer lessons a rung; else it makes fewer early climbs.
    """
    if suggested is None:
        words = say(
            "For fencers like yours no setting is clearly better than the one you have (%(now)s): "
            "where one is, in lessons a rung or in climbs that come too early, the ranges overlap.",
            now=say(SETTINGS[now]),
        )
        return told(SAME, words)
    text = QUICKER if quicker else SURER
    return told(BETTER, say(text, new=say(SETTINGS[suggested]), now=say(SETTINGS[now])), 3)


def rows(now: list[Mapping[str, Any]], new: list[Mapping[str, Any]] | None) -> Told:
    """Whether breaks ask for another table."""
    if new is None:
        words = say(
            "What your fencers lose over a break does not clearly ask for another start than "
            "today's.",
        )
        return told(KEPT, words)
    parts = [
        say(
            "%(days)s: start %(new)s lower (today %(old)s), with %(keep)s %% of a count left.",
            days=say(DAYS[k]),
            new=rungs(to["back"]),
            old=rungs(was["back"]),
            keep=round(100 * to["keep"]),
        )
        for k, (was, to) in enumerate(zip(now, new, strict=True))
        if was != to
    ]
    return told(BREAKS, joined(parts), 3)


DAYS = (
    later("After up to 10 days"), later("After 11 to 28 days"), later("After 29 to 90 days"),
    later("After more than 90 days"),
)  # fmt: skip


def rungs(back: int | str) -> Said:
    """ "1 rung", "2 rungs", or halfway down."""
    if back == "half":
        return say("half the ladder")
    if back == 0:
        return say("no rung")
    return say_n("%(n)s rung", "%(n)s rungs", int(back))


def held(row: int, begun: int, held_: int, lost: Mapping[str, Any] | None) -> Told:
    """How re-checks held after breaks of a row, and what such a break costs."""
    if begun:
        words = say_n(
            "%(days)s: %(held)s of %(n)s re-check held.",
            "%(days)s: %(held)s of %(n)s re-checks held.",
            begun,
            days=say(DAYS[row]),
            held=held_,
        )
    else:
        words = say("%(days)s: no re-check.", days=say(DAYS[row]))
    if lost is None:
        return told(CHECKS, words)
    cost = say(
        "By all marks %(n)s days cost %(low)s to %(high)s of a rung.",
        n=lost["days"],
        low=say_number(lost["rungs"][1], 1),
        high=say_number(lost["rungs"][2], 1),
    )
    return told(CHECKS, joined([words, cost]))
