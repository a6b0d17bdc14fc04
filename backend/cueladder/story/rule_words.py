"""A rule as a coach would say it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..evidence.claims.rule import risks
from ..evidence.odds import odds
from ..rules import ChangePoint, Kind, Rule, Run, Sequential, Tally, Window, rule_from_json
from ..rules.families.streak import Slips
from ..rules.rule import default_of
from ..rules.said import Said, joined, say
from ..rules.settings import CAP, STARTLES
from ..rules.table import compile_rule


def drill_rule(document: Mapping[str, Any]) -> Said:
    """The rule, the startles and the cap of a checked drill document, in words."""
    asked = document.get("rule")
    rule = default_of(Kind(document["kind"])) if asked is None else rule_from_json(asked)
    startled = say(
        "After a startled answer, the same cue again; after %(n)s running, one step back.",
        n=document.get("startles", STARTLES),
    )
    rests = say(
        "After %(cap)s cues at one rung without a decision, stop this drill for today.",
        cap=document.get("cap", CAP),
    )
    return joined([rule_words(rule), startled, rests])


def rule_words(rule: Rule) -> Said:
    """When a rule climbs and when it steps back."""
    if isinstance(rule, ChangePoint | Tally):
        figures = {"goal": rule.goal, "slip": rule.slip, "patience": rule.patience}
        if rule.floor:
            return say(
                "Climbs at %(goal)s clean answers; a slip costs %(slip)s, and the count may fall "
                "up to %(owed)s behind. The count waits for the next lesson. %(patience)s slips "
                "close together: one step back.",
                owed=rule.floor,
                **figures,
            )
        return say(
            "Climbs at %(goal)s clean answers; a slip costs %(slip)s. The count waits for the "
            "next lesson. %(patience)s slips close together: one step back.",
            **figures,
        )
    if isinstance(rule, Run):
        climbs = say("Climbs after %(n)s clean answers in a row.", n=rule.n)
        return joined([climbs, _slips(rule.slips)])
    if isinstance(rule, Window):
        climbs = say("Climbs at %(k)s clean answers among the last %(w)s.", k=rule.k, w=rule.w)
        return joined([climbs, _slips(rule.slips)])
    assert isinstance(rule, Sequential)
    # what it was asked for is not what it does: the limit of cues cuts many counts short
    table = compile_rule(rule, holds=False)
    early, sure = (odds(table, p).climb for p in (rule.p0, rule.p1))
    return risks(_in_100(rule.p0), early, _in_100(rule.p1), 1 - sure, rule.longest).words


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
