"""What a rule does, as a table and in plain words."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from ..evidence import odds
from ..evidence.odds import Odds
from ..rules import Rule
from ..rules.said import Said, say, say_number
from ..rules.table import Table, compile_rule
from .plain import times_in_100

RATES = (0.5, 0.6, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95, 0.97, 0.99)
NOT_YET, RELIABLE = 0.8, 0.97
WARN = 0.20


def told(rule: Rule, default: Rule) -> dict[str, Any]:
    """The odds of a rule beside those of the default, with words and, if need be, a warning."""
    ours = curve(rule, RATES)
    early, cues = ours[RATES.index(NOT_YET)].climb, ours[RATES.index(NOT_YET)].cues
    due, quick = ours[RATES.index(RELIABLE)].climb, ours[RATES.index(RELIABLE)].cues
    words = say(
        "A fencer who is right 8 times in 10 would be sent up %(early)s, and each try takes about "
        "%(cues)s cues. One who is right 97 times in 100 would be sent up %(due)s, after about "
        "%(quick)s cues.",
        early=times_in_100(early),
        cues=say_number(cues),
        due=times_in_100(due),
        quick=say_number(quick),
    )
    return {
        "table": _rows(ours),
        "default": _rows(curve(default, RATES)),
        "states": table_of(rule).ready,
        "words": words,
        "warning": _warning(early),
    }


@lru_cache(maxsize=64)
def curve(rule: Rule, rates: tuple[float, ...]) -> list[Odds]:
    """Odds of a fresh count at each true rate, kept."""
    return odds.curve(table_of(rule), rates)


@lru_cache(maxsize=64)
def table_of(rule: Rule) -> Table:
    """The rule's table for answers that are right or wrong, kept: a large one takes a second.

    Raises:
        RuleError: it would be too large.
    """
    return compile_rule(rule, holds=False)


def _rows(curve: list[Odds]) -> list[dict[str, float]]:
    return [
        {"p": p, "climb": one.climb, "back": one.back, "cues": one.cues}
        for p, one in zip(RATES, curve, strict=True)
    ]


def _warning(early: float) -> Said | None:
    if early <= WARN:
        return None
    return say(
        "This rule is easily fooled: it sends up a fencer who is right only 8 times in 10 "
        "%(often)s. Ask for more clean answers, or let a slip cost more.",
        often=times_in_100(early),
    )
