"""Blocks of a lesson plan, with their minutes and odds."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from cueladder.rules import Kind
from cueladder.rules.said import later, listed, say
from cueladder.rules.suggestion import rung_text, rungs_at

from .choice import Choice, due
from .outlook import Outlook


@dataclass(frozen=True)
class Block:
    """One part of a lesson.

    Attributes:
        drill, name, kind: the drill.
        role: ``re-check``, ``main``, ``second`` or ``sure success``.
        place: place it starts at; after a re-check the likelier one.
        decisions: climbs or steps back the minutes allow for (0 in a sure success).
        cues: expected cues; in a block cut short, the cues there is time for.
        minutes: at the fencer's own pace, to a tenth.
        climb: chance that the first decision is a climb (in a re-check: that it holds), in a
            block cut short within its time; None in a sure success.
        cut: whether the time is likely to end before the first decision.
        why: one plain sentence.
    """

    drill: str
    name: str
    kind: Kind
    role: str
    place: int
    decisions: int
    cues: int
    minutes: float
    climb: float | None
    cut: bool
    why: str

    def to_json(self) -> dict[str, Any]:
        """The block as data."""
        climb = None if self.climb is None else round(self.climb, 3)
        return {**self.__dict__, "kind": self.kind.value, "climb": climb}


def total(blocks: Iterable[Block]) -> float:
    """Total minutes of some blocks."""
    return sum(block.minutes for block in blocks)


def check_block(outlook: Outlook) -> Block | None:
    """The re-check that opens a drill, if there is one."""
    check = outlook.check
    if check is None:
        return None
    why = due(outlook) or ""
    return _block(outlook, "re-check", outlook.walk.place, 1, check.cues, check.held, why)


def work_block(role: str, choice: Choice, decisions: int) -> Block:
    """Training until a number of decisions, after the re-check if there is one."""
    outlook = choice.outlook
    return _block(
        outlook,
        role,
        _likelier(outlook),
        decisions,
        outlook.cues(decisions),
        outlook.climb(),
        choice.words,
    )


def cut_block(role: str, choice: Choice, minutes: float) -> Block:
    """Training for the time that is left, which is less than a decision takes on average."""
    outlook, cues = choice.outlook, int(minutes * 60 / choice.outlook.seconds)
    why = say("%(why)s; the count goes on in the next lesson", why=choice.words)
    place, climb = _likelier(outlook), outlook.climb(cues)
    return _block(outlook, role, place, 1, cues, climb, why, cut=True)


def sure_block(outlook: Outlook) -> Block:
    """The closing cues of a drill, on its surest rung."""
    chart, place = outlook.standing.chart, outlook.sure
    why = listed([rung_text(rung) for rung in rungs_at(chart, place)])
    return _block(outlook, "sure success", place, 0, chart.closing, None, why)


_OPENING = {
    "re-check": later("Re-check first: %(why)s."),
    "main": later("Main work: %(why)s."),
    "second": later("Then a second drill: %(why)s."),
    "sure success": later("End on something sure: %(why)s."),
}


def _block(
    outlook: Outlook,
    role: str,
    place: int,
    decisions: int,
    cues: float,
    climb: float | None,
    why: str,
    cut: bool = False,
) -> Block:
    minutes = cues * outlook.seconds / 60
    return Block(
        outlook.standing.drill,
        outlook.standing.name,
        outlook.standing.kind,
        role,
        place,
        decisions,
        max(1, round(cues)),
        max(0.1, math.floor(10 * minutes) / 10 if cut else round(minutes, 1)),
        climb,
        cut,
        say(_OPENING[role], why=why),
    )


def _likelier(outlook: Outlook) -> int:
    """The likeliest place at which training starts."""
    return max(outlook.spots(), key=lambda pair: pair[0])[1][0]
