"""Lessons in another setting between usual ones: a comparison that learning leaves alone.

Who is learning does better later, whoever gives the cues. So lessons in the other setting are
compared with the lesson just before and the one just after them alone, rung by rung; a steady gain
then cancels out.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

Block = tuple[tuple[int, int], tuple[int, ...]]


def blocks(givers: Sequence[str], usual: str, other: str) -> list[Block]:
    """Runs of lessons by the other giver with a usual one on either side; no lesson is in two.

    Args:
        givers: of each lesson, in order; lessons by anyone else are passed over.
        usual, other: the two that are compared.

    Returns:
        ((lesson before, lesson after), lessons between) of each run.
    """
    found: list[Block] = []
    before: int | None = None
    between: list[int] = []
    for lesson, giver in enumerate(givers):
        if giver == other and before is not None:
            between.append(lesson)
        elif giver == usual:
            if between and before is not None:
                found.append(((before, lesson), tuple(between)))
                before, between = None, []
            else:
                before = lesson
    return found


def strata(
    some: Sequence[Block], lesson: NDArray[Any], place: NDArray[Any], right: NDArray[Any]
) -> list[list[int]]:
    """[usual right, usual cues, other right, other cues] of each run and rung that had both.

    Args:
        some: from `blocks`.
        lesson, place, right: of each cue, shape (n,); ``right`` is a mask.
    """
    rows = []
    for flanks, between in some:
        sides = [np.isin(lesson, flanks), np.isin(lesson, between)]
        for rung in sorted(set(place[sides[1]].tolist())):
            row: list[int] = []
            for side in sides:
                here = right[side & (place == rung)]
                row += [int(here.sum()), int(here.size)]
            if row[1] and row[3]:
                rows.append(row)
    return rows
