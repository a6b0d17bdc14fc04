"""The table of figures against their bars."""

from __future__ import annotations

import os
from dataclasses import dataclass, field


@dataclass
class Table:
    """Rows of (what, figure, bar); `bar` None where a figure has none."""

    rows: list[tuple[str, str, str, str]] = field(default_factory=list)

    def add(self, what: str, value: float, unit: str, bar: float | None = None) -> None:
        """Note a figure; it is printed at once too, since the whole run takes minutes."""
        shown = f"{value:,.0f} {unit}"
        if bar is None:
            verdict, against = "", ""
        else:
            verdict, against = ("held" if value <= bar else "OVER"), f"<= {bar:,.0f} {unit}"
        self.rows.append((what, shown, against, verdict))
        print(f"  {what}: {shown} (load {os.getloadavg()[0]:.1f})", flush=True)

    def __str__(self) -> str:
        widths = [max(len(row[i]) for row in self.rows) for i in range(4)]
        return "\n".join(
            "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
            for row in self.rows
        )
