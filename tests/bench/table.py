"""The table of figures against their bars."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np


@dataclass
class Table:
    """Rows of (what, figure, bar); `bar` None where a figure has none."""

    rows: list[tuple[str, str, str, str]] = field(default_factory=list)

    def times(self, what: str, value: float, floor: float, bar: float) -> None:
        """Note a figure as so many times an empty page's, which the same other work slows."""
        ratio = value / floor
        verdict = "held" if ratio <= bar else "OVER"
        self._note(f"{what}, times an empty page's", f"{ratio:.2f} ×", f"<= {bar:.1f} ×", verdict)

    def steps(self, of: str, names: Sequence[str], moments: Sequence[Sequence[float]]) -> None:
        """Note what each step took, as the median over rows of the moments at which one ended."""
        took = np.median(np.diff(np.array(moments), axis=1, prepend=0.0), axis=0)
        for name, ms in zip(names, took, strict=True):
            self.add(f"  {of}: until {name}", float(ms), "ms")

    def add(self, what: str, value: float, unit: str, bar: float | None = None) -> None:
        """Note a figure; it is printed at once too, since the whole run takes minutes."""
        shown = f"{value:,.0f} {unit}"
        if bar is None:
            verdict, against = "", ""
        else:
            verdict, against = ("held" if value <= bar else "OVER"), f"<= {bar:,.0f} {unit}"
        self._note(what, shown, against, verdict)

    def _note(self, what: str, shown: str, against: str, verdict: str) -> None:
        self.rows.append((what, shown, against, verdict))
        print(f"  {what}: {shown} (load {os.getloadavg()[0]:.1f})", flush=True)

    def __str__(self) -> str:
        widths = [max(len(row[i]) for row in self.rows) for i in range(4)]
        return "\n".join(
            "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
            for row in self.rows
        )
