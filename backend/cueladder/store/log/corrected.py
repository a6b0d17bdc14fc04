"""What stands of a lesson's cues once slips and corrections are in; the phone does the same.

A void says that a cue was not given: it takes the cue out, whatever was said of it later. It takes
back a rung set by hand, a search begun and a drill left for the day, too.

A correction is a mark with ``instead_of``: it judges anew what another mark judged, at that mark's
place. Corrections of corrections go on from each other; where two devices correct the same mark
apart, the last in the order of the lesson counts. A correction whose mark has not arrived yet
stands in its own place until it does.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, Protocol, TypeVar


class Kept(Protocol):
    """What is read of an event."""

    id: str
    type: str
    payload: Mapping[str, Any]


E = TypeVar("E", bound=Kept)


def corrected(events: Iterable[E], voided: set[str]) -> list[E]:
    """Each cue once, as it was last judged, at the place where it was first marked.

    Args:
        events: one coach's events of one drill that are walked, in order.
        voided: ids of events taken back.
    """
    ordered = list(events)
    anew: dict[str, list[E]] = {}
    for event in ordered:
        was = event.payload.get("instead_of")
        if was is not None:
            anew.setdefault(was, []).append(event)
    if not anew:
        return [event for event in ordered if event.id not in voided]
    there = {event.id for event in ordered}
    kept = []
    for event in ordered:
        first = event.payload.get("instead_of", event.id)
        if first != event.id and (first in there or anew[first][-1] is not event):
            continue
        if not voided.isdisjoint(_said_of(first, anew)):
            continue
        kept.append(_last(event, anew))
    return kept


def _said_of(first: str, anew: Mapping[str, list[E]]) -> list[str]:
    """Ids of all marks of one cue."""
    found = [first]
    for known in found:
        found.extend(event.id for event in anew.get(known, ()))
    return found


def _last(event: E, anew: Mapping[str, list[E]]) -> E:
    while event.id in anew:
        event = anew[event.id][-1]
    return event


def numbers_of(events: Iterable[Kept]) -> dict[str, int]:
    """The number of each cue of one coach on one drill, by the id of each of its marks.

    A cue's number is one more than the highest number that stands as it is marked, so that a mark
    taken back at once leaves its number to the next, and one taken back later leaves a gap. The
    coach's screen counts so, and a second person marks by these numbers. A mark that corrects one
    not among the events has none.

    Args:
        events: the coach's marks of the drill, and marks taken back, in order.
    """
    numbers: dict[str, int] = {}
    standing: dict[str, int] = {}
    first: dict[str, str] = {}
    for event in events:
        if event.type == "mark_voided":
            mark = event.payload["mark"]
            standing.pop(first.get(mark, mark), None)
        elif event.type != "cue_marked":
            continue
        elif (was := event.payload.get("instead_of")) is not None:
            first[event.id] = first.get(was, was)
        else:
            numbers[event.id] = standing[event.id] = 1 + max(standing.values(), default=0)
    return numbers | {mark: numbers[was] for mark, was in first.items() if was in numbers}
