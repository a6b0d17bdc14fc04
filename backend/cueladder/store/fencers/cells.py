"""CSV cells that are safe in spreadsheets."""

from __future__ import annotations

import re

# The start of what a spreadsheet would run as a formula, also behind our own apostrophes.
_FORMULA = re.compile(r"'*[=+\-@\t\r]")
_MADE_HARMLESS = re.compile(r"'+[=+\-@\t\r]")


def harmless(text: str) -> str:
    """Escape a text that a spreadsheet would run as a formula, by an apostrophe in front."""
    return f"'{text}" if _FORMULA.match(text) else text


def original(cell: str) -> str:
    """Undo `harmless`; leaves any other cell as it is."""
    return cell[1:] if _MADE_HARMLESS.match(cell) else cell
