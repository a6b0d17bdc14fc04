"""Scales: one dimension of a cue, its grades in plain words, in order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from .errors import RuleError, need
from .said import say

READ_SCALES = ("size", "speed", "warning", "distance")
HEAT_SCALES = ("force", "suddenness", "voice", "stamp", "pressure")
FAMILIES = {"read": READ_SCALES, "heat": HEAT_SCALES}


@dataclass(frozen=True)
class Scale:
    """A scale of a drill.

    Attributes:
        name: one of READ_SCALES or HEAT_SCALES.
        family: ``read`` (plain to subtle) or ``heat`` (mild to fierce).
        grades: the grades' words, in order.
    """

    name: str
    family: str
    grades: tuple[str, ...]

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
        return cls(name, family, tuple(grades))
