"""A drill: an action, its ladders and its rule, read from a document and checked."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from .breaks import Breaks, read_breaks
from .brief import Brief, read_brief
from .errors import RuleError, need, whole
from .families.family import Rule
from .ladder import Ladder
from .mark import Kind
from .reaction import Timing, check_times, read_timing
from .rule import default_of, rule_from_json
from .said import say
from .scale import Scale
from .settings import CAP, CUES_A_LESSON, REENTRY, STARTLES

WEAPONS = ("foil", "epee", "sabre")
GIVES = ("attacks", "decoys", "either")
TEXTS = ("name", "action", "purpose", "how", "safety", "alone")
# A coach's own drill may go without the others.
NEEDED = ("name", "action")
LADDERS = {
    Kind.SENSITIZATION: ("read",),
    Kind.DESENSITIZATION: ("heat",),
    Kind.DISCRIMINATION: ("read", "heat"),
}
# What the coach gives in each kind; the usual one first.
GIVEN_IN = {
    Kind.SENSITIZATION: ("attacks",),
    Kind.DESENSITIZATION: ("either", "attacks", "decoys"),
    Kind.DISCRIMINATION: ("either",),
}


@dataclass(frozen=True)
class Drill:
    """A checked drill.

    Attributes:
        slug: short name in lower case, unique in a club.
        texts: name, action, purpose, how, safety, alone, in plain words.
        weapons: the weapons it is for.
        kind: what it trains.
        gives: what the coach gives in it: attacks, decoys or either.
        read, heat: its ladders, as its kind asks.
        paired: slug of the desensitization drill to turn to, or None.
        brief: how it is given and judged.
        timing: what its cues and answers take.
        rule: when to climb or step back.
        cap: cues at one rung without a decision before the drill is left for the day.
        startles: startled answers running that lead one rung back; until then the cue is repeated
            (common practice, no published source).
        usual: cues a lesson usually gives this drill.
        breaks: where it starts after days away, and what is left of its counts.
    """

    slug: str
    texts: Mapping[str, str]
    weapons: tuple[str, ...]
    kind: Kind
    gives: str
    read: Ladder | None
    heat: Ladder | None
    paired: str | None
    brief: Brief
    timing: Timing
    rule: Rule
    cap: int = CAP
    startles: int = STARTLES
    usual: int = CUES_A_LESSON[Kind.SENSITIZATION]
    breaks: Breaks = REENTRY

    @classmethod
    def from_json(cls, doc: Mapping[str, Any]) -> Drill:
        """Read a drill document; raises RuleError naming the field."""
        slug = need(doc, "slug", str)
        if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", slug) or len(slug) > 80:
            raise RuleError("slug", say("lower-case letters, digits and hyphens, at most 80"))
        texts = {field: read_text(doc, field) for field in TEXTS}
        weapons = need(doc, "weapon", list)
        if not weapons or any(w not in WEAPONS for w in weapons):
            raise RuleError("weapon", say("a list of foil, epee, sabre"))
        kind = need(doc, "kind", str)
        if kind not in list(Kind):
            raise RuleError("kind", say("should be one of %(able)s", able=", ".join(Kind)))
        kind = Kind(kind)
        gives = need(doc, "gives", str)
        if gives not in GIVES:
            raise RuleError("gives", say("should be one of %(able)s", able=", ".join(GIVES)))
        if gives not in GIVEN_IN[kind]:
            able = ", ".join(GIVEN_IN[kind])
            raise RuleError("gives", say("in a drill of this kind: %(able)s", able=able))
        ladders = _ladders(doc, kind)
        timing = read_timing(doc, choice=kind is Kind.DISCRIMINATION)
        check_times(timing, ladders["read"], ladders["heat"])
        paired = doc.get("paired")
        if paired is not None and not isinstance(paired, str):
            raise RuleError("paired", say("the slug of a drill, or null"))
        return cls(
            slug,
            texts,
            tuple(weapons),
            kind,
            gives,
            ladders["read"],
            ladders["heat"],
            paired,
            read_brief(doc, gives),
            timing,
            _rule(doc, kind),
            whole(doc, "cap", 5, 200, default=CAP),
            whole(doc, "startles", 2, 5, default=STARTLES),
            whole(doc, "usual", 5, 80, default=CUES_A_LESSON[kind]),
            read_breaks(doc),
        )


def read_text(doc: Mapping[str, Any], field: str) -> str:
    """One of a drill's texts, where it is needed not empty; raises RuleError naming the field."""
    text = str(need(doc, field, str)).strip() if field in NEEDED or field in doc else ""
    if not text and field in NEEDED:
        raise RuleError(field, say("is empty: fill it in, up to %(most)s characters", most=600))
    if len(text) > 600:
        long = say("has %(n)s characters: shorten it to %(most)s", n=len(text), most=600)
        raise RuleError(field, long)
    return text


def _ladders(doc: Mapping[str, Any], kind: Kind) -> dict[str, Ladder | None]:
    scales = {
        name: Scale.from_json(name, need(doc["scales"], name, dict, "scales"))
        for name in need(doc, "scales", dict)
    }
    ladders: dict[str, Ladder | None] = {"read": None, "heat": None}
    for family in ladders:
        rows = doc.get(family)
        if family not in LADDERS[kind]:
            if rows:
                raise RuleError(
                    family,
                    say(
                        "a %(kind)s drill has no %(family)s ladder: leave it null",
                        kind=kind,
                        family=family,
                    ),
                )
            continue
        if not isinstance(rows, list):
            raise RuleError(
                family,
                say(
                    "a %(kind)s drill needs a %(family)s ladder: a list of rungs",
                    kind=kind,
                    family=family,
                ),
            )
        ladders[family] = Ladder.from_json(family, rows, scales)
    return ladders


def _rule(doc: Mapping[str, Any], kind: Kind) -> Rule:
    if doc.get("rule") is None:
        return default_of(kind)
    try:
        return rule_from_json(need(doc, "rule", dict))
    except RuleError as error:
        raise RuleError(f"rule.{error.field}".replace("rule.rule", "rule"), error.message) from None
