"""Telling the cue to answer from the one to leave alone."""

from __future__ import annotations

from typing import Any

from cueladder.evidence.detection import Detection, detect
from cueladder.evidence.guards import too_few_trials
from cueladder.evidence.season import ONE_SIDED, TWO_SIDED
from cueladder.rules.said import Said, joined, later, say

from .claim import Claim, Told, told

TOLD = Claim(
    "apart.told", "fencer", "finding",
    says="Tells the two kinds of cue apart better than by guessing",
    needs="10 cues of either kind",
    promise=0.05,
    false="d′ 0, whatever the lean",
    true="d′ 1.5",
    power=(80, 0.80),
)  # fmt: skip
WELL = Claim(
    "apart.well", "fencer", "finding",
    says="Tells them apart well",
    needs=TOLD.needs,
    promise=0.05,
    false="d′ 0.9, which is fair",
    true="d′ 2.5",
    power=(120, 0.80),
)  # fmt: skip
LEAN = Claim(
    "apart.lean", "fencer", "finding",
    says="Tends to react rather than wait (to wait rather than react)",
    needs=TOLD.needs,
    promise=0.05,
    false="c 0",
    true="c 0.8",
    power=(120, 0.80),
)  # fmt: skip
SWAPPED = Claim(
    "apart.swapped", "fencer", "finding",
    says="Answered cues to leave more often: were the two mixed up in the marks?",
    needs=TOLD.needs,
    promise=0.05,
    false="d′ 0",
    true="d′ −1.5",
    power=(80, 0.80),
)  # fmt: skip
OPEN = Claim(
    "apart.open", "fencer", "open",
    says="Cannot yet be told from guessing",
    needs=TOLD.needs,
)  # fmt: skip
CLAIMS = (TOLD, WELL, LEAN, SWAPPED, OPEN)

FAIR = 1.0
LEAST_LEAN = 0.3
"""A smaller c nobody on the strip would notice (house choice)."""

ENOUGH = 40
"""Cues of either kind after which "cannot yet be told from guessing" is worth acting on."""

COUNTED = later(
    "Answered %(hits)s of %(attacks)s cues to answer and %(alarms)s of %(decoys)s cues to leave."
)


def apart(hits: Any, attacks: Any, alarms: Any, decoys: Any) -> tuple[Told, Detection, Told | None]:
    """Are the two kinds of cue told apart, and which way does the fencer lean?

    Args: as `evidence.detection.detect`.

    Returns:
        (telling apart, the figures, the lean if one is found); the first names the counts.

    Raises:
        ValueError: bad counts.
    """
    found = detect(hits, attacks, alarms, decoys)
    few = too_few_trials(min(attacks, decoys), "attacks" if attacks <= decoys else "decoys")
    if few is not None:
        return told(OPEN, few), found, None
    counted = say(COUNTED, hits=hits, attacks=attacks, alarms=alarms, decoys=decoys)
    claim, words, acts = _judged(found, min(attacks, decoys))
    return told(claim, joined([words, counted]), acts), found, lean(found)


def _judged(found: Detection, least: int) -> tuple[Claim, Said, int]:
    low = found.sensitivity - ONE_SIDED * found.error
    high = found.sensitivity + ONE_SIDED * found.error
    if high < 0:
        words = say(
            "Cues to leave were answered more often than cues to answer: were the two mixed up in"
            " the marks?"
        )
        return SWAPPED, words, 6
    if low <= 0:
        words = say("Answering and leaving alone cannot yet be told from guessing.")
        return OPEN, words, 3 if least >= ENOUGH else 0
    if low >= FAIR:
        return WELL, say("Tells the two kinds of cue apart well."), 0
    return TOLD, say("Tells the two kinds of cue apart better than by guessing."), 0


def lean(found: Detection) -> Told | None:
    """Which way the fencer leans, where that is beyond chance."""
    if abs(found.criterion) < max(LEAST_LEAN, TWO_SIDED * found.lean_error):
        return None
    if found.criterion > 0:
        return told(LEAN, say("Tends to wait rather than react."), 3)
    return told(LEAN, say("Tends to react rather than wait."), 5)
