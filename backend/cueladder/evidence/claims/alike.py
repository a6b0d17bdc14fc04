"""Do two people mark alike?"""

from __future__ import annotations

from cueladder.evidence.agreement import Agreement
from cueladder.evidence.distributions import two_sided_normal_p
from cueladder.evidence.guards import too_few_trials
from cueladder.evidence.season import ONE_SIDED
from cueladder.rules.said import Said, joined, later, say, say_n

from .claim import Claim, Told, told

BEYOND = Claim(
    "alike.beyond", "coach", "finding",
    says="The two gave the same mark on 41 of 50 cues, more often than chance would",
    needs="10 cues that both marked",
    promise=0.05,
    false="each marks without looking at the fencer, with the same shares",
    true="kappa 0.6, three marks in .7, .2, .1",
    power=(60, 0.80),
)  # fmt: skip
COUNT = Claim(
    "alike.count", "coach", "open",
    says="The two gave the same mark on 9 of 12 cues; not clearly more than chance",
    needs="one cue that both marked",
)  # fmt: skip
KAPPA = Claim(
    "alike.kappa", "coach", "range",
    says="Kappa .62 (.41 to .78)",
    needs="50 cues that both marked, 12 of them other than the commonest mark, by each",
    promise=0.95,
    true="kappa .3, .6 and .85 with even and uneven marks",
)  # fmt: skip
CLAIMS = (BEYOND, COUNT, KAPPA)

MARKS = {
    "correct": later("correct"),
    "correct+tense": later("correct, but tense"),
    "late": later("late"),
    "early": later("early or big"),
    "decoy": later("fell for it"),
}


def alike(found: Agreement) -> Told:
    """How often two people gave the same mark, and whether that is more than chance."""
    few = too_few_trials(found.trials)
    if few is not None:
        return told(COUNT, few)
    same = found.trials - sum(n for _, _, n in found.differ)
    where: str = ""
    if found.differ:
        first, second, times = found.differ[0]
        where = say(
            "Most often one said “%(first)s” where the other said “%(second)s” (%(times)s×).",
            first=_mark(first),
            second=_mark(second),
            times=times,
        )
    counted = say_n(
        "The same mark on %(same)s of %(n)s cue",
        "The same mark on %(same)s of %(n)s cues",
        found.trials,
        same=same,
    )
    if found.p < two_sided_normal_p(ONE_SIDED) / 2:
        words = say("%(said)s, more often than chance would.", said=counted)
        return told(BEYOND, joined([words, where]))
    words = say("%(said)s; that is not clearly more than chance.", said=counted)
    return told(COUNT, joined([words, where]), 2)


def _mark(mark: str) -> Said | str:
    return say(MARKS[mark]) if mark in MARKS else mark
