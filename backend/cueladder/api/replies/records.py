"""Replies on personal records, their changes and their audit trail."""

from __future__ import annotations

from marshmallow import fields

from ...store.records.export_fields import TABLES
from .base import Ready, Reply, counts


class RecordSchema(Reply):
    """How many rows of each table are kept on a fencer, and the days of practice by drill."""

    nickname = fields.String()
    consent = fields.Date(allow_none=True)
    since = fields.DateTime()
    kept = counts()
    practice = fields.Dict(keys=fields.String(), values=fields.List(fields.String()))


# One field a table of the export; the data dictionary describes the rows.
ExportSchema = Reply.from_dict(
    {
        "exported_at": fields.String(metadata={"format": "date-time"}),
        **{
            table.name: fields.Dict(keys=fields.String())
            if table.name == "fencer"
            else fields.List(fields.Dict(keys=fields.String()))
            for table in TABLES
        },
    },
    name="ExportSchema",
)


class AuditEntrySchema(Reply):
    """A look at a record or a change of it; ``coach`` is null for visits by progress link."""

    id = fields.Integer()
    at = fields.DateTime()
    fencer = fields.String()
    coach = fields.String(allow_none=True)
    name = fields.String(allow_none=True)
    action = fields.String()
    fields_ = fields.String(data_key="fields", allow_none=True)


class AuditSchema(Reply):
    """A page of entries, newest first; ``next`` is the ``before`` of the next page."""

    audit = Ready(AuditEntrySchema, many=True)
    next = fields.Integer(allow_none=True)


class DueForErasureSchema(Reply):
    """A fencer who would be erased."""

    fencer = fields.String(attribute="fencer_id")
    nickname = fields.String()
    last = fields.Date()
    events = fields.Integer()


class RetentionSchema(Reply):
    """Who would be erased under a retention setting."""

    due = fields.List(fields.Nested(DueForErasureSchema))


class SettingsSchema(Reply):
    """Days without a lesson after which a fencer's records go; null for never."""

    retention_days = fields.Integer(allow_none=True)


class ChangeSchema(Reply):
    """A changed field with its old and new value."""

    field = fields.String()
    old = fields.Raw(allow_none=True)
    new = fields.Raw(allow_none=True)
    coach = fields.String()
    name = fields.String(allow_none=True)
    at = fields.DateTime()


class ChangesSchema(Reply):
    """The newest changes, newest first."""

    changes = Ready(ChangeSchema, many=True)
