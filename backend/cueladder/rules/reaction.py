"""Reaction: what a rung leaves the fencer to react in, and the least it has to leave.

From textbooks, recalled and not looked up again: to answer something seen takes about .2 s where
there is one thing to do, about .3 s where there is a choice of two (Hick 1952, Quarterly Journal of
Experimental Psychology 4:11), and children of about ten are about a tenth of a second slower. What
a coach's movement or a fencer's answer takes is the drill's own estimate (common practice, no
published source).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from .brief import FIRST
from .errors import RuleError, need, whole
from .ladder import Ladder
from .said import Said, say, say_number
from .scale import Scale

SIMPLE_MS, CHOICE_MS, CHILD_MS = 200, 300, 100
LONGEST_MS = 10_000


@dataclass(frozen=True)
class Timing:
    """A drill's times, beside those of its scales.

    Attributes:
        takes: ms from the first sign of the cue until it arrives, where no scale says more.
        answer: ms that the fencer's answer itself takes.
        needs: ms the fencer has to be left: a reaction.
    """

    takes: int
    answer: int
    needs: int

    def left(self, grades: Mapping[Scale, int]) -> int | None:
        """The ms left to react in at these grades; None where nothing sets a limit.

        The time is counted from when the cue can be told, until the answer has to begin.
        """
        takes = [scale.takes[grade] for scale, grade in grades.items() if scale.takes]
        if None in takes or not (self.takes or takes):
            return None
        gone = sum(scale.gone[grade] for scale, grade in grades.items() if scale.gone)
        answer = sum(scale.answer[grade] for scale, grade in grades.items() if scale.answer)
        time = self.takes + sum(one for one in takes if one is not None)
        return round(time * (1 - gone)) - self.answer - answer


def read_timing(doc: Mapping[str, Any], choice: bool) -> Timing:
    """A drill's ``time``; raises RuleError naming the field.

    Args:
        doc: the drill document; without ``time`` the answer takes no time of its own.
        choice: whether the fencer has to choose, even where ``time`` does not say so.
    """
    time = need(doc, "time", dict) if doc.get("time") is not None else {}
    try:
        takes, answer = (whole(time, name, 0, LONGEST_MS, 0) for name in ("takes", "answer"))
        choice = need(time, "choice", bool) if "choice" in time else choice
    except RuleError as error:
        raise RuleError(f"time.{error.field}", error.message) from None
    needs = CHOICE_MS if choice else SIMPLE_MS
    return Timing(takes, answer, needs + (CHILD_MS if doc.get("level") == FIRST else 0))


def left_on(timing: Timing, ladder: Ladder, other: Ladder | None = None) -> list[int | None]:
    """The ms each rung leaves, with the hardest rung of the other ladder; None without a limit."""
    beside = [_grades(other, k) for k in range(len(other))] if other else [{}]
    found: list[int | None] = []
    for i in range(len(ladder)):
        times = [timing.left({**_grades(ladder, i), **more}) for more in beside]
        found.append(min((one for one in times if one is not None), default=None))
    return found


def check_times(timing: Timing, read: Ladder | None, heat: Ladder | None) -> None:
    """Raise a RuleError on the first rung that leaves less than a reaction."""
    ladder, other = (read, heat) if read else (heat, None)
    assert ladder is not None
    for i, left in enumerate(left_on(timing, ladder, other)):
        if left is not None and left < timing.needs:
            raise RuleError(f"{ladder.family}[{i}]", _too_short(i, left, timing.needs))


def _too_short(i: int, left: int, needs: int) -> Said:
    return say(
        "rung %(rung)s leaves %(left)s s to react in, and nobody reacts in less than %(needs)s s: "
        "make it slower, easier to tell, or the answer shorter",
        rung=i + 1,
        left=say_number(left / 1000, 2),
        needs=say_number(needs / 1000, 1),
    )


def _grades(ladder: Ladder, i: int) -> dict[Scale, int]:
    return dict(zip(ladder.scales, ladder.rungs[i], strict=True))
