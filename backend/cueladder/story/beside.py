"""A second person's marks laid beside the coach's, cue by cue."""

from __future__ import annotations

from typing import Any

from ..evidence.agreement import compare_marks
from ..evidence.words import cues as cue_count
from ..rules.said import Said, joined, listed, say, say_n
from ..store.charts import chart_of
from ..store.lived import Seen, Step
from .plain import data
from .standing import cue_words, short_words


def beside(cues: list[Step], seen: tuple[Seen, ...]) -> dict[str, Any]:
    """How alike two people marked the same cues.

    Marks are paired by the number of the cue. Where a second person marked a number twice, the
    later mark counts. Marks without numbers are paired in order, and only where there are as many
    as the coach's.

    Args:
        cues: the coach's cues that stand, in order.
        seen: the second person's marks that stand, in order.

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
    found = data(
        compare_marks([_said(step) for step, _ in pairs], [other.mark.value for _, other in pairs])
    )
    return {**found, **told, "words": joined([found["words"], _unpaired(*alone)])}


def paired(cues: list[Step], seen: tuple[Seen, ...]) -> tuple[list[tuple[Step, Seen]], int]:
    """The pairs in order, and how many marks of the second person have no cue."""
    if not any(mark.number for mark in seen):
        same = len(cues) == len(seen)
        return (list(zip(cues, seen, strict=True)), 0) if same else ([], len(seen))
    by_number = {mark.number: mark for mark in seen if mark.number is not None}
    pairs = [(step, by_number[step.number]) for step in cues if step.number in by_number]
    return pairs, len(by_number) - len(pairs)


def _said(step: Step) -> str:
    assert step.mark is not None
    return step.mark.value


def _apart(step: Step, other: Seen) -> dict[str, Any]:
    chart = chart_of(step.chart)
    assert step.place is not None
    return {
        "number": step.number,
        "rung": short_words(chart, step.place),
        "cue": cue_words(chart, step.place),
        "coach": _said(step),
        "second": other.mark.value,
    }


def _never(cues: list[Step], seen: tuple[Seen, ...]) -> Said:
    if any(mark.number for mark in seen):
        return say("No cue of this drill was marked by both.")
    return say(
        "The observer marked %(theirs)s and the coach %(ours)s, so they cannot be laid side by "
        "side.",
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
