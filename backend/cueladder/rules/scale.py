"""Scales: one dimension of a cue, its grades in plain words, in order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from .errors import RuleError, need
from .said import later, say

# Answer: how small, and how late, the fencer's answer has to be to count.
READ_SCALES = ("size", "speed", "warning", "distance", "answer")
HEAT_SCALES = ("force", "suddenness", "voice", "stamp", "pressure", "stakes")
# Heard or felt by the whole hall: given only to a fencer whose consent to it is noted.
NOISE_SCALES = ("voice", "stamp")
FAMILIES = {"read": READ_SCALES, "heat": HEAT_SCALES}
NAMES = {
    "size": later("Size"),
    "speed": later("Speed"),
    "warning": later("Warning"),
    "distance": later("Distance"),
    "answer": later("Size of the answer"),
    "force": later("Force"),
    "suddenness": later("Suddenness"),
    "voice": later("Voice"),
    "stamp": later("Stamp"),
    "pressure": later("Pressure"),
    "stakes": later("Stakes"),
}


@dataclass(frozen=True)
class Scale:
    """A scale of a drill.

    Attributes:
        name: one of READ_SCALES or HEAT_SCALES.
        family: ``read`` (plain to subtle) or ``heat`` (mild to fierce).
        grades: the grades' words, in order.
        takes: for each grade the ms it adds to the time from the first sign of the cue until it
            arrives (None: no limit); empty where the scale has no say in it.
        gone: for each grade the share of that time that is over before the cue can be told.
        answer: for each grade the ms it adds to what the fencer's answer takes.
    """

    name: str
    family: str
    grades: tuple[str, ...]
    takes: tuple[int | None, ...] = ()
    gone: tuple[float, ...] = ()
    answer: tuple[int, ...] = ()

    @classmethod
    def from_json(cls, name: str, doc: Mapping[str, Any]) -> Scale:
        """Read a scale; raises RuleError naming the field."""
        at = f"scales.{name}"
        family = need(doc, "family", str, at)
        if family not in FAMILIES:
            raise RuleError(f"{at}.family", say("should be 'read' or 'heat'"))
        if name not in FAMILIES[family]:
            raise RuleError(
                at,
                say(
                    "a %(family)s scale is one of %(able)s",
                    family=family,
                    able=", ".join(FAMILIES[family]),
                ),
            )
        grades = need(doc, "grades", list, at)
        if len(grades) < 2:
            raise RuleError(f"{at}.grades", say("needs at least two grades"))
        if any(not isinstance(g, str) or not g.strip() for g in grades):
            raise RuleError(f"{at}.grades", say("every grade should be a few plain words"))
        if len(set(grades)) != len(grades):
            raise RuleError(f"{at}.grades", say("two grades have the same words: tell them apart"))
        return cls(
            name,
            family,
            tuple(grades),
            _times(doc, at, "takes", (int, type(None)), -10_000, 10_000),
            _times(doc, at, "gone", (int, float), 0, 0.9),
            _times(doc, at, "answer", (int,), -10_000, 10_000),
        )


def _times(
    doc: Mapping[str, Any], at: str, field: str, kinds: tuple[type, ...], low: float, high: float
) -> tuple[Any, ...]:
    """One number for each grade, or nothing at all."""
    if doc.get(field) is None:
        return ()
    numbers = need(doc, field, list, at)
    if len(numbers) != len(doc["grades"]):
        raise RuleError(f"{at}.{field}", say("needs one number for each grade"))
    for number in numbers:
        fits = isinstance(number, kinds) and not isinstance(number, bool)
        if not fits or (number is not None and not low <= number <= high):
            raise RuleError(
                f"{at}.{field}",
                say("every number should be between %(low)s and %(high)s", low=low, high=high),
            )
    return tuple(numbers)
