"""A lesson plan: re-checks first, a main drill, a second, last a sure success."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

from cueladder.rules import RuleError
from cueladder.rules.said import say

from .block import Block, total
from .fill import fill
from .outlook import Outlook
from .pace import pace
from .standing import Standing

LONGEST_LESSON = 240


@dataclass(frozen=True)
class Plan:
    """A lesson: its blocks in order, the minutes left over, and a note where there is no block."""

    minutes: float
    blocks: tuple[Block, ...]
    spare: float
    note: str | None

    def to_json(self) -> dict[str, Any]:
        """The plan as data."""
        return {**self.__dict__, "blocks": [block.to_json() for block in self.blocks]}


def plan(
    minutes: float,
    standings: Iterable[Standing],
    day: str,
    starters: Iterable[Standing] = (),
) -> Plan:
    """Plan a lesson.

    Args:
        minutes: length of the lesson, above 0.
        standings: the drills the fencer has worked, in any order, walks as last left.
        day: ISO day of the lesson.
        starters: further drills that suit the fencer, new to them; used where they fit.

    Raises:
        RuleError: minutes out of range, no such day, or a drill given twice.
    """
    if isinstance(minutes, bool) or not math.isfinite(minutes) or not 0 < minutes <= LONGEST_LESSON:
        raise RuleError(
            "minutes", say("should be above 0 and at most %(most)s", most=LONGEST_LESSON)
        )
    try:
        date.fromisoformat(day)
    except (TypeError, ValueError):
        raise RuleError("day", say("should be a day such as 2026-03-02")) from None
    known = list(standings)
    worked = {s.drill for s in known}
    if len(worked) != len(known):
        raise RuleError("standings", say("each drill once"))
    known += [s for s in starters if s.drill not in worked]
    usual = pace([second for s in known for second in s.seconds])
    everything = [Outlook.of(s, day, usual) for s in sorted(known, key=lambda s: s.drill)]
    if not everything:
        return Plan(minutes, (), minutes, say("No drill suits this fencer yet: add one first."))
    blocks = fill(minutes, everything)
    note = None if blocks else say("Too short for a few sure cues: give the lesson more minutes.")
    return Plan(minutes, blocks, round(minutes - total(blocks), 1), note)
