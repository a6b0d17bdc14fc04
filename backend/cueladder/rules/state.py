"""Where one fencer is on one drill, as data."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any, NamedTuple

from .mark import Move


class Rung(NamedTuple):
    """A place whose rule was met.

    Attributes:
        place: the place.
        holds: later days on which it held.
        day: ISO day on which it was met or last held; None where the lesson had no day.
    """

    place: int
    holds: int
    day: str | None


@dataclass(frozen=True)
class Walk:
    """Where one fencer is on one drill.

    Attributes:
        chart: id of the chart the indices below belong to.
        day: ISO day the drill was last worked, or None.
        place: place to give now.
        work: place in training, to which the counters belong.
        phase: ``find``, ``train``, ``check`` or ``close``.
        counters: table state of each counter; they wait through a re-check, and over the days.
        cues: cues at this place without a decision in this lesson.
        check: during a re-check (index in the descent from its goal, check state).
        find: during a search for the start, its state.
        rungs: the rungs met, at most one of each height, lowest first. A rung set by hand or
            placed by a search is not among them until its rule is met. Empty in walks of
            version 1, which kept ``met`` and ``secure`` alone.
        met: the highest of them, or None.
        secure: the highest of them that has held, or None.
        move: the last move.
        why: the reason for it, a key of the chart's words.
        was: place before the last move, or None where nothing led here.
    """

    chart: str
    day: str | None
    place: int
    work: int
    phase: str
    counters: tuple[int, ...]
    cues: int
    check: tuple[int, int] | None
    find: int | None
    rungs: tuple[Rung, ...]
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
            "rungs": [list(rung) for rung in self.rungs],
            "move": self.move.value,
        }

    @classmethod
    def from_json(cls, doc: Mapping[str, Any]) -> Walk:
        """Read a walk back; one stored by version 1 lacks some of it."""
        check = (doc["check"][0], doc["check"][1]) if doc["check"] else None
        return cls(
            **{
                **doc,
                "work": doc.get("work", doc["place"]),
                "counters": tuple(doc["counters"]),
                "check": check,
                "find": doc.get("find"),
                "rungs": tuple(Rung(*rung) for rung in doc.get("rungs", ())),
                "move": Move(doc["move"]),
            }
        )


def changed(walk: Walk, **changes: Any) -> Walk:
    """The walk with some attributes changed: what `dataclasses.replace` does, five times as fast.

    It is done at every cue of every fold; a name that is no attribute would be kept unnoticed.
    """
    after = object.__new__(Walk)
    after.__dict__.update(walk.__dict__)
    after.__dict__.update(changes)
    return after


def with_rungs(walk: Walk, rungs: tuple[Rung, ...]) -> Walk:
    """The walk with these rungs met, lowest first."""
    held = [rung.place for rung in rungs if rung.holds > 0]
    return changed(
        walk,
        rungs=rungs,
        met=rungs[-1].place if rungs else None,
        secure=held[-1] if held else None,
    )


def moved(walk: Walk, place: int, phase: str, move: Move, why: str) -> Walk:
    """The walk at a place, at the first cue of a phase."""
    return changed(
        walk,
        place=place,
        phase=phase,
        cues=0,
        check=None,
        find=None,
        move=move,
        why=why,
        was=walk.place if place != walk.place else None,
    )


def days_between(old: str | None, new: str | None) -> int:
    """Days from one ISO day to another; 0 where one is not known."""
    if old is None or new is None:
        return 0
    return (date.fromisoformat(new) - date.fromisoformat(old)).days
