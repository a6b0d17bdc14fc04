"""JSON read and written fast: orjson where it can, the standard library where it refuses.

orjson refuses halves of surrogate pairs, NaN and numbers beyond all bounds. Such a body must still
be read, so that the one event at fault is refused and no other. A whole number beyond 64 bits is
read as a float.
"""

from __future__ import annotations

import json
from contextlib import suppress
from typing import Any

import orjson
from flask.json.provider import DefaultJSONProvider

from .language import told
from .rules.said import Said

PLAIN = (
    orjson.OPT_PASSTHROUGH_SUBCLASS
    | orjson.OPT_PASSTHROUGH_DATETIME
    | orjson.OPT_PASSTHROUGH_DATACLASS
)


def write(value: Any) -> str:
    """Plain data as JSON, for the database."""
    try:
        return orjson.dumps(value, option=PLAIN).decode()
    except TypeError:
        return json.dumps(value)


def read(text: str | bytes) -> Any:
    """Data from JSON.

    Raises:
        ValueError, RecursionError: it is no JSON, or is nested too deeply.
    """
    try:
        return orjson.loads(text)
    except ValueError:
        return json.loads(text)


class FastJson(DefaultJSONProvider):
    """Flask's JSON, read and written fast; what orjson does not know is written by Flask."""

    sort_keys = False

    def loads(self, s: str | bytes, **kwargs: Any) -> Any:
        """A body as data."""
        return super().loads(s, **kwargs) if kwargs else read(s)

    def dumps(self, obj: Any, **kwargs: Any) -> str:
        """An answer as text."""
        if "indent" not in kwargs:
            with suppress(TypeError):
                return orjson.dumps(obj, self._other, PLAIN).decode()
        return super().dumps(told(obj), **kwargs)

    def _other(self, value: Any) -> Any:
        """What orjson does not know: what is said is told in the reader's language."""
        return told(value) if isinstance(value, Said) else self.default(value)
