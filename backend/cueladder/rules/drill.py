"""A drill: an action, its ladders and its rule, read from a document and checked."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from .errors import RuleError, need, whole
from .family import Rule
from .ladder import Ladder
from .mark import Kind
from .rule import DEFAULT, rule_from_json
from .said import say
from .scale import Scale

WEAPONS = ("foil", "epee", "sabre")
GIVES = ("attacks", "decoys", "either")
TEXTS = ("name", "action", "purpose", "how", "safety", "alone")
LADDERS = {
    Kind.SENSITIZATION: ("read",),
    Kind.DESENSITIZATION: ("heat",),
    Kind.DISCRIMINATION: ("read", "heat"),
}
DEFAULT_CAP = 40


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
        rule: when to climb or step back.
        cap: cues at one rung without a decision before the drill is left for the day.
    """

    slug: str
    texts: Mapping[str, str]
    weapons: tuple[str, ...]
    kind: Kind
    gives: str
    read: Ladder | None
    heat: Ladder | None
    paired: str | None
    rule: Rule = DEFAULT
    cap: int = DEFAULT_CAP

    @classmethod
    def from_json(cls, doc: Mapping[str, Any]) -> Drill:
        """Read a drill document; raises RuleError naming the field."""
        slug = need(doc, "slug", str)
        if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", slug) or len(slug) > 80:
            raise RuleError("slug", say("lower-case letters, digits and hyphens, at most 80"))
        texts = {field: _text(doc, field) for field in TEXTS}
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
        if kind is Kind.SENSITIZATION and gives != "attacks":
            raise RuleError("gives", say("a sensitization drill gives attacks"))
        if kind is Kind.DISCRIMINATION and gives != "either":
            raise RuleError("gives", say("a discrimination drill gives either"))
        ladders = _ladders(doc, kind)
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
            _rule(doc),
            whole(doc, "cap", 5, 200, default=DEFAULT_CAP),
        )


def _text(doc: Mapping[str, Any], field: str) -> str:
    text = str(need(doc, field, str)).strip()
    if not text or len(text) > 600:
        raise RuleError(field, say("should be 1 to %(most)s characters", most=600))
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


def _rule(doc: Mapping[str, Any]) -> Rule:
    if doc.get("rule") is None:
        return DEFAULT
    try:
        return rule_from_json(need(doc, "rule", dict))
    except RuleError as error:
        raise RuleError(f"rule.{error.field}".replace("rule.rule", "rule"), error.message) from None
