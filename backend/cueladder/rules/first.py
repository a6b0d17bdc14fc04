"""The walk over charts of version 1, kept as it was: lessons marked by them keep their meaning.

Every lesson began with a re-check, counts began anew, a failed re-check led one rung back, and a
rung set by hand counted the one below as met. Nothing new goes here.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from .chart import Chart
from .mark import OUTCOMES, Meaning, Move
from .state import Walk, changed, days_between


def enter_later(chart: Chart, walk: Walk, day: str) -> Walk:
    """A re-check of the rung last met comes first, lower after a longer break."""
    days = days_between(walk.day, day)
    if walk.met is None:
        return _count(chart, walk, 0, Move.STAY, walk.why if walk.day is None else "pass", day=day)
    row = next(k for k, (most, _) in enumerate(chart.reentry) if most is None or days <= most)
    goal = chart.places[walk.met]
    k = goal.entry[row]
    return changed(
        _count(chart, walk, goal.descent[k], Move.STAY, "check", day=day),
        phase="check",
        check=(k, 0),
    )


def step(chart: Chart, walk: Walk, cell: Meaning) -> Walk:
    """One cue of a re-check or of training."""
    if walk.check is not None:
        return _step_check(chart, walk, cell)
    return _step_train(chart, walk, cell)


def set_place(chart: Chart, walk: Walk, place: int) -> Walk:
    """The coach sets the rung by hand: it is trained now, and the one below counts as met."""
    below = chart.places[place].lower
    moved = _count(chart, walk, place, Move.STAY, "set", met=below)
    return changed(moved, secure=_lower_than(chart, walk.secure, below, keep=True))


def rest(chart: Chart, walk: Walk, why: str = "rested") -> Walk:
    """Leave the drill for today: closing cues on the last secure rung, else the last met."""
    sure = walk.secure if walk.secure is not None else walk.met
    place = sure if sure is not None else 0
    moved = _count(chart, walk, place, Move.REST, why)
    return changed(moved, phase="close")


def carried(chart: Chart, walk: Walk, over: Callable[[int], int]) -> Walk:
    """A walk over another chart, taken on by this one: ``over`` says where each place is now."""

    def there(place: int | None) -> int | None:
        return None if place is None else over(place)

    begun = _count(chart, walk, over(walk.place), Move.STAY, "set", rungs=(), was=None)
    return changed(begun, chart=chart.id, met=there(walk.met), secure=there(walk.secure))


def _step_check(chart: Chart, walk: Walk, cell: Meaning) -> Walk:
    assert walk.check is not None and walk.met is not None
    k, state = walk.check
    nxt, move = chart.check.rows[state][OUTCOMES.index(cell.outcome)]
    if move is Move.STAY:
        return changed(walk, check=(k, nxt), cues=walk.cues + 1, move=move, why="check", was=None)
    here = chart.places[walk.place]
    if move is Move.BACK:
        to = here.back[cell.remedy] if cell.remedy else None
        to = to if to is not None else here.lower
        to = walk.place if to is None else to
        moved = _count(
            chart, walk, to, Move.STAY if to == walk.place else Move.BACK, "failed", met=to
        )
        return changed(moved, secure=_lower_than(chart, walk.secure, to))
    if k > 0:
        to = chart.places[walk.met].descent[k - 1]
        moved = _count(chart, walk, to, Move.CLIMB, "held")
        return changed(moved, secure=walk.place, phase="check", check=(k - 1, 0))
    held = changed(walk, secure=walk.place)
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
        met = changed(walk, met=walk.place)
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
    return changed(walk, counters=counters, cues=walk.cues + 1, move=Move.STAY, why=why, was=None)


def _count(chart: Chart, walk: Walk, place: int, move: Move, why: str, **changes: Any) -> Walk:
    """Start a fresh count at a place."""
    begun = changed(
        walk,
        place=place,
        work=place,
        phase="train",
        counters=(0,) * len(chart.counters),
        cues=0,
        check=None,
        find=None,
        move=move,
        why=why,
        was=walk.place if place != walk.place else None,
    )
    return changed(begun, **changes) if changes else begun


def _no_higher(chart: Chart, walk: Walk) -> Walk:
    """After a step back nothing above the new place counts as met any more."""
    if walk.met is None or chart.places[walk.met].height <= chart.places[walk.place].height:
        return walk
    return changed(walk, met=walk.place, secure=_lower_than(chart, walk.secure, walk.place))


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
