"""The rules the study tries, each with what a coach would say of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product

from cueladder.rules import ChangePoint, Chart, Kind, Rule, Run, Tally, compile_chart
from cueladder.rules.rule import settings_of

from .drill import drill

RUNGS = 7
# The first default: a count that began anew in every lesson, and a re-check in every lesson.
FIRST = ChangePoint(0.80, 0.96, 3)
FIRST_CHECK = 5


@dataclass(frozen=True)
class Setting:
    """One rule to try on one kind of drill.

    Attributes:
        label: how the tables call it.
        kind: kind of drill.
        rule: the rule.
        waits: whether counts wait for the next lesson and re-checks for their time.
    """

    label: str
    kind: Kind
    rule: Rule
    waits: bool = True

    def chart(self) -> Chart:
        """The setting compiled for a study drill of RUNGS rungs a ladder."""
        made = drill(self.kind, self.rule, rungs=RUNGS)
        if self.waits:
            return compile_chart(made)
        every = {"read": (1,), "heat": (1,)}
        chart = compile_chart(made, check_cues=FIRST_CHECK, intervals=every, after_back=0.0)
        nothing = (None,) * len(chart.reentry)
        return replace(chart, table=replace(chart.table, keep=nothing))


def main_settings(kind: Kind) -> list[Setting]:
    """The three settings, usual first, and two rules to hold them against."""
    three = settings_of(kind)
    order = ["usual", "quick", "strict"]
    return [
        *(Setting(name, kind, three[name]) for name in order),
        Setting("first default", kind, FIRST, waits=False),
        Setting("ten in a row", kind, Run(10)),
    ]


def candidates(kind: Kind, *, quick: bool = False) -> Iterator[Setting]:
    """Counting rules all around the usual one, which comes first."""
    usual = settings_of(kind)["usual"]
    yield Setting("usual", kind, usual)
    goals, slips, floors, patiences = _around(kind)
    if quick:
        goals, slips, floors, patiences = goals[::2], slips[:1], floors[:1], patiences[:1]
    for goal, slip, floor, patience in product(goals, slips, floors, patiences):
        rule = Tally(goal, slip, patience, floor * slip)
        if rule != usual:
            yield Setting(said(rule), kind, rule)


def _around(kind: Kind) -> tuple[tuple[int, ...], ...]:
    """Goals, prices of a slip, slips that may be owed, slips close together that step back."""
    if kind is Kind.SENSITIZATION:
        return (15, 18, 20, 22, 25), (8, 10, 12), (0, 1), (3, 4)
    if kind is Kind.DESENSITIZATION:
        return (15, 20, 25), (8, 10, 12), (0, 1, 2), (4,)
    return (12, 15, 18), (6, 7, 9), (0, 2, 4), (3, 4)


def said(rule: Tally) -> str:
    """Its figures in short: clean answers, price of a slip, what may be owed, slips to go back."""
    return f"{rule.goal}/{rule.slip}/{rule.floor}, back at {rule.patience}"
