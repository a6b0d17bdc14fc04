"""The walk of one fencer over one chart. The phone has the twin of this in walk.ts.

A walk has three phases: ``check`` (a re-check on a later day), ``train`` (the rule counts) and
``close`` (the drill is left for today, ending on sure cues).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from .chart import Chart, meaning
from .errors import RuleError
from .mark import OUTCOMES, Given, Mark, Meaning, Move
from .said import say


@dataclass(frozen=True)
class Walk:
    """Where one fencer is on one drill.

    Attributes:
        chart: id of the chart the indices below belong to.
        day: ISO day the drill was last worked, or None.
        place: place to give now.
        phase: ``train``, ``check`` or ``close``.
        counters: table state of each counter.
        cues: cues at this place without a decision.
        check: (index in the descent from ``met``, check state) during a re-check.
        met: highest place whose rule was met, or None.
        secure: highest place that held on a later day, or None.
        move: the last move.
        why: the reason for it, a key of the chart's words.
        was: place before the last move, or None where nothing led here.
    """

    chart: str
    day: str | None
    place: int
    phase: str
    counters: tuple[int, ...]
    cues: int
    check: tuple[int, int] | None
    met: int | None
    secure: int | None
    move: Move
    why: str
    was: int | None

    def to_json(self) -> dict[str, Any]:
        """The walk as data."""
        return {
            **self.__dict__,
            "counters": list(self.counters),
            "check": list(self.check) if self.check else None,
            "move": self.move.value,
        }

    @classmethod
    def from_json(cls, doc: Mapping[str, Any]) -> Walk:
        """Read a walk back."""
        check = (doc["check"][0], doc["check"][1]) if doc["check"] else None
        return cls(
            **{
                **doc,
                "counters": tuple(doc["counters"]),
                "check": check,
                "move": Move(doc["move"]),
            }
        )


def fresh(chart: Chart) -> Walk:
    """A fencer's first time on a drill."""
    zeros = (0,) * len(chart.counters)
    return Walk(chart.id, None, 0, "train", zeros, 0, None, None, None, Move.STAY, "fresh", None)


def enter(chart: Chart, walk: Walk, day: str) -> Walk:
    """The first touch of a drill in a lesson.

    On the same day the walk goes on as it is. On a later day a re-check of the rung last met
    comes first, lower after a longer break (the chart's re-entry table).

    Args:
        chart: the chart of the walk.
        walk: the walk so far.
        day: ISO day of the lesson.
    """
    days = _days(walk.day, day)
    if walk.day is not None and days <= 0:
        return walk
    if walk.met is None:
        return _count(chart, walk, 0, Move.STAY, walk.why if walk.day is None else "pass", day=day)
    row = next(k for k, (most, _) in enumerate(chart.reentry) if most is None or days <= most)
    goal = chart.places[walk.met]
    k = goal.entry[row]
    return _with(
        _count(chart, walk, goal.descent[k], Move.STAY, "check", day=day),
        phase="check",
        check=(k, 0),
    )


def step(chart: Chart, walk: Walk, given: Given, mark: Mark) -> Walk:
    """One cue given and judged.

    Raises:
        RuleError: this mark cannot be given in this drill.
    """
    cell = meaning(chart, given, mark)
    if walk.phase == "close":
        cues = walk.cues + 1
        why = "done" if cues >= chart.closing else "closing"
        return _with(walk, cues=cues, move=Move.REST, why=why, was=None)
    if walk.check is not None:
        return _step_check(chart, walk, cell)
    return _step_train(chart, walk, cell)


def set_place(chart: Chart, walk: Walk, place: int) -> Walk:
    """The coach sets the rung by hand: it is trained now, and the one below counts as met."""
    if not 0 <= place < len(chart.places):
        raise RuleError(
            "place",
            say(
                "should be between %(low)s and %(high)s, not %(value)s",
                low=0,
                high=len(chart.places) - 1,
                value=place,
            ),
        )
    below = chart.places[place].lower
    moved = _count(chart, walk, place, Move.STAY, "set", met=below)
    return _with(moved, secure=_lower_than(chart, walk.secure, below, keep=True))


def rest(chart: Chart, walk: Walk, why: str = "rested") -> Walk:
    """Leave the drill for today: closing cues on the last secure rung, else the last met."""
    sure = walk.secure if walk.secure is not None else walk.met
    place = sure if sure is not None else 0
    moved = _count(chart, walk, place, Move.REST, why)
    return _with(moved, phase="close")


