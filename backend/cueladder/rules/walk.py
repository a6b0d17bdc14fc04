"""The walk of one fencer over one chart. The phone has the twin of this in walk.ts.

A walk has four phases: ``find`` (a search for the start), ``check`` (a re-check on a later day),
``train`` (the rule counts) and ``close`` (the drill is left for today, ending on sure cues). What
is in training (``work``) and its counts wait through all of them, and from lesson to lesson.
"""

from __future__ import annotations

from . import first
from .carry import carry, over
from .chart import Chart, compile_chart, meaning
from .entry import enter_later, finished, goal_of
from .errors import RuleError
from .find import search
from .find import seek as begin_search
from .mark import OUTCOMES, Given, Mark, Meaning, Move
from .said import say
from .state import Rung, Walk, changed, days_between, moved, with_rungs

__all__ = [
    "Walk",
    "compile_chart",
    "enter",
    "fresh",
    "rebase",
    "rest",
    "rungs_met",
    "seek",
    "set_place",
    "status",
    "step",
    "stop",
]


def fresh(chart: Chart) -> Walk:
    """A fencer's first time on a drill."""
    return Walk(
        chart=chart.id,
        day=None,
        place=0,
        work=0,
        phase="train",
        counters=(0,) * len(chart.counters),
        cues=0,
        check=None,
        find=None,
        rungs=(),
        met=None,
        secure=None,
        move=Move.STAY,
        why="fresh",
        was=None,
    )


def enter(chart: Chart, walk: Walk, day: str) -> Walk:
    """The first touch of a drill in a lesson.

    On the same day the walk goes on as it is. On a later day the counts keep what the chart
    leaves of them, and a re-check comes first where one is due (see `entry`).

    Args:
        chart: the chart of the walk.
        walk: the walk so far.
        day: ISO day of the lesson.
    """
    if walk.day is not None and days_between(walk.day, day) <= 0:
        return walk
    return (first.enter_later if chart.version == 1 else enter_later)(chart, walk, day)


def step(chart: Chart, walk: Walk, given: Given, mark: Mark) -> Walk:
    """One cue given and judged.

    Raises:
        RuleError: this mark cannot be given in this drill.
    """
    cell = meaning(chart, given, mark)
    if walk.phase == "close":
        cues = walk.cues + 1
        why = "done" if cues >= chart.closing else "closing"
        return changed(walk, cues=cues, move=Move.REST, why=why, was=None)
    if chart.version == 1:
        return first.step(chart, walk, cell)
    if walk.phase == "find":
        return _step_find(chart, walk, cell)
    if walk.check is not None:
        return _step_check(chart, walk, cell)
    return _step_train(chart, walk, cell)


def set_place(chart: Chart, walk: Walk, place: int) -> Walk:
    """The coach sets the rung by hand: it is trained now, from nothing.

    Nothing becomes met by it, and what was met at its height or above no longer counts as met.
    """
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
    if chart.version == 1:
        return first.set_place(chart, walk, place)
    return _start_at(chart, walk, place, "set")


def seek(chart: Chart, walk: Walk) -> Walk:
    """Begin a search for the start. The counts wait until it has placed the fencer.

    Raises:
        RuleError: the drill has no such search.
    """
    return begin_search(chart.find, walk)


def rest(chart: Chart, walk: Walk, why: str = "rested") -> Walk:
    """Leave the drill for today: closing cues on the surest rung; the counts wait.

    It is the last that held, else the last that was met, else the one below what is trained.
    """
    if chart.version == 1:
        return first.rest(chart, walk, why)
    sure = (walk.secure, walk.met, chart.places[walk.work].lower, walk.work)
    place = next(each for each in sure if each is not None)
    return moved(walk, place, "close", Move.REST, why)


def stop(chart: Chart, walk: Walk) -> Walk:
    """The fencer called stop: no more cues today, and next time one heat rung lower.

    The rung below is trained from nothing; on the lowest one the same rung is.
    """
    lower = chart.places[walk.work].back["heat"]
    trained = set_place(chart, walk, walk.work if lower is None else lower)
    return changed(rest(chart, trained, "stopped"), cues=chart.closing)


def rebase(old: Chart, new: Chart, walk: Walk) -> Walk:
    """Carry a walk over to the drill's changed chart: same rungs where they still exist."""
    if new.version == 1:
        return first.carried(new, walk, lambda place: over(old, new, place))
    return carry(old, new, walk)


def status(chart: Chart, walk: Walk) -> str | None:
    """``secure`` or ``working`` for the rung last met; None before any."""
    if walk.met is None:
        return None
    if walk.secure is None:
        return "working"
    above = chart.places[walk.secure].height >= chart.places[walk.met].height
    return "secure" if above else "working"


def rungs_met(chart: Chart, walk: Walk) -> int:
    """How many rungs were met; under version 1 all up to the highest count."""
    if chart.version == 1:
        return 0 if walk.met is None else chart.places[walk.met].height + 1
    return len(walk.rungs)


