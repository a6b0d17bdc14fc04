"""Fields of an event: strict about types, plain in their words."""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Mapping
from contextlib import suppress
from datetime import UTC, date, datetime
from typing import Any, ClassVar

from marshmallow import ValidationError, fields

from ...rules.said import later, say

ID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")
BROKEN = re.compile("[\0\ud800-\udfff]")
LARGEST = 2**53 - 1

_Data = Mapping[str, Any] | None


class _Required:
    """A field is required unless it says not; ``allow_none`` says where null is a value."""

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("required", True)
        kwargs["metadata"] = {**self.described, **kwargs.get("metadata", {})}
        super().__init__(**kwargs)

    # how the API's documentation describes the field (JSON Schema)
    described: ClassVar[dict[str, Any]] = {}
    default_error_messages: ClassVar[dict[str, str]] = {
        "required": later("is missing"),
        "null": later("should not be null"),
    }

    def make_error(self, key: str, **values: Any) -> ValidationError:
        """The error of that name, said so that it can be told in another language."""
        return ValidationError(say(self.error_messages[key], **values))


class Id(_Required, fields.String):
    """A UUID in lower case with hyphens."""

    described: ClassVar[dict[str, Any]] = {"format": "uuid", "pattern": f"^{ID.pattern}$"}
    default_error_messages: ClassVar[dict[str, str]] = {
        "invalid": later(
            "should be a UUID in lower case, like 01890a5d-ac96-774b-bcce-b302099a8057"
        )
    }

    def _deserialize(self, value: Any, attr: str | None, data: _Data, **kwargs: Any) -> str:
        if type(value) is not str or not ID.fullmatch(value):
            raise self.make_error("invalid")
        return value


class Text(_Required, fields.String):
    """Text up to a length, with no NUL and no half of a surrogate pair; it may be ``blank``."""

    default_error_messages: ClassVar[dict[str, str]] = {
        "invalid": later("should be text"),
        "long": later("should be at most %(most)s characters: shorten it"),
        "broken": later("contains a broken character: remove it"),
        "blank": later("should not be blank"),
    }

    def __init__(self, most: int, blank: bool = True, **kwargs: Any) -> None:
        super().__init__(metadata={"maxLength": most}, **kwargs)
        self.most, self.blank = most, blank

    def _deserialize(self, value: Any, attr: str | None, data: _Data, **kwargs: Any) -> str:
        if type(value) is not str:
            raise self.make_error("invalid")
        if len(value) > self.most:
            raise self.make_error("long", most=self.most)
        if BROKEN.search(value):
            raise self.make_error("broken")
        if not (self.blank or is_seen(value)):
            raise self.make_error("blank")
        return value


class Whole(_Required, fields.Integer):
    """A whole number within bounds."""

    default_error_messages: ClassVar[dict[str, str]] = {
        "invalid": later("should be a whole number from %(low)s to %(high)s")
    }

    def __init__(self, low: int = 0, high: int = LARGEST, **kwargs: Any) -> None:
        super().__init__(metadata={"minimum": low, "maximum": high}, **kwargs)
        self.low, self.high = low, high

    def _deserialize(self, value: Any, attr: str | None, data: _Data, **kwargs: Any) -> int:
        if type(value) is not int or not self.low <= value <= self.high:
            raise self.make_error("invalid", low=self.low, high=self.high)
        return value


class Number(_Required, fields.Float):
    """A finite number."""

    default_error_messages: ClassVar[dict[str, str]] = {"invalid": later("should be a number")}

    def _deserialize(self, value: Any, attr: str | None, data: _Data, **kwargs: Any) -> float:
        if type(value) not in (int, float) or abs(value) > LARGEST or not math.isfinite(value):
            raise self.make_error("invalid")
        return value


class Flag(_Required, fields.Boolean):
    """true or false, nothing that merely looks like it."""

    default_error_messages: ClassVar[dict[str, str]] = {"invalid": later("should be true or false")}

    def _deserialize(self, value: Any, attr: str | None, data: _Data, **kwargs: Any) -> bool:
        if value is not True and value is not False:
            raise self.make_error("invalid")
        return value


class Word(_Required, fields.String):
    """One of a few words."""

    default_error_messages: ClassVar[dict[str, str]] = {
        "invalid": later("should be one of %(words)s")
    }

    def __init__(self, *words: str, **kwargs: Any) -> None:
        super().__init__(metadata={"enum": list(words)}, **kwargs)
        self.words = words

    def _deserialize(self, value: Any, attr: str | None, data: _Data, **kwargs: Any) -> str:
        if type(value) is not str or value not in self.words:
            raise self.make_error("invalid", words=", ".join(self.words))
        return value


class Letters(_Required, fields.String):
    """One letter a thing, each out of a few; at least one."""

    default_error_messages: ClassVar[dict[str, str]] = {
        "invalid": later("should be 1 to %(most)s letters, each one of %(letters)s")
    }

    def __init__(self, letters: str, most: int, **kwargs: Any) -> None:
        super().__init__(metadata={"maxLength": most, "minLength": 1}, **kwargs)
        self.letters, self.most = letters, most

    def _deserialize(self, value: Any, attr: str | None, data: _Data, **kwargs: Any) -> str:
        fit = type(value) is str and 1 <= len(value) <= self.most
        if not fit or not set(value) <= set(self.letters):
            raise self.make_error("invalid", most=self.most, letters=", ".join(self.letters))
        return value


class Day(_Required, fields.String):
    """A day, ``YYYY-MM-DD``."""

    described: ClassVar[dict[str, Any]] = {"format": "date"}
    default_error_messages: ClassVar[dict[str, str]] = {
        "invalid": later("should be a day like 2026-03-14")
    }

    def _deserialize(self, value: Any, attr: str | None, data: _Data, **kwargs: Any) -> str:
        if type(value) is not str or not is_day(value):
            raise self.make_error("invalid")
        return value


class Moment(_Required, fields.String):
    """A moment as the device's clock shows it; kept as sent, whatever the year."""

    described: ClassVar[dict[str, Any]] = {"format": "date-time"}
    default_error_messages: ClassVar[dict[str, str]] = {
        "invalid": later("should be a time like 2026-03-14T18:20:00.000+01:00")
    }

    def _deserialize(self, value: Any, attr: str | None, data: _Data, **kwargs: Any) -> str:
        if type(value) is not str or len(value) > 40:
            raise self.make_error("invalid")
        try:
            datetime.fromisoformat(value)
        except ValueError:
            raise self.make_error("invalid") from None
        return value


def is_seen(text: str) -> bool:
    """Whether there is anything to see in a text: not blanks and invisible characters alone."""
    return any(unicodedata.category(each)[0] not in "ZC" for each in text)


def is_id(text: str) -> bool:
    """Whether the text is an id in the one form that is stored."""
    return ID.fullmatch(text) is not None


def is_day(text: str) -> bool:
    """Whether the text is a real day in the form ``YYYY-MM-DD``."""
    if not re.fullmatch(r"\d{4}-\d\d-\d\d", text, re.ASCII):
        return False
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


def sortable(moment: str) -> str:
    """A moment in UTC with milliseconds, ``2026-03-14T17:20:00.000Z``: text order is time order.

    Without an offset it is taken as UTC; at the ends of the calendar the offset is left out.
    """
    when = datetime.fromisoformat(moment)
    with suppress(OverflowError):
        when = when.astimezone(UTC) if when.tzinfo else when
    return when.replace(tzinfo=None).isoformat(timespec="milliseconds") + "Z"
