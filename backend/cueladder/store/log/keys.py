"""What a batch of events hangs on: lessons, what stands outside them, and what is stored."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple


@dataclass(frozen=True)
class LessonKey:
    """A lesson: whose, by whom, its place in the order, and whether its day is to be settled."""

    id: str
    fencer: str
    coach: str
    day: str
    opened_at: str
    held: bool = False

    @property
    def order(self) -> tuple[str, str, str]:
        """Lessons are folded in this order."""
        return (self.day, self.opened_at, self.id)


class Stored(NamedTuple):
    """An event that is there already, as far as another may name it."""

    type: str
    lesson: str
    coach: str
    drill: str | None

    @classmethod
    def of(cls, event: Mapping[str, Any]) -> Stored:
        """Of an event as it was sent."""
        return cls(event["type"], event["lesson"], event["coach"], event.get("drill"))


class OutsideKey(NamedTuple):
    """A bout, or a set given by a partner: whose, told by whom, and by which type of event."""

    id: str
    fencer: str
    coach: str
    told: str
