"""Parsing a roster table; every fault has its line and column."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from ...rules.said import say
from ..problems import Refused
from .cells import original
from .roster_cells import NEEDED, READERS, Wrong, column_of

MOST_BYTES = 256 * 1024
MOST_ROWS = 500
DELIMITERS = {",": "comma", ";": "semicolon", "\t": "tab"}
# Non-breaking spaces, which spreadsheets insert.
SPACES = dict.fromkeys((0xA0, 0x202F), " ")
_MARKS = ((b"\xef\xbb\xbf", "utf-8-sig", "UTF-8"), (b"\xff\xfe", "utf-16", "UTF-16"),
          (b"\xfe\xff", "utf-16", "UTF-16"))  # fmt: skip


@dataclass(frozen=True)
class Fault:
    """A fault in one cell or line.

    Attributes:
        line: line of the text, from 1.
        column: one of `roster_cells.READERS`, or ``line`` for the line as a whole.
        value: the cell, shortened.
        message: what is wrong and what to do.
    """

    line: int
    column: str
    value: str
    message: str


@dataclass(frozen=True)
class Row:
    """A fencer and the line it was read from."""

    line: int
    fields: dict[str, Any]


@dataclass(frozen=True)
class RosterTable:
    """A parsed table.

    Attributes:
        delimiter: comma, semicolon or tab.
        left_out: headings of columns that are ignored.
        rows: the fencers of lines without faults.
        faults: in the order of lines.
    """

    delimiter: str
    left_out: tuple[str, ...]
    rows: tuple[Row, ...]
    faults: tuple[Fault, ...]


def decoded(file: bytes) -> tuple[str, str]:
    """Decode a file; returns its text and the name of the encoding.

    Raises:
        Refused: it is not text.
    """
    if len(file) > MOST_BYTES:
        raise Refused(say("is over 256 kB: divide the table into smaller files"), "file")
    if file[:4] == b"PK\x03\x04" or file[:4] == b"\xd0\xcf\x11\xe0":
        raise Refused(say("is a spreadsheet's own format: save it there as CSV first"), "file")
    tries = [(codec, name) for mark, codec, name in _MARKS if file.startswith(mark)]
    for codec, name in tries or [("utf-8", "UTF-8"), ("cp1252", "Windows-1252")]:
        try:
            text = file.decode(codec)
        except UnicodeDecodeError:
            continue
        if "\0" not in text:
            return text, name
    raise Refused(say("is not text that can be read: save it as CSV UTF-8"), "file")


def read_table(text: str, year: int) -> RosterTable:
    """Parse a table whose first line has the headings, in any order.

    Args:
        year: the present one; later years of birth are faults.
    """
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    delimiter = _delimiter(text)
    faults: list[Fault] = []
    records = _records(text, delimiter, faults)
    columns: list[str | None] = []
    left_out: tuple[str, ...] = ()
    rows = []
    for line, cells in records:
        if not columns and line == 1 and _is_title(cells):
            continue
        if not columns:
            columns, left_out = _columns(line, cells, faults)
            if faults:
                break
            continue
        if len(rows) >= MOST_ROWS:
            said = say(
                "is one too many: divide the table, %(most)s fencers at a time", most=MOST_ROWS
            )
            faults.append(Fault(line, "line", "", said))
            break
        row = _row(line, cells, columns, year, faults)
        if row is not None:
            rows.append(row)
    if not columns and not faults:
        faults.append(Fault(1, "line", "", say("is missing: begin with a line of column names")))
    return RosterTable(DELIMITERS[delimiter], left_out, tuple(rows), tuple(faults))


def _is_title(cells: list[str]) -> bool:
    """Whether a first line is a title above the headings: one cell alone that is no heading."""
    filled = [cell for cell in cells if cell]
    return len(filled) == 1 and column_of(filled[0]) is None


def _delimiter(text: str) -> str:
    """The delimiter that gives the most known headings in one of the first two lines."""
    first = "\n".join([line for line in text.split("\n") if line.strip()][:2])
    known = {
        mark: sum(
            column_of(head.strip(' "')) is not None
            for line in first.split("\n")
            for head in line.split(mark)
        )
        for mark in DELIMITERS
    }
    return max(known, key=lambda mark: known[mark])


def _records(text: str, delimiter: str, faults: list[Fault]) -> Iterator[tuple[int, list[str]]]:
    """Records that are not empty, each with its first line's number."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    line = 1
    while True:
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error:
            said = say("cannot be divided into cells: see that every quotation mark is closed")
            faults.append(Fault(line, "line", "", said))
            return
        if any(cell.strip() for cell in cells):
            yield line, [original(cell.translate(SPACES).strip()) for cell in cells]
        line = reader.line_num + 1


def _columns(
    line: int, heads: list[str], faults: list[Fault]
) -> tuple[list[str | None], tuple[str, ...]]:
    columns = [column_of(head) for head in heads]
    for column in READERS:
        if columns.count(column) > 1:
            said = say("stands twice in the first line: leave one of them out")
            faults.append(Fault(line, column, "", said))
    for column in NEEDED:
        if column not in columns:
            said = say("is missing: the first line needs a column named %(column)s", column=column)
            faults.append(Fault(line, column, "", said))
    unknown = zip(heads, columns, strict=True)
    return columns, tuple(head[:60] for head, column in unknown if head and column is None)


def _row(
    line: int, cells: list[str], columns: list[str | None], year: int, faults: list[Fault]
) -> Row | None:
    before = len(faults)
    if any(cells[len(columns) :]):
        said = say(
            "has more cells than the first line: put quotation marks around a text with commas"
        )
        faults.append(Fault(line, "line", "", said))
    given = {column: cell for column, cell in zip(columns, cells, strict=False) if column}
    fields = {}
    for column, read in READERS.items():
        cell = given.get(column, "")
        try:
            fields[column] = read(cell, year)
        except Wrong as wrong:
            faults.append(Fault(line, column, cell[:60], wrong.message))
    return Row(line, fields) if len(faults) == before else None
