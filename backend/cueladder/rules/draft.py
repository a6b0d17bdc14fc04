"""A drill being written: what is wrong with it, all at once, and which rungs may come next."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from .chart import compile_chart
from .drill import GIVEN_IN, LADDERS, TEXTS, Drill, read_text
from .errors import RuleError
from .ladder import LONGEST, Ladder
from .mark import Kind
from .reach import check_reach
from .scale import FAMILIES, Scale

# A drill that is new has no slug yet: it is made from the name when it is added.
NO_SLUG = "new"

T = TypeVar("T")


@dataclass(frozen=True)
class Draft:
    """What the rules say of a drill document, whatever its state.

    Attributes:
        errors: messages by field (dotted path); empty where the drill can be used.
        ladders: for each ladder of the kind, see `_ladder`; None where it cannot be read yet.
        gives: what the coach may give in this kind, the usual first.
        scales: the names a scale may have, by family.
    """

    errors: dict[str, list[str]]
    ladders: dict[str, dict[str, Any] | None]
    gives: tuple[str, ...]
    scales: Mapping[str, tuple[str, ...]]


def draft(doc: Mapping[str, Any]) -> Draft:
    """Look through a drill document that may be unfinished."""
    errors: dict[str, list[str]] = {}
    for field in TEXTS:
        _try(errors, read_text, doc, field)
    asked = doc.get("kind")
    kind = Kind(asked) if asked in list(Kind) else None
    ladders = {family: _ladder(errors, doc, family) for family in (LADDERS[kind] if kind else ())}
    drill = _try(errors, Drill.from_json, {"slug": NO_SLUG, **doc})
    if drill is not None:
        _try(errors, lambda: check_reach(compile_chart(drill)))
    return Draft(errors, ladders, GIVEN_IN[kind] if kind else (), FAMILIES)


def _ladder(
    errors: dict[str, list[str]], doc: Mapping[str, Any], family: str
) -> dict[str, Any] | None:
    """A ladder being written.

    Returns:
        ``rungs``: for each its ``label``, what it ``changed``, and the rungs that could be put
        ``before`` it where some are missing. ``next``: the rungs that may follow the last one.
        An offered rung is ``{words, grades}``, grades by scale name as in a document. None where
        scales or rungs cannot be read.
    """
    found = doc.get("scales")
    scales: dict[str, Scale] = {}
    for name, scale in found.items() if isinstance(found, Mapping) else ():
        if isinstance(scale, Mapping) and scale.get("family") == family:
            one = _try(errors, Scale.from_json, name, scale)
            if one is None:
                return None
            scales[name] = one
    rows = doc.get(family) or []
    if not isinstance(rows, list):
        return None
    ladder = _try(errors, Ladder.unchecked, family, rows, scales)
    if ladder is None:
        return None
    for i in range(1, len(ladder)):
        fault = ladder.fault(i)
        if fault is not None:
            errors[f"{family}[{i}]"] = [fault]
    _try(errors, Ladder.from_json, family, rows, scales)
    return {
        "rungs": [
            {
                "label": ladder.label(i),
                "changed": ladder.change(i - 1, i) if i else "",
                "before": [_offer(way) for way in ladder.between(i)] if i else [],
            }
            for i in range(len(ladder))
        ],
        "next": _next(ladder),
    }


def _next(ladder: Ladder) -> list[dict[str, Any]]:
    if len(ladder) == LONGEST:
        return []
    if len(ladder):
        return [_offer(way) for way in ladder.onward(len(ladder) - 1)]
    first = Ladder(ladder.family, ladder.scales, ((0,) * len(ladder.scales),))
    return [{"words": first.label(0), "grades": {s.name: 0 for s in ladder.scales}}]


def _offer(way: Ladder) -> dict[str, Any]:
    names = [scale.name for scale in way.scales]
    return {"words": way.change(0, 1), "grades": dict(zip(names, way.rungs[1], strict=True))}


def _try(errors: dict[str, list[str]], check: Callable[..., T], *args: Any) -> T | None:
    """What the check returns, or None with its error noted; the first one of a field stays."""
    try:
        return check(*args)
    except RuleError as error:
        errors.setdefault(error.field, [error.message])
        return None
