"""Who is stuck: waits at one rung that luck alone does not explain, and what the marks say of why.

For each fencer and drill the cues at a rung since it was last met are laid beside the chart: how
often would a fencer who is right nine times in ten there still be waiting after so many cues, cut
into lessons as these were? That chance can only fall as cues are added, so looking again every
evening names nobody the more. Of all drills looked at, those are named whose chances are small
enough that on average at most one name in ten is chance (`evidence.waiting.discoveries`). Waits
that are long but not so long are listed apart, and said to be luck, perhaps.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ..evidence.guards import LEAST_TRIALS, share_words
from ..evidence.reliability import proportion
from ..evidence.waiting import discoveries
from ..evidence.words import cues, lessons
from ..rules import Chart, Mark
from ..rules.said import Said, joined, say, say_n
from .plain import times_in_100
from .standing import cue_words, rung_words
from .waits import RIGHT, Wait, chance, half
from .why import why as say_why

WRONG = 0.1
LONG = 0.1
# Candidates whose marks are read; the longest waits first.
MOST = 30


def stuck(
    rows: Sequence[tuple[dict[str, Any], Chart, dict[int, Wait]]], looked: int
) -> dict[str, Any]:
    """Name who is stuck.

    Args:
        rows: who and which drill (``fencer, name, drill, title, kind, paired``), the chart, waits.
        looked: drills looked at in all, those without a long wait included.

    Returns:
        ``{rows, looked, early, words}``; each row is ``stuck`` or only ``long``; ``early`` counts
        waits too short to say anything.
    """
    longest = [(who, chart, *_longest(chart, found)) for who, chart, found in rows if found]
    chances = [each[4] for each in longest] + [1.0] * max(0, looked - len(longest))
    named = discoveries(chances, WRONG)
    told = [
        {"state": "stuck" if is_named else "long", **_told(who, chart, place, wait, p)}
        for (who, chart, place, wait, p), is_named in zip(longest, named, strict=False)
        if is_named or p <= LONG
    ]
    early = sum(wait.cues < LEAST_TRIALS for _, _, _, wait, _ in longest)
    told.sort(key=lambda row: row["chance"])
    return {"rows": told, "looked": looked, "early": early, "words": _overall(sum(named), looked)}


def _longest(chart: Chart, found: dict[int, Wait]) -> tuple[int, Wait, float]:
    """The wait least explained by luck; its chance counts how many there were to choose from."""
    place = min(found, key=lambda k: (chance(chart, found[k].lengths), k))
    return place, found[place], min(1.0, chance(chart, found[place].lengths) * len(found))


def _told(who: dict[str, Any], chart: Chart, place: int, wait: Wait, p: float) -> dict[str, Any]:
    rung = rung_words(chart, place)
    usual = half(chart)
    parts: list[str] = [
        say(
            "%(cues)s at %(rung)s in %(lessons)s, %(share)s right. Someone right 9 times in 10 "
            "there would still be waiting %(chance)s.",
            cues=cues(wait.cues),
            rung=rung,
            lessons=lessons(len(wait.lessons)),
            share=share_words(wait.right, wait.cues),
            chance=times_in_100(p),
        )
    ]
    if usual is not None:
        parts.append(say("Half of such fencers need no more than %(n)s in one go.", n=usual))
    interval = proportion(wait.right, wait.cues).wilson
    if interval[1] >= RIGHT and wait.right / wait.cues > 0.85:
        parts.append(say("The share right is close to that: it may simply be bad luck."))
    why, advice = say_why(chart, place, wait, who["paired"])
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
        "words": joined(parts),
    }


def _overall(named: int, looked: int) -> Said:
    if looked == 0:
        return say("Nothing to look at: no drill was worked in these weeks.")
    seen = say_n("%(n)s drill in progress looked at", "%(n)s drills in progress looked at", looked)
    if named == 0:
        return say("%(seen)s: no wait is so long that luck alone could hardly make it.", seen=seen)
    return say(
        "%(seen)s; %(named)s named. On average at most one name in ten is here by bad luck "
        "alone, so look before you act.",
        seen=seen,
        named=named,
    )
