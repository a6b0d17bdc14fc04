"""The one error of the rules: which field is wrong, and what to do about it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .said import later, say


class RuleError(ValueError):
    """Raised when a drill, rule or mark cannot be used.

    Attributes:
        field: dotted path of the offending field, e.g. ``read[3]``.
        message: what is wrong and what to do, for a person.
    """

    def __init__(self, field: str, message: str) -> None:
        super().__init__(f"{field}: {message}")
        self.field = field
        self.message = message


def need(doc: Mapping[str, Any], field: str, kind: type, within: str = "") -> Any:
    """Return ``doc[field]`` if it is there and of the kind, else raise a RuleError naming it."""
    path = f"{within}.{field}" if within else field
    if field not in doc:
        raise RuleError(path, say("is missing"))
    value = doc[field]
    if kind is float and isinstance(value, int) and not isinstance(value, bool):
        value = float(value)
    if not isinstance(value, kind) or (isinstance(value, bool) and kind is not bool):
        raise RuleError(path, say(_SHOULD[kind]))
    return value


def whole(
    doc: Mapping[str, Any], field: str, low: int, high: int, default: int | None = None
) -> int:
    """Return a whole number in ``low..high``, or the default where the field is absent."""
    if field not in doc and default is not None:
        return default
    value = int(need(doc, field, int))
    if not low <= value <= high:
        raise RuleError(
            field,
            say(
                "should be between %(low)s and %(high)s, not %(value)s",
                low=low,
                high=high,
                value=value,
            ),
        )
    return value


_SHOULD = {
    str: later("should be text"),
    int: later("should be a whole number"),
    float: later("should be a number"),
    list: later("should be a list"),
    dict: later("should be an object"),
    bool: later("should be true or false"),
}
