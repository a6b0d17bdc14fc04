"""``IN`` with a single JSON array as parameter.

A plain ``IN`` is compiled and planned anew for each number of parameters, and databases limit that
number. With one array the statement never changes.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from sqlalchemy import ColumnElement, Text, bindparam
from sqlalchemy.ext.compiler import compiles
from sqlalchemy.sql.functions import FunctionElement


class _Members(FunctionElement[Any]):
    """The strings of a JSON array as a subquery."""

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
    """Whether the column is among the strings of a parameter made by `listed`."""
    return column.op("IN", is_comparison=True)(_Members(bindparam(parameter, type_=Text)))


def listed(texts: Iterable[str]) -> str:
    """Strings as the parameter of `among`."""
    return json.dumps(sorted(texts))
