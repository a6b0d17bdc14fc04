"""Rules as data: read any family, and the default."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .changepoint import ChangePoint
from .errors import RuleError, need, whole
from .family import ALPHA, BETA, Rule
from .said import say, say_number
from .sequential import Sequential
from .streak import Run, Slips, Window

DEFAULT: Rule = ChangePoint()


def rule_from_json(doc: Mapping[str, Any]) -> Rule:
    """Read a rule; raises RuleError naming the field."""
    family = need(doc, "family", str)
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
