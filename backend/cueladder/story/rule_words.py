"""A rule as a coach would say it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..rules import ChangePoint, Rule, Run, Sequential, Window, rule_from_json
from ..rules.drill import DEFAULT_CAP
from ..rules.rule import DEFAULT
from ..rules.said import Said, joined, say
from ..rules.streak import Slips


def drill_rule(document: Mapping[str, Any]) -> Said:
    """The rule and the cap of a checked drill document, in words."""
    asked = document.get("rule")
    rule = DEFAULT if asked is None else rule_from_json(asked)
    rests = say(
        "After %(cap)s cues at one rung without a decision the drill rests.",
        cap=document.get("cap", DEFAULT_CAP),
    )
    return joined([rule_words(rule), rests])


def rule_words(rule: Rule) -> Said:
    """When a rule climbs and when it steps back."""
    if isinstance(rule, ChangePoint):
        return say(
            "Climbs after %(goal)s clean answers in a row; a slip takes %(slip)s off the count. "
            "%(patience)s slips close together: one step back.",
            goal=rule.goal,
            slip=rule.slip,
            patience=rule.patience,
        )
    if isinstance(rule, Run):
        climbs = say("Climbs after %(n)s clean answers in a row.", n=rule.n)
        return joined([climbs, _slips(rule.slips)])
    if isinstance(rule, Window):
        climbs = say("Climbs at %(k)s clean answers among the last %(w)s.", k=rule.k, w=rule.w)
        return joined([climbs, _slips(rule.slips)])
    assert isinstance(rule, Sequential)
    return say(
        "Weighs from the first cue on whether the fencer is right %(high)s times in 100 or only "
        "%(low)s: climbs with a risk of %(alpha)s in 100 of being too early, steps back with a "
        "risk of %(beta)s in 100. %(longest)s cues without an answer: one step back.",
        high=_in_100(rule.p1),
        low=_in_100(rule.p0),
        alpha=_in_100(rule.alpha),
        beta=_in_100(rule.beta),
        longest=rule.longest,
    )


def _slips(slips: Slips) -> Said:
    if slips.in_last is None:
        return say("%(row)s misses in a row: one step back.", row=slips.in_row)
    return say(
        "%(row)s misses in a row, or %(misses)s among the last %(among)s: one step back.",
        row=slips.in_row,
        misses=slips.in_last[0],
        among=slips.in_last[1],
    )


def _in_100(share: float) -> str:
    return f"{100 * share:.4g}"
