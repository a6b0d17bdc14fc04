"""Fast JSON: orjson, with the standard library as a fallback.

orjson rejects lone surrogates, NaN and huge numbers. Such a body must still be parsed, so that only
the event at fault is refused. Integers beyond 64 bits are read as floats.
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
    """Serialise plain data, for the database."""
    try:
        return orjson.dumps(value, option=PLAIN).decode()
    except TypeError:
        return json.dumps(value)


def read(text: str | bytes) -> Any:
    """Parse JSON.

    Raises:
        ValueError, RecursionError: not JSON, or nested too deeply.
    """
    try:
        return orjson.loads(text)
    except ValueError:
        pass
    try:
        return json.loads(text)
    except json.JSONDecodeError:
        raise
    except ValueError as error:  # a number of more digits than Python reads
        raise json.JSONDecodeError(str(error), "", 0) from None


class FastJson(DefaultJSONProvider):
    """Flask's JSON provider on orjson."""

    sort_keys = False

    def loads(self, s: str | bytes, **kwargs: Any) -> Any:
        """Parse a body."""
        return super().loads(s, **kwargs) if kwargs else read(s)

    def dumps(self, obj: Any, **kwargs: Any) -> str:
        """Serialise a reply."""
        if "indent" not in kwargs:
            with suppress(TypeError):
                return orjson.dumps(obj, self._other, PLAIN).decode()
        return super().dumps(told(obj), **kwargs)

    def _other(self, value: Any) -> Any:
        """Serialise what orjson does not know; a `Said` in the reader's language."""
        return told(value) if isinstance(value, Said) else self.default(value)