def _step_find(chart: Chart, walk: Walk, cell: Meaning) -> Walk:
    assert chart.find is not None
    found = search(chart.find, walk, cell)
    return found if isinstance(found, Walk) else _start_at(chart, walk, found, "placed")


def _start_at(chart: Chart, walk: Walk, place: int, why: str) -> Walk:
    """Train a place from nothing; only what is below it stays met."""
    height = chart.places[place].height
    begun = changed(moved(walk, place, "train", Move.STAY, why), work=place)
    begun = changed(begun, counters=(0,) * len(chart.counters))
    return with_rungs(begun, tuple(r for r in walk.rungs if chart.places[r.place].height < height))


def _step_check(chart: Chart, walk: Walk, cell: Meaning) -> Walk:
    assert walk.check is not None
    k, state = walk.check
    nxt, move = chart.check.rows[state][OUTCOMES.index(cell.outcome)]
    if move is Move.STAY:
        if walk.cues + 1 >= chart.cap:
            return rest(chart, walk, "cap")
        why = cell.say if nxt == state else "check"
        return changed(walk, check=(k, nxt), cues=walk.cues + 1, move=move, why=why, was=None)
    if move is Move.BACK:
        return _fail(chart, walk, cell)
    rungs = tuple(_held(r, walk.day) if r.place == walk.place else r for r in walk.rungs)
    # what is checked after a long break need not have been met
    why = "sure" if rungs == walk.rungs else "held"
    held = with_rungs(walk, rungs)
    if k > 0:
        goal, _ = goal_of(chart, walk)
        assert goal is not None
        onward = moved(held, chart.places[goal].descent[k - 1], "check", Move.CLIMB, why)
        return changed(onward, check=(k - 1, 0))
    if finished(chart, walk.counters):
        return rest(chart, held, "top")
    return moved(held, walk.work, "train", Move.CLIMB, why)


def _held(rung: Rung, day: str | None) -> Rung:
    return Rung(rung.place, rung.holds + 1, day)


def _fail(chart: Chart, walk: Walk, cell: Meaning) -> Walk:
    """A failed re-check: the rung is in training again, and what is above it no longer met.

    It stays met, though it has not held; its count is what a slip leaves of a finished one.
    """
    here, height = walk.place, chart.places[walk.place].height
    below = tuple(r for r in walk.rungs if chart.places[r.place].height <= height)
    again = tuple(r._replace(holds=0) if r.place == here else r for r in below)
    counters = [0] * len(chart.counters)
    if any(rung.place == here for rung in again):
        counters = [chart.table.ready] * len(counters)
        ready = chart.table.rows[chart.table.ready]
        counters[cell.counter] = ready[OUTCOMES.index(cell.outcome)][0]
    trained = changed(moved(walk, here, "train", Move.STAY, "failed"), work=here)
    return with_rungs(changed(trained, counters=tuple(counters)), again)


def _step_train(chart: Chart, walk: Walk, cell: Meaning) -> Walk:
    table, k = chart.table, cell.counter
    nxt, move = table.rows[walk.counters[k]][OUTCOMES.index(cell.outcome)]
    counted = changed(walk, counters=(*walk.counters[:k], nxt, *walk.counters[k + 1 :]))
    done = finished(chart, counted.counters)
    if done and not finished(chart, walk.counters):
        return _meet(chart, counted)
    if move is Move.BACK and cell.remedy is not None:
        to = chart.places[walk.place].back[cell.remedy]
        if to is not None:
            return _back(chart, walk, to, cell.back or cell.say)
    if walk.cues + 1 >= chart.cap:
        return rest(chart, counted, "cap")
    why = cell.say
    if move is Move.BACK:
        why = f"bottom_{cell.remedy}"
    elif nxt == table.ready and not done:
        why = "waits"
    return changed(counted, cues=walk.cues + 1, move=Move.STAY, why=why, was=None)


def _meet(chart: Chart, walk: Walk) -> Walk:
    """The rule is met: one step on, or at the top the drill is left on this success."""
    here = chart.places[walk.work]
    holds = next((rung.holds for rung in walk.rungs if rung.place == walk.work), 0)
    below = tuple(r for r in walk.rungs if chart.places[r.place].height < here.height)
    met = with_rungs(walk, (*below, Rung(walk.work, holds, walk.day)))
    if here.climb is None:
        return rest(chart, met, "top")
    onward = changed(moved(met, here.climb, "train", Move.CLIMB, "climb"), work=here.climb)
    return changed(onward, counters=(0,) * len(walk.counters))


def _back(chart: Chart, walk: Walk, to: int, why: str) -> Walk:
    """One rung back; what is above it no longer counts as met."""
    height = chart.places[to].height
    trained = changed(moved(walk, to, "train", Move.BACK, why), work=to)
    trained = changed(trained, counters=(chart.back,) * len(walk.counters))
    return with_rungs(
        trained, tuple(r for r in walk.rungs if chart.places[r.place].height <= height)
    )
