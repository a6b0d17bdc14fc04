"""Base and fields of reply schemas."""

from __future__ import annotations

from typing import Any, ClassVar

from marshmallow import Schema, fields, validate

# A reply that is no JSON: a picture, a table or an archive.
FILE = {"type": "string", "format": "binary"}


class Reply(Schema):
    """Base of replies: every field is always there but those named in ``absent``.

    The OpenAPI document says so, the phone's types are generated from it, and the tests check
    every JSON reply they get against it.
    """

    absent: ClassVar[tuple[str, ...]] = ()

    def on_bind_field(self, field_name: str, field_obj: fields.Field[Any]) -> None:
        """Require what is not named in ``absent``."""
        field_obj.required = field_name not in self.absent


class Ready(fields.Nested):
    """A nested reply that is plain JSON data already: documented and tested, dumped as it is.

    Dumping 500 standings field by field takes seventy times as long as writing their JSON.
    """

    def _serialize(self, nested_obj: Any, *args: Any, **kwargs: Any) -> Any:
        return nested_obj


class Words(fields.String):
    """A text that may be translated: it stays a `Said` until the JSON is written."""

    def _serialize(self, value: Any, *args: Any, **kwargs: Any) -> Any:
        return value


class Claimed(Reply):
    """A statement of the register, by name, and how it is said."""

    claim = fields.String()
    words = Words()


def choice(*words: str, allow_none: bool = False) -> fields.String:
    """One of a few words."""
    return fields.String(allow_none=allow_none, validate=validate.OneOf(words))


def counts() -> fields.Dict:
    """How often, by name."""
    return fields.Dict(keys=fields.String(), values=fields.Integer())


def pair() -> fields.Tuple:
    """Two whole numbers, mostly right answers out of all."""
    return fields.Tuple((fields.Integer(), fields.Integer()))


def span() -> fields.Tuple:
    """The two ends of an interval."""
    return fields.Tuple((fields.Float(), fields.Float()))


def tuple_property(converter: Any, field: Any, **_: Any) -> dict[str, Any]:
    """Document a `Tuple` in JSON Schema, which apispec does not do by itself."""
    if not isinstance(field, fields.Tuple):
        return {}
    items = [converter.field2property(item) for item in field.tuple_fields]
    size = len(items)
    return {
        "type": ["array", "null"] if field.allow_none else "array",
        "prefixItems": items,
        "minItems": size,
        "maxItems": size,
    }


class PartSchema(Claimed):
    """A claim that may be the first thing said; ``acts``: how much it asks for doing something."""

    acts = fields.Integer()
