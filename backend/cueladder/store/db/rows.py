"""Bulk writes: statements are compiled once, rows go straight to the driver."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from sqlalchemy import Dialect, Table
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Session

Convert = Callable[[Any], Any] | None


def insert_rows(session: Session, table: Table, rows: list[dict[str, Any]]) -> None:
    """Insert rows; each names every column of the table."""
    _write(session, table, rows, replacing=False)


def upsert_rows(session: Session, table: Table, rows: list[dict[str, Any]]) -> None:
    """Insert rows, or replace those with the same key; each names every column of the table."""
    _write(session, table, rows, replacing=True)


def _write(session: Session, table: Table, rows: list[dict[str, Any]], replacing: bool) -> None:
    if not rows:
        return
    connection = session.connection()
    ready = _prepared(table, connection.dialect, replacing)
    connection.exec_driver_sql(ready.sql, ready.parameters(rows))


@dataclass(frozen=True)
class _Prepared:
    """A compiled statement for the driver.

    Attributes:
        sql: its text.
        columns: (name, bind processor) in the order of the parameters.
        named: whether the driver takes parameters by name.
    """

    sql: str
    columns: tuple[tuple[str, Convert], ...]
    named: bool

    def parameters(self, rows: list[dict[str, Any]]) -> list[Any]:
        """The rows as driver parameters, converted column by column."""
        columns = [_converted([row[name] for row in rows], to) for name, to in self.columns]
        if not self.named:
            return list(zip(*columns, strict=True))
        names = [name for name, _ in self.columns]
        return [dict(zip(names, values, strict=True)) for values in zip(*columns, strict=True)]


def _converted(values: list[Any], convert: Convert) -> list[Any]:
    """Convert a column for the driver; a value shared by all rows only once."""
    if convert is None:
        return values
    if all(value is values[0] for value in values):
        return [convert(values[0])] * len(values)
    return [convert(value) for value in values]


@lru_cache(maxsize=32)
def _prepared(table: Table, dialect: Dialect, replacing: bool) -> _Prepared:
    """Compile an insert or upsert; both databases support ON CONFLICT."""
    known = postgresql if dialect.name == "postgresql" else sqlite
    statement = known.insert(table)
    if replacing:
        keys = [column.name for column in table.primary_key]
        statement = statement.on_conflict_do_update(
            index_elements=keys,
            set_={c.name: statement.excluded[c.name] for c in table.c if c.name not in keys},
        )
    compiled = statement.compile(dialect=dialect, column_keys=[column.name for column in table.c])
    order = compiled.positiontup or [column.name for column in table.c]
    columns = tuple(
        (name, table.c[name].type.dialect_impl(dialect).bind_processor(dialect)) for name in order
    )
    return _Prepared(str(compiled), columns, named=not compiled.positional)
