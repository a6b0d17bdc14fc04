"""Bringing in many events at once, by the same checks and the same fold as a push."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import islice
from typing import Any

from ..db.models import Club
from ..problems import Refused
from .ingest import take_in

BATCH = 4000


def import_events(club: Club, events: Iterable[Mapping[str, Any]], batch: int = BATCH) -> int:
    """Store events of any coach of the club; returns how many were new.

    Give them in the order in which they happened: a late lesson is folded again with all after it.

    Raises:
        Refused: an event cannot be stored; batches before it stay.
    """
    stored = 0
    for some in _batches(iter(events), batch):
        taken = take_in(club.id, some)
        for result in taken.results:
            if result["status"] == "refused":
                raise Refused(f"event {result['id']}: {result['why']}")
            stored += result["status"] == "stored"
    return stored


def _batches(events: Iterator[Mapping[str, Any]], size: int) -> Iterator[list[Any]]:
    while some := list(islice(events, size)):
        yield some
