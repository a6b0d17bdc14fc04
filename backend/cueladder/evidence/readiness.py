"""What heat does to telling apart: d' and c with loud cues against soft ones, rung by rung."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from cueladder.evidence.detection import detect

LEAST = 5
"""Cues of each of the four kinds from which a rung is compared at all."""


@dataclass(frozen=True)
class HeatShift:
    """Loud against soft, attacks and decoys apart.

    Attributes:
        sensitivity, criterion: change of d' and of c from soft to loud cues, over the rungs.
        sensitivity_error, criterion_error: their standard errors.
        attacks, decoys: ((soft right, soft cues), (loud right, loud cues)) over the rungs compared.
        rungs: how many rungs were compared.
    """

    sensitivity: float
    sensitivity_error: float
    criterion: float
    criterion_error: float
    attacks: tuple[tuple[int, int], tuple[int, int]]
    decoys: tuple[tuple[int, int], tuple[int, int]]
    rungs: int


def heat_shift(rungs: Sequence[Sequence[int]] | ArrayLike) -> HeatShift | None:
    """Change of d' and c with heat, each rung compared with itself.

    A loud sound is itself a signal to go: it can help the answer to an attack and ruin the answer
    to a decoy, which pooled would look like nothing. Rungs weigh by their rarest kind of cue,
    since that limits what they can tell.

    Args:
        rungs: k rows of soft attacks answered, soft attacks, soft decoys reacted to, soft decoys,
            then the same four of loud cues. Rungs with fewer than `LEAST` of any kind are left out.

    Returns:
        None where no rung has enough of all four kinds.

    Raises:
        ValueError: bad counts, or rows of another length.
    """
    table = np.asarray(rungs)
    if table.ndim != 2 or table.shape[1] != 8:
        raise ValueError("rungs: give rows of eight counts, soft then loud")
    kept = table[(table[:, [1, 3, 5, 7]] >= LEAST).all(axis=1)]
    if not len(kept):
        return None
    weights = kept[:, [1, 3, 5, 7]].min(axis=1).astype(np.float64)
    weights /= weights.sum()
    pairs = [(detect(*row[:4]), detect(*row[4:])) for row in kept.tolist()]
    sensitivity = sum(
        w * (b.sensitivity - a.sensitivity) for w, (a, b) in zip(weights, pairs, strict=True)
    )
    criterion = sum(
        w * (b.criterion - a.criterion) for w, (a, b) in zip(weights, pairs, strict=True)
    )
    spread = sum(
        w * w * (a.error**2 + b.error**2) for w, (a, b) in zip(weights, pairs, strict=True)
    )
    hits, attacks, alarms, decoys, *loud = (int(n) for n in kept.sum(axis=0))
    loud_hits, loud_attacks, loud_alarms, loud_decoys = loud
    return HeatShift(
        float(sensitivity),
        math.sqrt(spread),
        float(criterion),
        math.sqrt(spread) / 2.0,
        ((hits, attacks), (loud_hits, loud_attacks)),
        ((decoys - alarms, decoys), (loud_decoys - loud_alarms, loud_decoys)),
        len(kept),
    )
