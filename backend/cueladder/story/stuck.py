"""Who is stuck: waits at one rung that luck does not explain, and what the marks say of why.

For each fencer and drill, the chart gives the chance that someone right nine times in ten would
still be waiting after as many cues, in counts that went on or began anew as these did. That chance
only falls as cues are added, so looking again every evening names nobody more. The smallest chances
are named, as many as keep the expected share of false names at one in ten (Benjamini & Hochberg
1995, J. Royal Statistical Society B 57:289). Other long waits are listed apart as possibly luck.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ..evidence.claims import said
from ..evidence.claims import wait as claims
from ..rules import Chart, Mark
from .standing import cue_words, rung_words
from .waits import Wait, chance, half
from .why import explained

# At most so many candidates have their marks read, the longest waits first.
MOST = 30


def stuck(
    rows: Sequence[tuple[dict[str, Any], Chart, dict[int, Wait]]], looked: int
) -> dict[str, Any]:
    """Name who is stuck.

    Args:
        rows: who and which drill (``fencer, name, drill, title, kind, paired``), the chart, waits.
        looked: number of drills looked at, those without a long wait included.

    Returns:
        ``{rows, looked, early, words}``; the state of a row is ``stuck`` or ``long``; ``early``
        counts waits too short to judge.
    """
    longest = [(who, chart, *_longest(chart, found)) for who, chart, found in rows if found]
    chances = [each[4] for each in longest] + [1.0] * max(0, looked - len(longest))
    names = claims.named(chances)
    told = [
        {
            "state": "stuck" if is_named else "long",
            **_told(who, chart, place, wait, p, is_named),
        }
        for (who, chart, place, wait, p), is_named in zip(longest, names, strict=False)
        if is_named or p <= claims.LONG_WAIT
    ]
    early = sum(claims.too_short(wait.cues) for _, _, _, wait, _ in longest)
    told.sort(key=lambda row: row["chance"])
    return {
        "rows": told,
        "looked": looked,
        "early": early,
        "words": claims.overall(sum(names), looked),
    }


def _longest(chart: Chart, found: dict[int, Wait]) -> tuple[int, Wait, float]:
    """The least likely wait; its chance is corrected for the number of waits (Bonferroni)."""
    place = min(found, key=lambda k: (chance(chart, found[k].lengths), k))
    return place, found[place], min(1.0, chance(chart, found[place].lengths) * len(found))


def _told(
    who: dict[str, Any], chart: Chart, place: int, wait: Wait, p: float, is_named: bool
) -> dict[str, Any]:
    rung = rung_words(chart, place)
    waits = claims.Waits(rung, wait.cues, wait.right, len(wait.lessons), p, half(chart))
    why, advice = explained(chart, place, wait, who["paired"])
    return {
        **{name: who[name] for name in ("fencer", "name", "drill", "title")},
        "rung": rung,
        "cue": cue_words(chart, place),
        "cues": wait.cues,
        "lessons": len(wait.lessons),
        "right": wait.right,
        "chance": p,
        "marks": {mark.value: wait.marks[mark] for mark in Mark},
        "rests": wait.rests,
        "why": why,
        "advice": advice,
        **said(claims.long_wait(waits, is_named)),
    }
