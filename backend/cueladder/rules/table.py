"""Compile a rule to a finite table, the form everything else uses."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from .families.family import Progress, Rule, State
from .mark import OUTCOMES, Move, Outcome
from .merge import merged, too_large

MOST_STATES = 16_000
# Looked into before anything is merged: a larger rule is refused before it costs anything much.
MOST_EXPLORED = 40_000

Row = tuple[tuple[int, Move], ...]


@dataclass(frozen=True)
class Table:
    """A rule as states and transitions.

    Attributes:
        rows: for each state, (next state, move) in the order of OUTCOMES. A climb leads to
            ``ready``, a back to state 0.
        progress: for each state (have, need).
        ready: index of the last state: the rule is met and waits.
        keep: for each row of the re-entry table, the state that is left of each state on a later
            day; None where nothing is left of any. Empty for a bare rule, and in charts of
            version 1, where nothing was kept.
    """

    rows: tuple[Row, ...]
    progress: tuple[Progress, ...]
    ready: int
    keep: tuple[tuple[int, ...] | None, ...] = ()


def compile_rule(rule: Rule, *, holds: bool = True, startles: int | None = None) -> Table:
    """Compile a bare rule: a count that is begun anew each time.

    Args:
        rule: any rule family.
        holds: whether a hold costs what a slip costs, as in charts of version 1; else it leaves
            the count as it is.
        startles: so many startles running step back whatever the rule says, and fewer do not.

    Raises:
        RuleError: the table would have more than MOST_STATES states.
    """
    found = _Search(rule, holds, startles)
    found.explore()
    return found.finish()


@lru_cache(maxsize=8)  # 0.6 kB a state: 10 MB for the largest table
def compile_count(rule: Rule, startles: int, shares: tuple[float, ...]) -> Table:
    """Compile the count of a drill: it waits for the next lesson, and its end for its other half.

    A hold leaves it as it is, and a slip on a finished count takes its price off. The last few are
    cached, since a club's drills share their rules and a draft is compiled at each change.

    Args:
        rule: any rule family.
        startles: startles running that step back whatever the rule says; fewer do not.
        shares: for each row of the re-entry table the share of a count that is left.

    Raises:
        RuleError: the table would have more than MOST_STATES states.
    """
    found = _Search(rule, False, startles, shares)
    found.explore()
    slipped = [
        found.at(rule.start if isinstance(after, Move) else after, startled)
        for after, startled in (
            (rule.after(rule.finished, Outcome.MISS), 0),
            (rule.after(rule.finished, Outcome.STARTLE), 1),
        )
    ]
    waits = rule.kept(rule.finished, 1) == rule.finished
    kept = [
        -1 if waits and share == 1 else found.at(rule.kept(rule.finished, share), 0)
        for share in shares
    ]
    found.explore()
    return found.finish(slipped, kept)


def state_of(rule: Rule, table: Table, share: float) -> int:
    """The state in which so much of a finished count is left; the nearest below it."""
    have = rule.progress(rule.kept(rule.finished, share))[0]
    clean = 0
    for _ in range(max(0, have)):
        clean = table.rows[clean][OUTCOMES.index(Outcome.PASS)][0]
    return clean


class _Search:
    """The states a rule can come to, found one from another."""

    def __init__(
        self,
        rule: Rule,
        holds: bool,
        startles: int | None,
        shares: tuple[float, ...] = (),
    ) -> None:
        self.rule, self.holds, self.startles, self.shares = rule, holds, startles, shares
        self.index: dict[tuple[State, int], int] = {}
        self.todo: list[tuple[State, int]] = []
        self.rows: list[list[tuple[int, Move]]] = []
        self.keeps: list[tuple[int, ...]] = []
        self.at(rule.start, 0)

    def at(self, state: State, startled: int) -> int:
        """The number of a state of the rule after so many startles running."""
        key = (state, startled)
        if key not in self.index:
            if len(self.todo) >= MOST_EXPLORED:
                raise too_large()
            self.index[key] = len(self.todo)
            self.todo.append(key)
        return self.index[key]

    def explore(self) -> None:
        """Follow every outcome from every state that was not followed yet."""
        while len(self.rows) < len(self.todo):
            state, startled = self.todo[len(self.rows)]
            self.rows.append([self._after(state, startled, outcome) for outcome in OUTCOMES])
            self.keeps.append(tuple(self.at(self.rule.kept(state, s), 0) for s in self.shares))

    def _after(self, state: State, startled: int, outcome: Outcome) -> tuple[int, Move]:
        if outcome is Outcome.HOLD and not self.holds:
            return (self.at(state, startled), Move.STAY)
        after = self.rule.after(state, outcome)
        running = startled + 1 if outcome is Outcome.STARTLE and self.startles else 0
        if self.startles and running >= self.startles:
            after = Move.BACK
        elif after is Move.BACK and running > 1:
            # startles running have a number of their own: until then the cue is repeated
            after = self.rule.after(state, Outcome.HOLD)
        if isinstance(after, Move):
            return (-1 if after is Move.CLIMB else 0, after)
        return (self.at(after, running), Move.STAY)

    def finish(self, slipped: Sequence[int] = (0, 0), kept: Sequence[int] = ()) -> Table:
        """Merge what no future can tell apart, and add the waiting state.

        Args:
            slipped: what a miss and a startle leave of a finished count.
            kept: what each row of the re-entry table leaves of it, -1 for all.
        """
        progress = [self.rule.progress(state) for state, _ in self.todo]
        group = _merged(self.rows, progress, self.keeps)
        first = {g: i for i, g in reversed(list(enumerate(group)))}
        ready = len(first)
        if ready > MOST_STATES:
            raise too_large()

        def to(state: int) -> int:
            return ready if state < 0 else group[state]

        one = [first[g] for g in range(ready)]
        rows = [tuple((to(n), move) for n, move in self.rows[i]) for i in one]
        waiting = tuple((to(n), Move.STAY) for n in (-1, -1, *slipped))
        need = progress[0][1]
        tables = [
            tuple(to(n) for n in (*(self.keeps[i][k] for i in one), left))
            for k, left in enumerate(kept)
        ]
        return Table(
            (*rows, waiting),
            (*(progress[i] for i in one), (need, need)),
            ready,
            tuple(table if any(table) else None for table in tables),
        )


def _merged(
    rows: list[list[tuple[int, Move]]],
    progress: list[Progress],
    keeps: list[tuple[int, ...]],
) -> list[int]:
    """Group states that no future can tell apart."""
    looks = [(p, *(m for _, m in row)) for p, row in zip(progress, rows, strict=True)]
    leads = [(*(n for n, _ in row), *kept) for row, kept in zip(rows, keeps, strict=True)]
    return merged(looks, leads)


def compile_check(cues: int) -> Table:
    """The re-check: ``cues`` clean answers hold it, a hold changes nothing, a slip fails it.

    Returns:
        A table whose CLIMB means held and whose BACK means failed.
    """
    rows: list[Row] = []
    for i in range(cues):
        onward = (cues if i + 1 == cues else i + 1, Move.CLIMB if i + 1 == cues else Move.STAY)
        rows.append((onward, (i, Move.STAY), (0, Move.BACK), (0, Move.BACK)))
    over = tuple((n, Move.STAY) for n in (cues, cues, 0, 0))
    progress = tuple((i, cues) for i in range(cues + 1))
    return Table((*rows, over), progress, cues)
