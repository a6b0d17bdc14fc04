"""Brief: what a coach is told about giving and judging a drill, beside its texts. All of it is
optional; the starter drills have it whole."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from .errors import RuleError, need, whole
from .said import later, say

FIRST = "first"
LEVELS = {
    FIRST: later("first year"),
    "club": later("club"),
    "competition": later("competition"),
}
# What a second coach has to know to mark alike. Too early and too big are one mark on the strip,
# told apart here.
COUNTS = {
    "attacks": ("correct", "late", "early", "big"),
    "decoys": ("correct", "decoy"),
    "either": ("correct", "late", "early", "big", "decoy"),
}
CUES = {"attacks": ("answer",), "decoys": ("leave",), "either": ("answer", "leave")}
LONGEST_CUE, LONGEST_COUNT, LONGEST_FEET = 60, 240, 600


@dataclass(frozen=True)
class Brief:
    """What a coach is told about a drill.

    Attributes:
        level: one of LEVELS, or None.
        cues: what the coach gives, by what the fencer should do: ``answer``, ``leave``.
        counts: a sentence for each way to judge it: correct, late, early, big, decoy (answered
            what should have been left).
        feet: the drill with the feet alone, for the youngest; or empty.
        blades: whether it is done with weapons.
        loud_from: heat rung, counted from 0, from which loud and soft differ: soft is given as on
            the first rung, so the first has no louder one.
        language: in which language it is written; None for the starter drills, which are told in
            the reader's.
    """

    level: str | None
    cues: Mapping[str, str]
    counts: Mapping[str, str]
    feet: str
    blades: bool
    loud_from: int
    language: str | None


def read_brief(doc: Mapping[str, Any], gives: str) -> Brief:
    """Read a drill's brief; raises RuleError naming the field."""
    level = doc.get("level")
    if level not in (None, *LEVELS):
        raise RuleError("level", say("should be one of %(able)s", able=", ".join(LEVELS)))
    language = doc.get("language")
    if language is not None and not (isinstance(language, str) and 1 < len(language) < 12):
        raise RuleError("language", say("the short name of a language, such as en or de"))
    return Brief(
        level,
        _texts(doc, "cues", CUES[gives], LONGEST_CUE),
        _texts(doc, "counts", COUNTS[gives], LONGEST_COUNT),
        _text(doc, "feet", LONGEST_FEET) if doc.get("feet") else "",
        need(doc, "blades", bool) if "blades" in doc else True,
        whole(doc, "loud_from", 1, 20, default=1),
        language,
    )


def _texts(
    doc: Mapping[str, Any], field: str, able: tuple[str, ...], longest: int
) -> dict[str, str]:
    if doc.get(field) is None:
        return {}
    texts = need(doc, field, dict)
    for name in texts:
        if name not in able:
            raise RuleError(
                f"{field}.{name}", say("should be one of %(able)s", able=", ".join(able))
            )
    return {name: _text(texts, name, longest, field) for name in texts}


def _text(doc: Mapping[str, Any], field: str, longest: int, within: str = "") -> str:
    text = str(need(doc, field, str, within)).strip()
    if not 0 < len(text) <= longest:
        at = f"{within}.{field}" if within else field
        raise RuleError(at, say("should have 1 to %(most)s characters", most=longest))
    return text
