"""A chart as lookup arrays, for the walk of many fencers at once."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from cueladder.rules import Chart, Given, Mark, Move
from cueladder.rules.mark import OUTCOMES

Ints = NDArray[np.intp]

GIVEN, MARKS, MOVES = tuple(Given), tuple(Mark), tuple(Move)
NONE = -1
_LADDERS = ("read", "heat")


class Board:
    """A chart as lookup arrays; -1 stands for None.

    Attributes:
        next, move: of each counter state and outcome, shape (states, outcomes).
        keep: what each row of the re-entry table leaves of each state, shape (rows, states).
        check_next, check_move: the same as ``next`` and ``move`` for the re-check.
        cell: (counter, outcome, remedy) of each given and mark, shape (2, 5, 3); counter -1
            where the mark cannot be given.
        climb, lower, height, read, heat: of each place, shape (places,).
        back: of each place and ladder, shape (places, 2).
        descent: of each place, padded with -1, shape (places, most).
        entry: of each place and row of the re-entry table, shape (places, rows).
        days: upper ends of the re-entry rows but the last.
        intervals: days after which a rung is re-checked, by how often it has held.
    """

    def __init__(self, chart: Chart) -> None:
        self.chart = chart
        self.next, self.move = _table(chart.table.rows)
        self.check_next, self.check_move = _table(chart.check.rows)
        self.ready = chart.table.ready
        none = (0,) * (self.ready + 1)
        self.keep = np.array([row or none for row in chart.table.keep], dtype=np.intp)
        self.cell = np.full((len(GIVEN), len(MARKS), 3), NONE, dtype=np.intp)
        for given, cells in chart.meaning.items():
            for mark, m in cells.items():
                self.cell[GIVEN.index(given), MARKS.index(mark)] = (
                    m.counter,
                    OUTCOMES.index(m.outcome),
                    _LADDERS.index(m.remedy) if m.remedy else NONE,
                )
        places = chart.places
        self.climb = _ints([p.climb for p in places])
        self.lower = _ints([p.lower for p in places])
        self.height = _ints([p.height for p in places])
        self.read = np.array([p.read or 0 for p in places], dtype=np.intp)
        self.heat = np.array([p.heat or 0 for p in places], dtype=np.intp)
        self.back = np.array([_ints([p.back[x] for x in _LADDERS]) for p in places])
        most = max(len(p.descent) for p in places)
        self.descent = np.array(
            [_ints([*p.descent, *[None] * (most - len(p.descent))]) for p in places]
        )
        self.entry = np.array([p.entry for p in places], dtype=np.intp)
        self.days = np.array([d for d, _ in chart.reentry if d is not None])
        self.intervals = np.array(chart.intervals, dtype=np.intp)


def _table(rows: tuple[tuple[tuple[int, Move], ...], ...]) -> tuple[Ints, Ints]:
    return (
        np.array([[nxt for nxt, _ in row] for row in rows], dtype=np.intp),
        np.array([[MOVES.index(move) for _, move in row] for row in rows], dtype=np.intp),
    )


def _ints(values: list[int | None]) -> Ints:
    return np.array([NONE if v is None else v for v in values], dtype=np.intp)
