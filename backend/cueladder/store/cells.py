"""Cells of CSV files that other people's spreadsheets open."""

from __future__ import annotations

import re

# What a spreadsheet takes for the beginning of a formula, also behind our own apostrophes.
_FORMULA = re.compile(r"'*[=+\-@\t\r]")
_MADE_HARMLESS = re.compile(r"'+[=+\-@\t\r]")


def harmless(text: str) -> str:
    """A text as a cell that no spreadsheet takes for a formula: an apostrophe goes before it."""
    return f"'{text}" if _FORMULA.match(text) else text


def original(cell: str) -> str:
    """The text of a cell made by `harmless`; any other cell is left as it is."""
    return cell[1:] if _MADE_HARMLESS.match(cell) else cell
