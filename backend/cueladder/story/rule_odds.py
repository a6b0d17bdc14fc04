"""Odds of a rule, as a table and in plain words."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

from ..evidence import odds
from ..evidence.claims import rule as claims
from ..evidence.claims import said
from ..evidence.marking import Marking
from ..evidence.odds import Odds
from ..evidence.over_lessons import OverLessons, over_lessons
from ..rules import Chart, Drill, Kind, Rule, RuleError, compile_chart
from ..rules.drill import GIVEN_IN, LADDERS
from ..rules.reach import why_never_met
from ..rules.rule import settings_of
from ..rules.settings import CAP, CUES_A_LESSON, STARTLES
from ..rules.table import Table, compile_rule
from .rule_words import rule_words

RATES = (0.5, 0.6, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95, 0.97, 0.99)
NOT_YET, RELIABLE = 0.8, 0.97
# True rates told over some lessons, and the chance of being sent up too early that is warned of.
OVER = (0.8, 0.85, 0.9, 0.95, 0.97)
WARN = 0.25
# The scales of the drill that stands for any other.
SCALE = {"read": "size", "heat": "force"}


@dataclass(frozen=True)
class Terms:
    """What a drill has beside its rule that bears on its odds."""

    kind: Kind = Kind.SENSITIZATION
    usual: int | None = None
    cap: int = CAP
    startles: int = STARTLES

    @property
    def cues(self) -> int:
        """Cues a lesson gives the drill."""
        return CUES_A_LESSON[self.kind] if self.usual is None else self.usual


def rule_odds(
    rule: Rule, default: Rule, terms: Terms | None = None, marking: Marking | None = None
) -> dict[str, Any]:
    """The odds of a rule beside those of the default, with words and, if need be, a warning.

    Args:
        rule, default: the two rules.
        terms: of the drill.
        marking: how well the club marks, where that is known.

    ``lessons`` are those over some lessons of such a drill, None where its chart would be too
    large.
    """
    ours = curve(rule, RATES)
    early, cues = ours[RATES.index(NOT_YET)].climb, ours[RATES.index(NOT_YET)].cues
    due, quick = ours[RATES.index(RELIABLE)].climb, ours[RATES.index(RELIABLE)].cues
    lessons = told_over(rule, terms or Terms())
    often = lessons["rows"][OVER.index(NOT_YET)]["climb"] if lessons else early
    return {
        "table": _rows(ours),
        "default": _rows(curve(default, RATES)),
        "states": table_of(rule).ready,
        "says": rule_words(rule),
        "words": claims.sent_up(early, cues, due, quick).words,
        "lessons": lessons,
        "warning": claims.fooled(often).words if often > WARN else None,
        "marked": None if marking is None else _marked(rule, marking),
    }


def settings_told(kind: Kind, usual: int | None = None) -> list[dict[str, Any]]:
    """Quick, usual and strict for a kind of drill: each as data, in words, with its odds."""
    return [
        {
            "name": name,
            "rule": rule.to_json(),
            "says": rule_words(rule),
            "lessons": told_over(rule, Terms(kind, usual)),
        }
        for name, rule in settings_of(kind).items()
    ]


def told_over(rule: Rule, terms: Terms) -> dict[str, Any] | None:
    """The odds over some weekly lessons, cap and kept counts included, both halves together.

    Returns:
        ``cues`` a lesson; ``rows`` ``{p, by_lesson, climb, back, secure}``; ``pace``, the lesson by
        which half of the reliable fencers are sent up, None where that is none of these;
        ``never``, why the rule can not be met, or None; and ``words``. None where the drill's
        chart would be too large.
    """
    try:
        chart = _chart(rule, terms)
    except RuleError:
        return None
    found = [_over(rule, terms, p) for p in OVER]
    early, due = found[OVER.index(NOT_YET)], found[OVER.index(RELIABLE)]
    pace = next((k for k, met in enumerate(due.by_lesson, start=1) if met >= 0.5), None)
    rows = [
        {
            "p": p,
            "by_lesson": list(one.by_lesson),
            "climb": one.climb,
            "back": one.back,
            "secure": one.secure,
        }
        for p, one in zip(OVER, found, strict=True)
    ]
    never = why_never_met(chart)
    words = claims.over_lessons(terms.cues, early.climb, due.climb, due.secure, pace).words
    return {"cues": terms.cues, "rows": rows, "pace": pace, "never": never, "words": words}


@lru_cache(maxsize=256)
def _over(rule: Rule, terms: Terms, p: float) -> OverLessons:
    return over_lessons(_chart(rule, terms), p)


@lru_cache(maxsize=64)
def _chart(rule: Rule, terms: Terms) -> Chart:
    """The chart of a drill of two rungs a ladder under these terms."""
    scales = {
        SCALE[family]: {"family": family, "grades": ["first", "second"]}
        for family in LADDERS[terms.kind]
    }
    ladders = {family: [{SCALE[family]: 0}, {SCALE[family]: 1}] for family in LADDERS[terms.kind]}
    texts = dict.fromkeys(("name", "action", "purpose", "how", "safety", "alone"), "-")
    drill = Drill.from_json(
        {
            "slug": "odds", **texts, "weapon": ["foil"], "kind": terms.kind, "scales": scales,
            "gives": GIVEN_IN[terms.kind][0], **ladders, "cap": terms.cap, "usual": terms.cues,
            "startles": terms.startles,
        }
    )  # fmt: skip
    return compile_chart(replace(drill, rule=rule))


@lru_cache(maxsize=64)
def curve(rule: Rule, rates: tuple[float, ...]) -> list[Odds]:
    """Odds of a fresh count at each true rate (cached)."""
    return odds.curve(table_of(rule), rates)


@lru_cache(maxsize=64)
def table_of(rule: Rule) -> Table:
    """The rule's table for answers that are right or wrong (cached: a large one takes a second).

    Raises:
        RuleError: it would be too large.
    """
    return compile_rule(rule, holds=False)


def _rows(curve: list[Odds]) -> list[dict[str, float]]:
    return [
        {"p": p, "climb": one.climb, "back": one.back, "cues": one.cues}
        for p, one in zip(RATES, curve, strict=True)
    ]


def _marked(rule: Rule, marking: Marking) -> dict[str, Any]:
    """What the rule does to someone right 8 times in 10, as this club marks."""
    seen = marking.seen(NOT_YET)
    early = odds.odds(table_of(rule), seen).climb
    told = claims.marked(marking, seen, early)
    return {"seen": seen, "climb": early, "cues": marking.cues, **said(told)}
