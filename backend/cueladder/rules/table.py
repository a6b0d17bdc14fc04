"""Compile a rule to a finite table, the form everything else uses."""

from __future__ import annotations

from dataclasses import dataclass

from .errors import RuleError
from .family import Progress, Rule
from .mark import OUTCOMES, Move, Outcome
from .said import say

MOST_STATES = 16_000
MOST_EXPLORED = 300_000

Row = tuple[tuple[int, Move], ...]


@dataclass(frozen=True)
class Table:
    """A rule as states and transitions.

    Attributes:
        rows: for each state, (next state, move) in the order of OUTCOMES. A climb leads to
            ``ready``, a back to state 0.
        progress: for each state (have, need).
        ready: index of the last state: the rule is met and waits; a miss restarts it.
    """

    rows: tuple[Row, ...]
    progress: tuple[Progress, ...]
    ready: int


def compile_rule(rule: Rule, *, holds: bool = True, startle_pair: bool = False) -> Table:
    """Compile a rule.

    Args:
        rule: any rule family.
        holds: whether holds can happen; where they cannot, a hold leaves the count as it is.
        startle_pair: two startles in a row step back whatever the rule says, as in every drill.

    Raises:
        RuleError: the table would have more than MOST_STATES states.
    """
    start = (rule.start, False)
    index = {start: 0}
    todo = [start]
    rows: list[list[tuple[int, Move]]] = []
    for key in todo:
        state, startled = key
        row: list[tuple[int, Move]] = []
        for outcome in OUTCOMES:
            if outcome is Outcome.HOLD and not holds:
                row.append((index[key], Move.STAY))
                continue
            after = rule.after(state, outcome)
            second = startle_pair and outcome is Outcome.STARTLE
            if second and startled:
                after = Move.BACK
            if isinstance(after, Move):
                row.append((-1 if after is Move.CLIMB else 0, after))
                continue
            nxt = (after, second)
            if nxt not in index:
                if len(todo) >= MOST_EXPLORED:
                    raise RuleError("rule", say("needs too large a chart: make its window smaller"))
                index[nxt] = len(todo)
                todo.append(nxt)
            row.append((index[nxt], Move.STAY))
        rows.append(row)
    progress = [rule.progress(state) for state, _ in todo]
    return _finish(*_merge(rows, progress))


def _merge(
    rows: list[list[tuple[int, Move]]], progress: list[Progress]
) -> tuple[list[list[tuple[int, Move]]], list[Progress]]:
    """Merge states that no future can tell apart (Moore's partition refinement)."""
    group: list[int] = _number(list(progress))
    while True:
        finer = _number(
            [
                (group[i], tuple((group[n] if n >= 0 else -1, m) for n, m in row))
                for i, row in enumerate(rows)
            ]
        )
        if finer == group:
            break
        group = finer
    first = {g: i for i, g in reversed(list(enumerate(group)))}
    kept = [first[g] for g in range(len(first))]
    return (
        [[(group[n] if n >= 0 else -1, m) for n, m in rows[i]] for i in kept],
        [progress[i] for i in kept],
    )


def _number(keys: list[object]) -> list[int]:
    """Number equal keys alike, in order of first appearance."""
    seen: dict[object, int] = {}
    return [seen.setdefault(key, len(seen)) for key in keys]


def _finish(rows: list[list[tuple[int, Move]]], progress: list[Progress]) -> Table:
    """Add the waiting state and point every climb at it."""
    ready = len(rows)
    if ready > MOST_STATES:
        raise RuleError("rule", say("needs too large a chart: make its window smaller"))
    waiting = [
        (ready if outcome in (Outcome.PASS, Outcome.HOLD) else 0, Move.STAY) for outcome in OUTCOMES
    ]
    full = [tuple((ready if n < 0 else n, m) for n, m in row) for row in [*rows, waiting]]
    need = progress[0][1]
    return Table(tuple(full), (*progress, (need, need)), ready)


def compile_check(cues: int) -> Table:
    """The re-check: ``cues`` cues without a miss hold it, the first miss fails it.

    Returns:
        A table whose CLIMB means held and whose BACK means failed.
    """
    rows: list[list[tuple[int, Move]]] = []
    for i in range(cues):
        onward = (-1, Move.CLIMB) if i + 1 == cues else (i + 1, Move.STAY)
        failed = (0, Move.BACK)
        rows.append([onward, onward, failed, failed])
    return _finish(rows, [(i, cues) for i in range(cues)])
