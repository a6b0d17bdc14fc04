"""The odds of some rules as a table to read, for the command line."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from cueladder.rules import ChangePoint, Rule, RuleError, Run, Sequential, Slips, rule_from_json
from cueladder.rules.rule import DEFAULT
from cueladder.rules.table import compile_rule

from .odds import curve

RATES = (0.7, 0.8, 0.85, 0.9, 0.95, 0.97, 0.99)
PAIR_ONLY = Slips(in_row=2, in_last=None)


def odds_table(asked: Any = None) -> str:
    """Chance to climb and expected cues of rules, starting fresh, no cap.

    Args:
        asked: a rule as data, shown beside the default; None shows one of each family.

    Raises:
        RuleError: no such rule; names the field.
    """
    if asked is not None and not isinstance(asked, Mapping):
        raise RuleError("rule", "should be an object")
    rules = _examples() if asked is None else [DEFAULT, rule_from_json(asked)]
    names = {rule: _name(rule) for rule in rules}
    width = max(map(len, names.values())) + 2
    head = "right, of 100".ljust(width) + "".join(f"{100 * p:>14.0f}" for p in RATES)
    lines = [name.ljust(width) + _cells(rule) for rule, name in names.items()]
    return "\n".join([head, *lines, "Each cell: chance to climb; expected cues to a decision."])


def _examples() -> list[Rule]:
    return [
        DEFAULT,
        ChangePoint(0.8, 0.97, patience=2),
        Run(10, PAIR_ONLY),
        Run(15, PAIR_ONLY),
        Sequential(),
    ]


def _name(rule: Rule) -> str:
    data = rule.to_json()
    return " ".join([data.pop("family"), *(f"{k}={v}" for k, v in data.items() if v is not None)])


def _cells(rule: Rule) -> str:
    table = compile_rule(rule, holds=False)
    cells = "".join(f"{o.climb:>8.3f};{o.cues:5.1f}" for o in curve(table, RATES))
    return f"{cells}  ({table.ready} states)"
