"""Marks that are sometimes wrong: what a true share looks like, and what a seen one may be."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from cueladder.evidence.checks import whole

LEAST_CUES, LEAST_SLIPS = 60, 20
"""Cues marked by two, and slips among the marks of either, from which an error is worked out."""


@dataclass(frozen=True)
class Marking:
    """How well marks follow what happened.

    Attributes:
        slip: share of true slips that are marked as slips (sensitivity).
        right: share of truly right answers that are marked right (specificity).
        cues: cues it rests on.
    """

    slip: float
    right: float
    cues: int

    def seen(self, right: float) -> float:
        """Share marked right of a fencer who is right with chance ``right``."""
        return right * self.right + (1.0 - right) * (1.0 - self.slip)


def true_share(seen: float, sensitivity: float, specificity: float) -> float:
    """True share of what was seen in ``seen`` of all, cut to 0..1.

    Rogan & Gladen 1978 (American J. Epidemiology 107:71):
    (seen + specificity - 1)/(sensitivity + specificity - 1).

    Raises:
        ValueError: a share outside 0..1, or the two add up to 1 or less (then marks tell nothing).
    """
    for name, value in (
        ("seen", seen), ("sensitivity", sensitivity), ("specificity", specificity)
    ):  # fmt: skip
        if not 0.0 <= value <= 1.0:
            raise ValueError(f"{name}: give a share from 0 to 1, not {value!r}")
    if sensitivity + specificity <= 1.0:
        raise ValueError("sensitivity: with specificity it should add up to more than 1")
    found = (seen + specificity - 1.0) / (sensitivity + specificity - 1.0)
    return min(1.0, max(0.0, found))


def marking_of(
    both_slip: Any, first_slip: Any, second_slip: Any, both_right: Any
) -> Marking | None:
    """Marking error from cues that two people marked.

    Neither of the two is the truth, so each is taken as the other's yardstick and the two views
    are averaged: the specific agreement on slips and on right answers (Cicchetti & Feinstein 1990,
    J. Clinical Epidemiology 43:551, from memory). Where both err, each is charged with the
    other's errors too, so it is rather too large an error than too small.

    Args:
        both_slip, both_right: cues that both marked so.
        first_slip, second_slip: cues that only that one marked a slip.

    Returns:
        None from fewer than `LEAST_CUES` cues, or `LEAST_SLIPS` marks of a slip or of right.

    Raises:
        ValueError: not counts.
    """
    slips = 2 * whole("both_slip", both_slip)
    rights = 2 * whole("both_right", both_right)
    apart = whole("first_slip", first_slip) + whole("second_slip", second_slip)
    cues = (slips + rights) // 2 + apart
    if cues < LEAST_CUES or min(slips, rights) + apart < LEAST_SLIPS:
        return None
    return Marking(slips / (slips + apart), rights / (rights + apart), cues)
