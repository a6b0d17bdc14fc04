"""Export of everything stored about a fencer."""

from __future__ import annotations

import csv
import hashlib
import io
import json
import zipfile
from datetime import date, datetime
from typing import Any

from sqlalchemy import JSON, Boolean, Date, Integer, func, select

from ..db.engine import Instant, db, now
from ..db.models import Change, Fencer
from ..fencers.cells import harmless
from ..fencers.edit import fencer_in
from .export_fields import HIDDEN, TABLES, Table

# Columns of JSON that hold lists.
LISTS = ("plan", "drills", "begins")

README = """This folder holds everything that is kept about one fencer.

*.csv             the tables, one row a line, in UTF-8; a text that a spreadsheet would take for
                  a formula has an apostrophe before it
data.json         the same, exactly as it is kept
datapackage.json  what every table and every field means (a Data Package in the sense of
                  Frictionless Data, so that other programs can read the tables)

It is about a person, perhaps a child. Hand it on only to that person or the guardian, keep it in a
safe place, and delete it when it has served.
"""


def export_fencer(club_id: int, fencer_id: str) -> dict[str, Any]:
    """Everything stored about a fencer, by table.

    Raises:
        Missing: no such fencer in the club.
    """
    rows = _rows(club_id, fencer_id)
    plain = {name: [_plain(row) for row in some] for name, some in rows.items()}
    (fencer,) = plain.pop("fencer")
    return {"exported_at": now().isoformat(), "fencer": fencer, **plain}


def count_kept(club_id: int, fencer_id: str) -> dict[str, int]:
    """Number of rows in each table of an export.

    Raises:
        Missing: no such fencer in the club.
    """
    session = db.session()
    fencer_in(session, club_id, fencer_id)
    found = {}
    for table in TABLES:
        wanted = select(func.count()).select_from(table.model)
        found[table.name] = session.scalar(wanted.where(*_whose(table.model, club_id, fencer_id)))
    return found


def export_package(club_id: int, fencer_id: str) -> bytes:
    """The export as a zip file: CSV tables with a data dictionary, and the JSON.

    Raises:
        Missing: no such fencer in the club.
    """
    rows = _rows(club_id, fencer_id)
    resources, files = [], {}
    for table in TABLES:
        content = _csv(table, rows[table.name])
        path = f"{table.name}.csv"
        files[path] = content
        resources.append(
            {
                "name": table.name.replace("_", "-"),
                "path": path,
                "profile": "tabular-data-resource",
                "title": table.title,
                "format": "csv",
                "mediatype": "text/csv",
                "encoding": "utf-8",
                "bytes": len(content),
                "hash": f"sha256:{hashlib.sha256(content).hexdigest()}",
                "schema": schema_of(table),
            }
        )
    package = {
        "profile": "tabular-data-package",
        "name": f"fencer-{fencer_id}",
        "title": "Everything kept about one fencer",
        "created": now().strftime("%Y-%m-%dT%H:%M:%SZ"),
        "resources": resources,
    }
    files["datapackage.json"] = json.dumps(package, indent=2).encode()
    files["data.json"] = json.dumps(export_fencer(club_id, fencer_id), indent=2).encode()
    files["README.txt"] = README.encode()
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as made:
        for name, content in files.items():
            made.writestr(name, content)
    return out.getvalue()


def schema_of(table: Table) -> dict[str, Any]:
    """The Table Schema of a table: fields with type and meaning, and the key."""
    columns = table.model.__table__.columns
    fields = []
    for name, meaning in table.fields.items():
        field = {"name": name, "type": _type(table, columns[name]), "description": meaning}
        if not columns[name].nullable:
            field["constraints"] = {"required": True}
        fields.append(field)
    return {"fields": fields, **({"primaryKey": list(table.key)} if table.key else {})}


def _type(table: Table, column: Any) -> str:
    if isinstance(column.type, Instant):
        return "datetime"
    if isinstance(column.type, JSON):
        if table.model is Change:
            return "any"
        return "array" if column.name in LISTS else "object"
    if isinstance(column.type, Boolean):
        return "boolean"
    if isinstance(column.type, Date):
        return "date"
    return "integer" if isinstance(column.type, Integer) else "string"


def _rows(club_id: int, fencer_id: str) -> dict[str, list[Any]]:
    session = db.session()
    fencer_in(session, club_id, fencer_id)
    found: dict[str, list[Any]] = {}
    for table in TABLES:
        order = [getattr(table.model, name) for name in table.order]
        whose = _whose(table.model, club_id, fencer_id)
        found[table.name] = list(
            session.scalars(select(table.model).where(*whose).order_by(*order))
        )
    return found


def _whose(model: Any, club_id: int, fencer_id: str) -> tuple[Any, ...]:
    """Conditions for the rows of a table about the fencer."""
    if model is Fencer:
        return model.club_id == club_id, model.id == fencer_id
    if model is Change:
        return model.club_id == club_id, model.kind == "fencer", model.object_id == fencer_id
    return model.club_id == club_id, model.fencer_id == fencer_id


def _plain(row: Any) -> dict[str, Any]:
    """A row as data, without internal columns."""
    plain = {c.key: getattr(row, c.key) for c in row.__table__.columns if c.key not in HIDDEN}
    return {
        name: value.isoformat() if hasattr(value, "isoformat") else value
        for name, value in plain.items()
    }


def _csv(table: Table, rows: list[Any]) -> bytes:
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(table.fields)
    columns = table.model.__table__.columns
    for row in rows:
        writer.writerow(_cell(getattr(row, name), columns[name]) for name in table.fields)
    return out.getvalue().encode()


def _cell(value: Any, column: Any) -> str:
    if value is None and column.nullable:
        return ""
    if isinstance(column.type, JSON):
        return json.dumps(value)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, datetime):
        return value.strftime("%Y-%m-%dT%H:%M:%SZ")
    if isinstance(value, date):
        return value.isoformat()
    return harmless(value) if isinstance(value, str) else str(value)
