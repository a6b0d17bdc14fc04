"""Bouts: what may be sent of one, and its record."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ...rules.said import say
from .known import Known
from .schemas import Why

COUNTS = ("met", "answered", "shown", "fallen", "scored", "conceded")
# (part, whole): of the real ones met so many were answered, of the feints shown so many fallen for
PARTS = (("answered", "met"), ("fallen", "shown"))


def why_no_bout(known: Known, event: Mapping[str, Any]) -> Why | None:
    """Why a bout's counts cannot be, or None."""
    for part, whole in PARTS:
        if event[part] > event[whole]:
            most = event[whole]
            return {part: [say("should be at most %(most)s: no more than there were", most=most)]}
    return None


def bout_row(said: Mapping[str, Any], at: str) -> dict[str, Any]:
    """A bout's own columns, from its last telling."""
    return {"watched_at": at, **{name: said[name] for name in COUNTS}}
