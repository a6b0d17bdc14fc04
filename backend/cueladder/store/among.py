"""Rows whose key is one of many, asked for with a single parameter.

An ``IN`` with hundreds of parameters is built and parsed anew for each number of them, and a
database takes only so many. Here the keys go as one JSON array, so the statement never changes.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from sqlalchemy import ColumnElement, Text, bindparam
from sqlalchemy.ext.compiler import compiles
from sqlalchemy.sql.functions import FunctionElement


class _Members(FunctionElement[Any]):
    """The texts of a JSON array, as a subquery."""

    name = "members"
    inherit_cache = True


@compiles(_Members, "sqlite")
def _sqlite(element: _Members, compiler: Any, **kwargs: Any) -> str:
    array = compiler.process(element.clauses, **kwargs)
    return f"(SELECT value FROM json_each({array}))"  # noqa: S608 a placeholder, no value


@compiles(_Members, "postgresql")
def _postgresql(element: _Members, compiler: Any, **kwargs: Any) -> str:
    array = compiler.process(element.clauses, **kwargs)
    return f"(SELECT json_array_elements_text(CAST({array} AS JSON)))"


def among(column: ColumnElement[str], parameter: str) -> ColumnElement[bool]:
    """Whether the column is one of the texts that `listed` made the parameter's value of."""
    return column.op("IN", is_comparison=True)(_Members(bindparam(parameter, type_=Text)))


def listed(texts: Iterable[str]) -> str:
    """Texts as the value of a parameter of `among`."""
    return json.dumps(sorted(texts))
