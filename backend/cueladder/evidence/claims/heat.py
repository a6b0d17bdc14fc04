"""Loud cues against soft ones."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from cueladder.evidence.distributions import two_sided_normal_p
from cueladder.evidence.guards import LEAST_TRIALS
from cueladder.evidence.invariance import HeatEffect, across_lessons
from cueladder.evidence.readiness import HeatShift
from cueladder.evidence.season import ONE_SIDED, TWO_SIDED
from cueladder.rules.said import Said, joined, later, say

from .claim import Claim, Told, told

ALIKE = 0.10
"""Largest difference in the share right that may still be called "as good" (house choice)."""

EVEN = 0.10
"""Below this chance the lessons differ too much for one word about all of them."""

NEEDS = "10 soft and 10 loud cues of a rung above the mildest, compared within lesson and rung"
COSTS = Claim(
    "heat.costs", "fencer", "finding",
    says="Loud cues cost: fewer right than of the soft ones at the same rungs",
    needs=NEEDS,
    promise=0.05,
    false="no difference, right .6 to .95",
    true="right 9 in 10 when soft, 6 in 10 when loud",
    power=(200, 0.80),
)  # fmt: skip
HELPS = Claim(
    "heat.helps", "fencer", "finding",
    says="Loud cues are answered better than soft ones at the same rungs",
    needs=NEEDS,
    promise=0.05,
    false="no difference",
    true="right 6 in 10 when soft, 9 in 10 when loud",
    power=(200, 0.80),
)  # fmt: skip
READIER = Claim(
    "heat.readier", "fencer", "finding",
    says="When it is loud, reacts more readily: to cues to answer and to those to leave alone",
    needs="in a mixed drill, 5 of each of the four kinds at a rung above the mildest",
    promise=0.05,
    false="c the same, d′ the same",
    true="c lower by 0.7, d′ the same",
    power=(300, 0.80),
)  # fmt: skip
HOLDS_BACK = Claim(
    "heat.holds_back", "fencer", "finding",
    says="When it is loud, holds back more, from both kinds",
    needs=READIER.needs,
    promise=0.05,
    false="c the same, d′ the same",
    true="c higher by 0.7, d′ the same",
    power=(300, 0.80),
)  # fmt: skip
BLURS = Claim(
    "heat.blurs", "fencer", "finding",
    says="When it is loud, tells the two kinds of cue apart less well",
    needs=READIER.needs,
    promise=0.05,
    false="d′ the same, whatever the lean",
    true="d′ lower by 1.5",
    power=(300, 0.80),
)  # fmt: skip
SHARPENS = Claim(
    "heat.sharpens", "fencer", "finding",
    says="When it is loud, tells the two kinds of cue apart better",
    needs=READIER.needs,
    promise=0.05,
    false="d′ the same, whatever the lean",
    true="d′ higher by 1.5",
    power=(300, 0.80),
)  # fmt: skip
ALIKE_CLAIM = Claim(
    "heat.alike", "fencer", "finding",
    says="Loud cues are answered as well as soft ones, give or take 1 in 10, of either kind",
    needs=NEEDS,
    promise=0.05,
    false="9 in 10 soft, 7 in 10 loud; or lessons that differ and cancel out; or one kind better "
    "and the other worse",
    true="right 97 in 100 both",
    power=(400, 0.80),
)  # fmt: skip
OPEN = Claim(
    "heat.open", "fencer", "open",
    says="Cannot yet be told whether loud cues are harder; they may still cost so much",
    needs=NEEDS,
)  # fmt: skip
CLAIMS = (COSTS, HELPS, READIER, HOLDS_BACK, BLURS, SHARPENS, ALIKE_CLAIM, OPEN)

Row = Sequence[int]


@dataclass(frozen=True)
class Kind:
    """Cues of one kind: how they compare, and whether "as good" may be said of them."""

    effect: HeatEffect
    soft: tuple[int, int]
    loud: tuple[int, int]
    alike: bool
    hidden: float


COUNTED = {
    "all": later("Soft %(a)s of %(n)s right, loud %(b)s of %(m)s."),
    "attack": later("To answer: soft %(a)s of %(n)s, loud %(b)s of %(m)s."),
    "decoy": later("To leave: soft %(a)s of %(n)s, loud %(b)s of %(m)s."),
}


def compare(rows: Sequence[Row]) -> Kind | None:
    """Cues of one kind, each stratum (lesson and rung) compared with itself; None without both."""
    kept = np.array([row for row in rows if row[1] and row[3]])
    if not len(kept):
        return None
    confidence = 1.0 - two_sided_normal_p(ONE_SIDED)
    effect = across_lessons(kept, confidence)
    soft_right, soft, loud_right, loud = (int(n) for n in kept.sum(axis=0))
    even = effect.uneven_p is None or effect.uneven_p >= EVEN
    alike = even and effect.low > -ALIKE and effect.high < ALIKE
    return Kind(effect, (soft_right, soft), (loud_right, loud), alike, max(-effect.low, 0.0))


def heat_of(kinds: dict[str, Sequence[Row]], shift: HeatShift | None = None) -> Told | None:
    """Do loud cues change the answers?

    Args:
        kinds: rows (soft right, soft cues, loud right, loud cues) of each lesson and rung, by kind
            of cue: ``all`` in a drill of one kind, else ``attack`` and ``decoy``. The mildest rung
            of a heat ladder is to be left out: there loud is no louder than soft.
        shift: in a mixed drill, what happens to d' and c.

    Returns:
        None where nothing was both soft and loud.
    """
    found = {name: one for name, rows in kinds.items() if (one := compare(rows)) is not None}
    if not found:
        return None
    counted = [
        say(COUNTED[name], a=one.soft[0], n=one.soft[1], b=one.loud[0], m=one.loud[1])
        for name, one in found.items()
    ]
    least = min(min(one.soft[1], one.loud[1]) for one in found.values())
    claim, words, acts = OPEN, _early(), 0
    if least >= LEAST_TRIALS and len(found) == len(kinds):
        claim, words, acts = _judged(list(found.values()), len(kinds) > 1, shift)
    return told(claim, joined([words, *counted]), acts)


def _early() -> Said:
    return say(
        "Too early to say whether loud cues are harder: it takes at least %(least)s soft cues and "
        "as many loud ones.",
        least=LEAST_TRIALS,
    )


def _judged(kinds: list[Kind], mixed: bool, shift: HeatShift | None) -> tuple[Claim, Said, int]:
    difference = _shifted(shift) if mixed else _costs(kinds[0])
    if difference is not None:
        return difference
    if all(one.alike for one in kinds):
        words = say("Loud cues are answered as well as soft ones, give or take one in ten.")
        return ALIKE_CLAIM, words, 0
    if any(one.effect.uneven_p is not None and one.effect.uneven_p < EVEN for one in kinds):
        return OPEN, say("How loud cues compare with soft ones differs from lesson to lesson."), 0
    hidden = math.ceil(10 * max(one.hidden for one in kinds) - 1e-9)
    words = say(
        "Whether loud cues are harder cannot yet be told; they may still cost up to %(hidden)s "
        "right answers in ten.",
        hidden=max(1, hidden),
    )
    return OPEN, words, 0


def _costs(kind: Kind) -> tuple[Claim, Said, int] | None:
    if math.sqrt(kind.effect.statistic or 0.0) < TWO_SIDED:
        return None
    if kind.effect.difference < 0:
        return COSTS, say("Calm with soft cues, not yet with loud ones."), 7
    return HELPS, say("Loud cues are answered better than soft ones."), 2


def _shifted(shift: HeatShift | None) -> tuple[Claim, Said, int] | None:
    if shift is None:
        return None
    apart = shift.sensitivity / shift.sensitivity_error
    lean = shift.criterion / shift.criterion_error
    if max(abs(apart), abs(lean)) < TWO_SIDED:
        return None
    if abs(lean) > abs(apart):
        if lean < 0:
            return READIER, say("When it is loud, reacts more readily, right or wrong."), 7
        return HOLDS_BACK, say("When it is loud, holds back more, right or wrong."), 7
    if apart < 0:
        return BLURS, say("When it is loud, tells the two kinds of cue apart less well."), 7
    return SHARPENS, say("When it is loud, tells the two kinds of cue apart better."), 2
