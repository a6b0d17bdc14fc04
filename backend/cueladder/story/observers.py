"""An observer's marks compared with the coach's, cue by cue."""

from __future__ import annotations

from typing import Any

from ..evidence.agreement import Agreement, compare_marks
from ..evidence.claims import said
from ..evidence.claims.alike import alike
from ..evidence.words import cues as cue_count
from ..rules.said import Said, joined, listed, say, say_n
from ..store.log.charts import chart_of
from ..store.replay.lived import Seen, Step
from .plain import data
from .standing import cue_words, short_words


def observed(cues: list[Step], seen: tuple[Seen, ...]) -> dict[str, Any]:
    """Agreement of coach and observer on the same cues.

    Marks are paired by cue number; where the observer marked a number twice, the later mark
    counts. Marks without numbers are paired in order, but only if both gave equally many.

    Args:
        cues: the coach's cues that stand, in order.
        seen: the observer's marks that stand, in order.

    Returns:
        The fields of `Agreement` where there is a pair, else ``kappa`` None; ``pairs``: how many;
        ``alone``: cues that only the coach, and only the second person marked; ``apart``: the cues
        on which they differ, ``{number, rung, cue, coach, second}``; ``words``.
    """
    pairs, theirs_alone = paired(cues, seen)
    alone = [len(cues) - len(pairs), theirs_alone]
    apart = [_apart(step, other) for step, other in pairs if step.mark != other.mark]
    told = {"pairs": len(pairs), "alone": alone, "apart": apart}
    if not pairs:
        return {"kappa": None, "words": _never(cues, seen), **told}
    ours, theirs = [_mark(step) for step, _ in pairs], [other.mark.value for _, other in pairs]
    found = compare_marks(ours, theirs)
    claim = said(alike(found))
    return {
        **figures(found),
        **told,
        **claim,
        "words": joined([claim["words"], _unpaired(*alone)]),
    }


def figures(found: Agreement) -> dict[str, Any]:
    """The fields of an agreement; kappa only where it has a range."""
    return data(found) | ({"kappa": None} if found.low is None else {})


def paired(cues: list[Step], seen: tuple[Seen, ...]) -> tuple[list[tuple[Step, Seen]], int]:
    """The pairs in order, and how many of the observer's marks have no cue."""
    if not any(mark.number for mark in seen):
        same = len(cues) == len(seen)
        return (list(zip(cues, seen, strict=True)), 0) if same else ([], len(seen))
    by_number = {mark.number: mark for mark in seen if mark.number is not None}
    pairs = [(step, by_number[step.number]) for step in cues if step.number in by_number]
    return pairs, len(by_number) - len(pairs)


def _mark(step: Step) -> str:
    assert step.mark is not None
    return step.mark.value


def _apart(step: Step, other: Seen) -> dict[str, Any]:
    chart = chart_of(step.chart)
    assert step.place is not None
    return {
        "number": step.number,
        "rung": short_words(chart, step.place),
        "cue": cue_words(chart, step.place),
        "coach": _mark(step),
        "second": other.mark.value,
    }


def _never(cues: list[Step], seen: tuple[Seen, ...]) -> Said:
    if any(mark.number for mark in seen):
        return say("No cue of this drill was marked by both.")
    return say(
        "The observer marked %(theirs)s and the coach %(ours)s, so they cannot be compared.",
        theirs=cue_count(len(seen)),
        ours=len(cues),
    )


def _unpaired(ours: int, theirs: int) -> str:
    parts = []
    if ours:
        parts.append(
            say_n("%(n)s cue marked by the coach only", "%(n)s cues marked by the coach only", ours)
        )
    if theirs:
        parts.append(
            say_n(
                "%(n)s cue marked by the second person only",
                "%(n)s cues marked by the second person only",
                theirs,
            )
        )
    return say("Left out: %(what)s.", what=listed(parts)) if parts else ""
