"""What a year came to, in the figures of the tables."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass, fields
from pathlib import Path

import numpy as np

from ..learners import MODELS, Bools
from .year import FORGETFUL, Outcome, Year

LEARNERS = "learners"  # the three together
GROUPS = (LEARNERS, *MODELS, FORGETFUL)


@dataclass(frozen=True)
class Condition:
    """What a lesson gives: a kind of drill, cues of it a lesson, a calendar."""

    kind: str
    cues: int
    calendar: str


@dataclass(frozen=True)
class Row:
    """One row of a table; shares, but for the numbers of rungs and climbs.

    Attributes:
        kind, cues, calendar: the condition.
        rule: the rule's label.
        who: one of GROUPS.
        fencers: fencers tried.
        rungs: rungs met in 20 lessons; ``error`` is its standard error.
        never: fencers who never climbed.
        early: climbs made while truly under .85, a tense answer counted as no pass.
        wrong: the same, tense answers counted as right.
        each: early climbs a fencer.
        easy: cues given where the truth was over .95.
        checks: cues given in re-checks.
        top: fencers who met the top rung.
    """

    kind: str
    cues: int
    calendar: str
    rule: str
    who: str
    fencers: int
    rungs: float
    error: float
    never: float
    early: float
    wrong: float
    each: float
    easy: float
    checks: float
    top: float


def rows(condition: Condition, rule: str, season: Year, outcome: Outcome) -> list[Row]:
    """The figures of each group that is there."""
    models = season.models
    found = []
    for who in GROUPS:
        which = models != FORGETFUL if who == LEARNERS else models == who
        if which.any():
            found.append(_row(condition, rule, who, which, outcome))
    return found


def _row(condition: Condition, rule: str, who: str, which: Bools, outcome: Outcome) -> Row:
    def total(name: str) -> float:
        return float(getattr(outcome, name)[which].sum())

    n = int(which.sum())
    climbs, cues = max(total("climbs"), 1.0), max(total("cues"), 1.0)
    return Row(
        **asdict(condition),
        rule=rule,
        who=who,
        fencers=n,
        rungs=total("rungs") / n,
        error=float(outcome.rungs[which].std(ddof=1) / np.sqrt(n)),
        never=float((outcome.climbs[which] == 0).mean()),
        early=total("early") / climbs,
        wrong=total("wrong") / climbs,
        each=total("early") / n,
        easy=total("easy") / cues,
        checks=total("checks") / cues,
        top=total("reached") / n,
    )


COLUMNS = (
    ("rungs", "rungs", "{:.2f}"),
    ("never climb", "never", "{:.1%}"),
    ("early", "early", "{:.1%}"),
    ("early, right", "wrong", "{:.1%}"),
    ("early a fencer", "each", "{:.2f}"),
    ("cues too easy", "easy", "{:.0%}"),
    ("in re-checks", "checks", "{:.1%}"),
)


def table(found: Iterable[Row], *lead: str) -> str:
    """Rows as a table in plain text.

    Args:
        found: the rows.
        lead: fields that stand in front of the figures.
    """
    lines = [[*lead, *(name for name, _, _ in COLUMNS)]]
    for row in found:
        figures = [form.format(getattr(row, field)) for _, field, form in COLUMNS]
        lines.append([*(str(getattr(row, field)) for field in lead), *figures])
    wide = [max(len(line[k]) for line in lines) for k in range(len(lines[0]))]
    return "\n".join(
        "  ".join(
            cell.ljust(w) if k < len(lead) else cell.rjust(w)
            for k, (cell, w) in enumerate(zip(line, wide, strict=True))
        )
        for line in lines
    )


def write(found: Sequence[Row], path: Path) -> None:
    """Write rows as a CSV file."""
    names = [field.name for field in fields(Row)]
    lines = [",".join(names)]
    for row in found:
        values = asdict(row).values()
        lines.append(
            ",".join(_cell(f"{v:.5g}" if isinstance(v, float) else str(v)) for v in values)
        )
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")


def _cell(value: float | int | str) -> str:
    text = f"{value:.5g}" if isinstance(value, float) else str(value)
    return f'"{text}"' if "," in text else text
