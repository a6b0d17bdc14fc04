"""Carry a walk over to the drill's changed chart: same rungs where they still exist."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .chart import Chart
from .entry import finished
from .mark import Move
from .place import same_rung
from .state import Rung, Walk, changed, moved, with_rungs


def carry(old: Chart, new: Chart, walk: Walk) -> Walk:
    """The walk on a new chart: what was met stays met, and training goes on where it was.

    The counts go on where the rung has the same words and the rule the same table; else they
    begin anew.
    """
    was = _first(old, walk) if old.version == 1 else walk
    work = over(old, new, was.work)
    same = old.table == new.table and _words(old, was.work) == _words(new, work)
    counters = was.counters if same else (0,) * len(new.counters)
    rungs = _over_all(old, new, was.rungs, work)
    done = finished(old, was.counters)
    if done:
        counters = (new.table.ready,) * len(new.counters)
        climb = new.places[work].climb
        if climb is not None:
            work, counters = climb, (0,) * len(counters)
    begun = changed(was, chart=new.id, work=work, counters=counters)
    return with_rungs(changed(moved(begun, work, "train", Move.STAY, "changed"), was=None), rungs)


def over(old: Chart, new: Chart, place: int) -> int:
    """The place of a changed chart where a place of the old one goes on."""
    was = old.places[place]
    here = (_rung(old, new, "read", was.read), _rung(old, new, "heat", was.heat))
    return next(q for q, one in enumerate(new.places) if (one.read, one.heat) == here)


def _rung(old: Chart, new: Chart, family: str, rung: int | None) -> int | None:
    ladder, before = new.ladders[family], old.ladders[family]
    if ladder is None or before is None or rung is None:
        return None if ladder is None else 0
    return same_rung(_labels(before), _labels(ladder), rung)


def _over_all(old: Chart, new: Chart, rungs: tuple[Rung, ...], work: int) -> tuple[Rung, ...]:
    """The rungs met, on the new chart: one of each height, none above what is trained."""
    kept: dict[int, Rung] = {}
    for rung in rungs:
        there = rung._replace(place=over(old, new, rung.place))
        height = new.places[there.place].height
        if height in kept:
            there = there._replace(holds=min(there.holds, kept[height].holds))
        if height <= new.places[work].height:
            kept[height] = there
    return tuple(kept[height] for height in sorted(kept))


def _first(chart: Chart, walk: Walk) -> Walk:
    """A walk of version 1 in the form of today: all it took for met, with what it trained."""
    if walk.met is None:
        return with_rungs(changed(walk, work=walk.place if walk.phase == "train" else 0), ())
    places = chart.places
    secure = places[walk.secure].descent if walk.secure is not None else ()
    held = places[walk.secure].height if walk.secure is not None else -1
    above = [place for place in places[walk.met].descent if places[place].height > held]
    rungs = [Rung(place, 1, walk.day) for place in reversed(secure)]
    rungs += [Rung(place, 0, walk.day) for place in reversed(above)]
    ahead = places[walk.met].climb
    counters = walk.counters
    if walk.phase == "train":
        work = walk.place
    elif ahead is None:
        work, counters = walk.met, (chart.table.ready,) * len(counters)
    else:
        work = ahead
    return with_rungs(changed(walk, work=work, counters=counters), tuple(rungs))


def _words(chart: Chart, place: int) -> list[str]:
    here = chart.places[place]
    return [
        _labels(ladder)[rung]
        for ladder, rung in ((chart.ladders["read"], here.read), (chart.ladders["heat"], here.heat))
        if ladder is not None and rung is not None
    ]


def _labels(ladder: Mapping[str, Any]) -> list[str]:
    return [rung["label"] for rung in ladder["rungs"]]
