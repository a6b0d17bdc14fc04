"""Marks gathered into cells while they stream by: what the fit reads instead of single cues."""

from __future__ import annotations

from array import array
from collections.abc import Iterable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]

# Cues of a drill in a lesson are told apart by these numbers alone: the first three are fresh.
BLOCKS = (3, 10, 20, 40)
FRESH = BLOCKS[0]

Cue = tuple[int, bool, bool, bool]
"""(rung, left alone or not, right, right but tense)."""


@dataclass(frozen=True)
class Cells:
    """A club's marks on drills of one kind; fencers, drills and series are numbers from 0.

    A series is one fencer on one drill. Series, lessons and cells stand in the order of fencers,
    then of days.

    Attributes:
        fencer, drill: of each series, shape (series,).
        series, gap, cues: of each lesson of a drill: its series, weeks since the last (0 for the
            first), cues given, shape (lessons,).
        lesson: of each cell, index of its lesson; the following all have shape (cells,).
        rung: steps above the bottom.
        nth: mean number of the cell's cues within the lesson, from 0.
        decoy: 1 for cues to be left alone.
        n, right: cues, and those answered right, tense or not.
        tense: those right but tense.
        climbs: of each rung that was met, its lesson and the rung, shape (climbs, 2).
    """

    fencer: Ints
    drill: Ints
    series: Ints
    gap: Floats
    cues: Floats
    lesson: Ints
    rung: Floats
    nth: Floats
    decoy: Floats
    n: Floats
    right: Floats
    tense: Floats
    climbs: Ints

    @property
    def marks(self) -> int:
        """Cues behind it."""
        return int(self.n.sum())

    @property
    def fencers(self) -> int:
        """How many fencers."""
        return int(self.fencer.max()) + 1 if len(self.fencer) else 0

    @property
    def lessons(self) -> int:
        """How many lessons of a drill."""
        return len(self.series)

    @property
    def fresh(self) -> Floats:
        """1 for the first cues of a lesson."""
        return np.asarray(self.nth < FRESH, dtype=np.float64)

    def where(self, which: NDArray[np.bool_]) -> Cells:
        """The lessons with all their practice, and only some of the cells."""
        names = ("lesson", "rung", "nth", "decoy", "n", "right", "tense")
        return replace(self, **{name: getattr(self, name)[which] for name in names})


class Gathering:
    """Cells in the making: lessons are added fencer by fencer, in the order of their days.

    Holds some numbers a lesson and no mark, so it does not grow with the cues of a lesson.
    """

    def __init__(self) -> None:
        self._keys: dict[tuple[int, str], int] = {}
        self._drills: dict[str, int] = {}
        self._last: dict[int, int] = {}
        self._series = array("d")
        self._lessons = array("d")
        self._cells = array("d")
        self._climbs = array("d")

    def add(
        self, fencer: int, drill: str, day: int, cues: Iterable[Cue], climbs: Iterable[int] = ()
    ) -> None:
        """One drill of one lesson.

        Args:
            fencer: number of the fencer, from 0, never falling.
            drill: any name of the drill.
            day: number of the day.
            cues: in order; a rung of -1 is practice on a rung the drill no longer has.
            climbs: rungs met.
        """
        found: dict[tuple[int, int, bool], list[float]] = {}
        count = 0
        for rung, decoy, right, tense in cues:
            if rung < 0:
                count += 1
                continue
            block = sum(count >= edge for edge in BLOCKS)
            cell = found.setdefault((block, rung, decoy), [0.0] * 4)
            for k, more in enumerate((count, 1, right, tense)):
                cell[k] += more
            count += 1
        if not count:
            return
        key = (fencer, drill)
        series = self._keys.get(key)
        if series is None:
            series = self._keys[key] = len(self._keys)
            self._series.extend((fencer, self._drills.setdefault(drill, len(self._drills))))
        gap = (day - self._last.get(series, day)) / 7
        self._last[series] = day
        lesson = len(self._lessons) // 3
        self._lessons.extend((series, gap, count))
        for (_, rung, decoy), (nth, n, *answers) in found.items():
            self._cells.extend((lesson, rung, nth / n, decoy, n, *answers))
        for rung in climbs:
            self._climbs.extend((lesson, rung))

    def cells(self) -> Cells:
        """What was gathered, in order; numbers of fencers and drills anew, without gaps."""
        series, lessons = _table(self._series, 2).astype(np.intp), _table(self._lessons, 3)
        cells, climbs = _table(self._cells, 7), _table(self._climbs, 2).astype(np.intp)
        of_lesson = lessons[:, 0].astype(np.intp)
        # a series of practice alone says nothing
        known = np.unique(of_lesson[cells[:, 0].astype(np.intp)])
        order = np.argsort(of_lesson, kind="stable")
        order = order[np.isin(of_lesson[order], known)]
        place = np.full(len(lessons), -1)
        place[order] = np.arange(len(order))
        cells[:, 0] = place[cells[:, 0].astype(np.intp)]
        cells = cells[np.argsort(cells[:, 0], kind="stable")]
        climbs[:, 0] = place[climbs[:, 0]]
        fencer, drill = (np.unique(each, return_inverse=True)[1] for each in series[known].T)
        return Cells(
            np.asarray(fencer, dtype=np.intp),
            np.asarray(drill, dtype=np.intp),
            np.searchsorted(known, of_lesson[order]),
            lessons[order, 1],
            lessons[order, 2],
            cells[:, 0].astype(np.intp),
            *_six(cells),
            climbs[climbs[:, 0] >= 0],
        )


def _six(cells: Floats) -> tuple[Floats, Floats, Floats, Floats, Floats, Floats]:
    rung, nth, decoy, n, right, tense = cells[:, 1:].T.copy()
    return rung, nth, decoy, n, right, tense


def _table(flat: array[float], width: int) -> Floats:
    return np.array(flat, dtype=np.float64).reshape(-1, width)
