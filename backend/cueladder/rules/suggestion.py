"""What to give now, in words: the cue, what changed, why, and how far."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from .chart import Chart
from .mark import Move
from .place import Place
from .said import Said, joined, written
from .walk import Walk


@dataclass(frozen=True)
class Progress:
    """How far a count has come: ``have`` of ``need``; ``of`` names the count."""

    of: str
    have: int
    need: int


@dataclass(frozen=True)
class Suggestion:
    """The screen of a walk.

    Attributes:
        cue: for each ladder of the drill the rung to give, in words.
        changed: what differs from the last cue, or an empty text.
        why: a key of the chart's ``words.why``.
        progress: one count, or two in discrimination.
    """

    place: int
    phase: str
    move: Move
    cue: tuple[str, ...]
    changed: str
    why: str
    progress: tuple[Progress, ...]

    def to_json(self) -> dict[str, Any]:
        """The suggestion as data."""
        return {
            **self.__dict__,
            "move": self.move.value,
            "progress": tuple(dict(count.__dict__) for count in self.progress),
        }


def suggestion(chart: Chart, walk: Walk) -> Suggestion:
    """The suggestion for a walk; everything it says is looked up in the chart."""
    return Suggestion(
        walk.place,
        walk.phase,
        walk.move,
        cue(chart, walk.place),
        _changed(chart, walk.was, walk.place),
        walk.why,
        _progress(chart, walk),
    )


def cue(chart: Chart, place: int) -> tuple[str, ...]:
    """The rung to give on each ladder of the drill, in words."""
    return tuple(rung["label"] for rung in rungs_at(chart, place))


def rungs_at(chart: Chart, place: int) -> tuple[dict[str, Any], ...]:
    """The rung of each ladder of the drill at a place, as the chart has it."""
    here = chart.places[place]
    return tuple(
        ladder["rungs"][rung]
        for ladder, rung in (
            (chart.ladders["read"], here.read),
            (chart.ladders["heat"], here.heat),
        )
        if ladder is not None and rung is not None
    )


def rung_text(rung: Mapping[str, Any]) -> Said:
    """A chart's rung in words, to be told in the reader's language."""
    return joined([written(grade) for grade in rung["grades"].values()], " · ")


def _changed(chart: Chart, was: int | None, place: int) -> str:
    """The words of the one grade that changed; empty where more than one rung lies between."""
    if was is None:
        return ""
    old, new = chart.places[was], chart.places[place]
    if not _neighbours(old, new):
        return ""
    family, rung = ("read", new.read) if new.read != old.read else ("heat", new.heat)
    ladder = chart.ladders[family]
    return str(ladder["up" if new.height > old.height else "down"][rung]) if ladder else ""


def _neighbours(old: Place, new: Place) -> bool:
    """Whether two places are one rung apart on one ladder."""
    apart = abs((new.read or 0) - (old.read or 0)) + abs((new.heat or 0) - (old.heat or 0))
    return apart == 1


def _progress(chart: Chart, walk: Walk) -> tuple[Progress, ...]:
    if walk.phase == "close":
        return (Progress("closing", min(walk.cues, chart.closing), chart.closing),)
    if walk.find is not None and chart.find is not None:
        return (Progress("find", min(walk.cues, chart.find.most), chart.find.most),)
    if walk.check is not None:
        return (Progress("check", *chart.check.progress[walk.check[1]]),)
    return tuple(
        Progress(name, *chart.table.progress[state])
        for name, state in zip(chart.counters, walk.counters, strict=True)
    )
