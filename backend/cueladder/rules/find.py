"""Finding the start: a fencer new to a drill is placed in about a dozen cues, by a finite table.

A place found so is a start; nothing counts as met by it, and its cues make no percentages. Drills
with one ladder have a search; a mixed drill has none.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from .errors import RuleError
from .find_table import FindState, FindTable, find_table
from .mark import OUTCOMES, Meaning, Move
from .said import say
from .state import Walk, changed, moved

# On a shorter ladder the search would place everybody at the bottom.
LEAST_RUNGS = 3


@dataclass(frozen=True)
class Find:
    """The search of a chart.

    Attributes:
        states: its states; the first is the start. The rungs are places.
        most: cues it takes at most, tense answers that are simply repeated not counted.
    """

    states: tuple[FindState, ...]
    most: int


def compile_find(rungs: int, family: Literal["read", "heat"]) -> Find | None:
    """The search on a ladder of so many rungs; None where there is nothing to search."""
    if rungs < LEAST_RUNGS:
        return None
    table = find_table(rungs, family)
    return Find(table.states, longest(table))


def longest(table: FindTable) -> int:
    """Cues of the longest way through the search.

    Raises:
        ValueError: a way leads back to a state it passed.
    """
    under_way: set[int] = set()

    @cache
    def cues(state: int) -> int:
        if state in under_way:
            raise ValueError(f"the search comes back to state {state}")
        under_way.add(state)
        nexts = {n for n, placed in table.states[state].to if not placed and n != state}
        most = 1 + max((cues(n) for n in nexts), default=0)
        under_way.remove(state)
        return most

    return cues(0)


def seek(find: Find | None, walk: Walk) -> Walk:
    """Begin the search.

    Raises:
        RuleError: the drill has none.
    """
    if find is None:
        raise RuleError("chart", say("this drill has no search for the start: set the rung"))
    begun = moved(walk, find.states[0].rung, "find", Move.STAY, "seek")
    return changed(begun, find=0)


def search(find: Find, walk: Walk, cell: Meaning) -> Walk | int:
    """One cue of the search: the walk after it, or the place found."""
    assert walk.find is not None
    state, placed = find.states[walk.find].to[OUTCOMES.index(cell.outcome)]
    if placed:
        return state
    place = find.states[state].rung
    move = Move.STAY
    if place != walk.place:
        move = Move.CLIMB if place > walk.place else Move.BACK
    was = walk.place if place != walk.place else None
    return changed(
        walk, place=place, find=state, cues=walk.cues + 1, move=move, why="seek", was=was
    )