def rebase(old: Chart, new: Chart, walk: Walk) -> Walk:
    """Carry a walk over to the drill's changed chart: same rungs where they still exist."""

    def over(place: int | None) -> int | None:
        if place is None:
            return None
        was = old.places[place]
        return max(
            range(len(new.places)),
            key=lambda q: (
                (new.places[q].read or 0) <= (was.read or 0)
                and (new.places[q].heat or 0) <= (was.heat or 0),
                new.places[q].height,
            ),
        )

    place = over(walk.place) or 0
    moved = _with(walk, chart=new.id, met=over(walk.met), secure=over(walk.secure))
    return _count(new, moved, place, Move.STAY, "set")


def status(chart: Chart, walk: Walk) -> str | None:
    """``secure`` or ``working`` for the rung last met; None before any."""
    if walk.met is None:
        return None
    if walk.secure is None:
        return "working"
    above = chart.places[walk.secure].height >= chart.places[walk.met].height
    return "secure" if above else "working"


def _step_check(chart: Chart, walk: Walk, cell: Meaning) -> Walk:
    assert walk.check is not None and walk.met is not None
    k, state = walk.check
    nxt, move = chart.check.rows[state][OUTCOMES.index(cell.outcome)]
    if move is Move.STAY:
        return _with(walk, check=(k, nxt), cues=walk.cues + 1, move=move, why="check", was=None)
    here = chart.places[walk.place]
    if move is Move.BACK:
        to = here.back[cell.remedy] if cell.remedy else None
        to = to if to is not None else here.lower
        to = walk.place if to is None else to
        moved = _count(
            chart, walk, to, Move.STAY if to == walk.place else Move.BACK, "failed", met=to
        )
        return _with(moved, secure=_lower_than(chart, walk.secure, to))
    if k > 0:
        to = chart.places[walk.met].descent[k - 1]
        moved = _count(chart, walk, to, Move.CLIMB, "held")
        return _with(moved, secure=walk.place, phase="check", check=(k - 1, 0))
    held = _with(walk, secure=walk.place)
    if here.climb is None:
        return rest(chart, held, "top")
    return _count(chart, held, here.climb, Move.CLIMB, "held")


def _step_train(chart: Chart, walk: Walk, cell: Meaning) -> Walk:
    table = chart.table
    nxt, move = table.rows[walk.counters[cell.counter]][OUTCOMES.index(cell.outcome)]
    k = cell.counter
    counters = (*walk.counters[:k], nxt, *walk.counters[k + 1 :])
    here = chart.places[walk.place]
    if counters.count(table.ready) == len(counters):
        met = _with(walk, met=walk.place)
        if here.climb is None:
            return rest(chart, met, "top")
        return _count(chart, met, here.climb, Move.CLIMB, "climb")
    if move is Move.BACK and cell.remedy is not None:
        to = here.back[cell.remedy]
        if to is None:
            return _count(chart, walk, walk.place, Move.STAY, f"bottom_{cell.remedy}")
        why = (
            "back_early" if cell.say == "early" and cell.remedy == "read" else f"back_{cell.remedy}"
        )
        moved = _count(chart, walk, to, Move.BACK, why)
        return _no_higher(chart, moved)
    if walk.cues + 1 >= chart.cap:
        return rest(chart, walk, "cap")
    why = "waits" if nxt == table.ready else cell.say
    return _with(walk, counters=counters, cues=walk.cues + 1, move=Move.STAY, why=why, was=None)


def _count(chart: Chart, walk: Walk, place: int, move: Move, why: str, **changes: Any) -> Walk:
    """Start a fresh count at a place."""
    return _with(
        walk,
        place=place,
        phase="train",
        counters=(0,) * len(chart.counters),
        cues=0,
        check=None,
        move=move,
        why=why,
        was=walk.place if place != walk.place else None,
        **changes,
    )


def _with(walk: Walk, **changes: Any) -> Walk:
    """The walk with some attributes changed: what `dataclasses.replace` does, five times as fast.

    It is done at every cue of every fold; a name that is no attribute would be kept unnoticed.
    """
    changed = object.__new__(Walk)
    changed.__dict__.update(walk.__dict__)
    changed.__dict__.update(changes)
    return changed


def _no_higher(chart: Chart, walk: Walk) -> Walk:
    """After a step back nothing above the new place counts as met any more."""
    if walk.met is None or chart.places[walk.met].height <= chart.places[walk.place].height:
        return walk
    return _with(walk, met=walk.place, secure=_lower_than(chart, walk.secure, walk.place))


def _lower_than(
    chart: Chart, secure: int | None, place: int | None, keep: bool = False
) -> int | None:
    """``secure`` if it is lower than the place (or at it, with ``keep``), else the one below it."""
    if secure is None or place is None:
        return None
    height, limit = chart.places[secure].height, chart.places[place].height
    if height < limit or (keep and height == limit):
        return secure
    return place if keep else chart.places[place].lower


def _days(old: str | None, new: str) -> int:
    return (date.fromisoformat(new) - date.fromisoformat(old)).days if old else 0
