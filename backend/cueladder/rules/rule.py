"""Rules as data: read any family, and the default."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .errors import RuleError, need, whole
from .families.changepoint import ChangePoint, Tally
from .families.family import ALPHA, BETA, Rule
from .families.sequential import Sequential
from .families.streak import Run, Slips, Window
from .mark import Kind
from .said import say, say_number
from .settings import READING, SETTINGS

DEFAULT: Rule = Tally(**READING["usual"])
MOST_CLEAN = 100


def settings_of(kind: Kind) -> dict[str, Rule]:
    """The three settings of a kind of drill: quick, usual, strict."""
    return {name: Tally(**each) for name, each in SETTINGS[kind].items()}


def default_of(kind: Kind) -> Rule:
    """The rule of a drill whose document names none."""
    return settings_of(kind)["usual"]


def rule_from_json(doc: Mapping[str, Any]) -> Rule:
    """Read a rule; raises RuleError naming the field.

    A change-point rule is written in whole figures (``goal``, ``slip``, ``floor``, ``patience``)
    or in rates (``p0``, ``p1``, ``patience``).
    """
    family = need(doc, "family", str)
    if family == "changepoint" and ("goal" in doc or "slip" in doc):
        goal = whole(doc, "goal", 1, MOST_CLEAN)
        return Tally(
            goal,
            whole(doc, "slip", 1, goal, default=max(1, goal // 2)),
            whole(doc, "patience", 2, 6, default=Tally.patience),
            whole(doc, "floor", 0, MOST_CLEAN, default=Tally.floor),
        )
    if family == "changepoint":
        rates = _rates(doc, ChangePoint.p0, ChangePoint.p1)
        return ChangePoint(*rates, whole(doc, "patience", 2, 4, default=ChangePoint.patience))
    if family == "run":
        return Run(whole(doc, "n", 2, 60), Slips.from_json(doc))
    if family == "window":
        w = whole(doc, "w", 2, 12)
        return Window(whole(doc, "k", 1, w), w, Slips.from_json(doc))
    if family == "sequential":
        p0, p1 = _rates(doc, Sequential.p0, Sequential.p1)
        return Sequential(
            p0,
            p1,
            _risk(doc, "alpha", ALPHA),
            _risk(doc, "beta", BETA),
            whole(doc, "longest", 5, 200, default=60),
        )
    raise RuleError("family", say("should be changepoint, run, window or sequential"))


def _rates(doc: Mapping[str, Any], low: float, high: float) -> tuple[float, float]:
    p0 = float(need(doc, "p0", float)) if "p0" in doc else low
    p1 = float(need(doc, "p1", float)) if "p1" in doc else high
    if not 0.3 <= p0 <= 0.95:
        raise RuleError("p0", say("the rate that is not yet enough: between 0.3 and 0.95"))
    if not p0 + 0.02 <= p1 <= 0.99:
        raise RuleError(
            "p1",
            say(
                "the reliable rate: at least %(low)s and at most 0.99", low=say_number(p0 + 0.02, 2)
            ),
        )
    return p0, p1


def _risk(doc: Mapping[str, Any], field: str, default: float) -> float:
    value = float(need(doc, field, float)) if field in doc else default
    if not 0.001 <= value <= 0.4:
        raise RuleError(field, say("a risk between 0.001 and 0.4"))
    return value
