"""Everything a club's marks of one kind of drill say, as plain figures."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from typing import Any

import numpy as np

from cueladder.rules import Chart, Kind
from cueladder.rules.breaks import Breaks, breaks_json

from . import breaks as broken
from . import compare, predictive
from .cells import Cells
from .fit import enough, fit
from .told import UNSOUND, known


def learn(
    kind: Kind,
    cells: Cells,
    checks: Sequence[Sequence[int]],
    early: float,
    charts: Mapping[str, Chart],
    now: str,
    breaks: Breaks,
    seed: int,
) -> dict[str, Any]:
    """The fit, its checks, the settings beside each other, and what breaks cost.

    Args:
        kind: kind of drill.
        cells: the marks.
        checks: (re-checks begun, held) by row of the re-entry table.
        early: share of slips to a cue to answer that were early or big.
        charts: the club's most worked drill under each setting.
        now: the setting it has.
        breaks: its re-entry rows.
        seed: of all chance.

    Returns:
        Figures as JSON; ``known`` and all that rests on a fit None where there are too few marks.
    """
    told: dict[str, Any] = {
        "kind": kind.value, "marks": cells.marks, "fencers": cells.fencers,
        "lessons": cells.lessons, "now": now, "checks": [list(row) for row in checks],
        "breaks": breaks_json(breaks), "sound": None, "known": None, "beside": None,
        "settings": None, "did": None, "suggested": None, "lost": None, "new_breaks": None,
    }  # fmt: skip
    if not enough(cells):
        return told
    rng = np.random.default_rng(seed)
    found = fit(cells, rng)
    figures = known(found)
    habits = compare.habits_of(found, early)
    served = compare.compare(found, charts, habits, seed)
    did = compare.done(found, kind, habits)
    rows = broken.lost(found)
    sound = found.sound >= UNSOUND
    # what fencers would do rests on how fast they gain, and breaks on that and on the loss
    able = sound and figures["gain"].told
    heated = kind is not Kind.SENSITIZATION
    loses = able and figures["loss"].told
    new = broken.suggested(rows, breaks, lower_only=heated) if loses else None
    plain: dict[str, Any] = _plain(
        {
            "sound": found.sound,
            "known": {name: asdict(one) for name, one in figures.items()},
            "beside": {
                name: [asdict(one) for one in rows]
                for name, rows in predictive.beside(found, rng).items()
            },
            "settings": {name: asdict(one) for name, one in served.items()} if able else None,
            "did": asdict(did) if did else None,
            "suggested": compare.suggested(served, now) if able else None,
            "lost": [asdict(row) for row in rows] if loses else None,
            "new_breaks": breaks_json(new) if new else None,
        }
    )
    return told | plain


def _plain(value: Any) -> Any:
    """As JSON has it: no numpy, five digits."""
    if isinstance(value, dict):
        return {key: _plain(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(each) for each in value]
    if isinstance(value, float | np.floating):
        return float(f"{value:.5g}")
    return int(value) if isinstance(value, np.integer) else value
