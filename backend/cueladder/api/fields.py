"""Schemas shared by several resources."""

from __future__ import annotations

from typing import Any

from marshmallow import EXCLUDE, Schema, ValidationError, fields, validate, validates_schema

from ..rules.said import say
from ..store.log.fields import BROKEN, LARGEST, Id


class Query(Schema):
    """Base of query strings; unknown parameters are ignored."""

    class Meta:
        """Options."""

        unknown = EXCLUDE


class Cursor(Query):
    """Cursor and page size."""

    after = fields.Integer(load_default=0, validate=validate.Range(0, LARGEST))
    limit = fields.Integer(load_default=500, validate=validate.Range(1, 2000))


class EditHeaders(Query):
    """The client's own id of an edit, which makes a retry harmless."""

    edit = Id(required=False, load_default=None, data_key="Idempotency-Key")


class Change(Schema):
    """Base of partial updates; refuses an empty one."""

    @validates_schema
    def _something(self, data: dict[str, Any], **kwargs: Any) -> None:
        if not data:
            raise ValidationError(say("send at least one field to change"))


def sound(value: Any, depth: int = 0) -> None:
    """Check free-form JSON: no broken characters, deep nesting or huge numbers."""
    if depth > 12:
        raise ValidationError(say("is nested too deeply"))
    if isinstance(value, str) and BROKEN.search(value):
        raise ValidationError(say("contains a broken character: remove it"))
    if isinstance(value, int | float) and not abs(value) <= LARGEST:
        raise ValidationError(say("contains a number that is too large"))
    if isinstance(value, dict):
        for name, inner in value.items():
            sound(name)
            sound(inner, depth + 1)
    elif isinstance(value, list):
        for inner in value:
            sound(inner, depth + 1)
