"""What partners ticked in sets that fencers gave each other, drill by drill."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from ...evidence.claims import said
from ...evidence.claims.partner import ticked
from ...store.log.charts import chart_of
from ...store.replay.bouts import documents_of
from ...store.replay.partner_sets import Given, sets_of
from ..drill_text import drill_text
from ..standing import cue_words, rung_words


def by_partners(club_id: int, fencer_id: str) -> list[dict[str, Any]]:
    """The sets at each drill's rung that was given last, the newest drill first.

    Returns:
        Rows with the ``drill``, the day of the ``last`` set, how many ``sets``, the counts
        ``right`` and ``given``, the ``cue`` in words, and a claim with its words.
    """
    found: dict[str, list[Given]] = {}
    for each in sets_of(club_id, fencer_id):
        found.setdefault(each.drill, []).append(each)
    documents = documents_of(club_id, list(found))
    rows = []
    for drill, sets in found.items():
        newest = sets[0]
        # the newest ones, for as long as they were given at the same rung
        _, same = next(groupby(sets, key=lambda each: (each.chart, each.place)))
        here = list(same)
        chart = chart_of(newest.chart)
        right, given = sum(one.right for one in here), sum(one.given for one in here)
        document = documents[drill]
        rows.append(
            {
                "drill": {
                    "id": drill,
                    "name": drill_text(document, "name"),
                    "kind": document["kind"],
                },
                "last": newest.day,
                "sets": len(here),
                "right": right,
                "given": given,
                "cue": cue_words(chart, newest.place),
                **said(ticked(rung_words(chart, newest.place), right, given, len(here))),
            }
        )
    return rows
