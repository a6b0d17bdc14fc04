"""Sets that another fencer gave: what may be sent of one, and its record."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ...rules.said import say
from .charts import chart_of
from .known import Known, why_no_chart, why_no_place
from .schemas import Why

TOLD = ("chart", "place", "card", "cues", "ticks")


def why_no_set(known: Known, event: Mapping[str, Any]) -> Why | None:
    """Why a partner's ticks cannot be, or None."""
    if event["chart"] not in known.charts[event["drill"]]:
        return why_no_chart(event["chart"])
    if why := why_no_place(chart_of(event["chart"]), event["place"]):
        return why
    if len(event["ticks"]) != len(event["cues"]):
        count = len(event["cues"])
        return {"ticks": [say("should be as many as the cues: %(count)s", count=count)]}
    return None


def set_row(said: Mapping[str, Any], at: str) -> dict[str, Any]:
    """A set's own columns, from its last telling."""
    return {"entered_at": at, **{name: said[name] for name in TOLD}}
