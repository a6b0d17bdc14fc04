"""What the marks of one fencer on one drill show, each with its guard and its words."""

from __future__ import annotations

from typing import Any

import numpy as np

from ..evidence.detection import detect
from ..evidence.invariance import across_lessons
from ..evidence.reliability import clean_run, proportion
from ..evidence.threshold import fiercest_cue_held, smallest_cue_read
from ..evidence.words import cues, lessons
from ..rules import Chart, Mark, Outcome, Walk
from ..rules.mark import OUTCOMES
from ..rules.said import later, listed, say, say_number
from ..store.trials import MARKS, REMEDIES, Trials, gaps_of
from .plain import data
from .standing import rung_words

PASS = OUTCOMES.index(Outcome.PASS)
HOLD = OUTCOMES.index(Outcome.HOLD)
SAID = {
    "correct": later("%(n)s right"),
    "correct+tense": later("%(n)s right but tense"),
    "late": later("%(n)s late"),
    "early": later("%(n)s early or too big"),
    "decoy": later("%(n)s took the decoy"),
}
LEAST_GAPS = 10
REACH = {"read": smallest_cue_read, "heat": fiercest_cue_held}


def marks(trials: Trials) -> dict[str, Any]:
    """How often each mark was given."""
    counts = np.bincount(trials.mark, minlength=len(MARKS)).tolist()
    by_mark = {mark.value: n for mark, n in zip(MARKS, counts, strict=True)}
    said = [say(SAID[mark], n=n) for mark, n in by_mark.items() if n]
    words = say("No cues yet.")
    if len(trials):
        words = say(
            "%(cues)s in %(lessons)s: %(marks)s.",
            cues=cues(len(trials)),
            lessons=lessons(len(trials.lessons)),
            marks=listed(said),
        )
    return {
        "total": len(trials),
        "lessons": len(trials.lessons),
        "by_mark": by_mark,
        "words": words,
    }


def reliability(chart: Chart, walk: Walk, trials: Trials) -> dict[str, Any] | None:
    """How sure the rung last met is (the rung at work where none is met), from all its cues.

    All right: what so long a clean run shows (success run). Else: the share right with its
    intervals. None without cues at that rung.
    """
    place = walk.met if walk.met is not None else walk.place
    here = trials.outcome[trials.place == place]
    if here.size == 0:
        return None
    right = int((here == PASS).sum())
    said: dict[str, Any] = {"place": place, "rung": rung_words(chart, place)}
    found = data(proportion(right, int(here.size)))
    run = data(clean_run(right)) if right == here.size else None
    words = run["words"] if run else found.pop("words")
    return {
        **said,
        **found,
        "clean_run": run,
        "words": say("At %(rung)s: %(words)s", rung=said["rung"], words=words),
    }


def reach(chart: Chart, trials: Trials, family: str) -> dict[str, Any] | None:
    """Smallest cue read or fiercest cue held; None without that ladder or without such cues.

    Only what bears on the ladder counts: a slip whose remedy is the other ladder is left out; for
    reading, attacks only, and tense answers were read; for heat, soft cues in a mixed set are left
    out, and tense answers were not held.
    """
    ladder = chart.ladders[family]
    if ladder is None:
        return None
    rungs = trials.read if family == "read" else trials.heat
    counted = (rungs >= 0) & np.isin(trials.remedy, (0, REMEDIES.index(family)))
    if family == "read":
        counted &= trials.attack == 1
        right = counted & np.isin(trials.outcome, (PASS, HOLD))
    else:
        counted &= trials.loud != 0
        right = counted & (trials.outcome == PASS)
    if not counted.any():
        return None
    labels = [say("“%(label)s”", label=rung["label"]) for rung in ladder["rungs"]]
    size = len(labels)
    rights = np.bincount(rungs[right], minlength=size).tolist()
    totals = np.bincount(rungs[counted], minlength=size).tolist()
    found = data(REACH[family](rights, totals, labels=labels))
    return {**found, "by_rung": [[r, n] for r, n in zip(rights, totals, strict=True)]}


def telling_apart(chart: Chart, trials: Trials) -> dict[str, Any] | None:
    """d' and c from attacks answered and decoys reacted to; None in other drills."""
    if len(chart.counters) < 2:
        return None
    late, reacted = MARKS.index(Mark.LATE), MARKS.index(Mark.DECOY)
    attacks, decoys = trials.attack == 1, trials.attack == 0
    if not attacks.any() or not decoys.any():
        return None
    hits = int((attacks & (trials.mark != late)).sum())
    alarms = int((decoys & (trials.mark == reacted)).sum())
    counts = {"attacks": int(attacks.sum()), "decoys": int(decoys.sum())}
    found = data(detect(hits, counts["attacks"], alarms, counts["decoys"]))
    return {"hits": hits, "false_alarms": alarms, **counts, **found}


def heat(trials: Trials) -> dict[str, Any] | None:
    """Are answers to loud cues as good as to soft ones, over lessons? None without both."""
    rows = soft_and_loud(trials)
    return data(across_lessons(rows)) if rows else None


def soft_and_loud(trials: Trials) -> list[list[int]]:
    """[soft right, soft cues, loud right, loud cues] of each lesson that had both."""
    rows = []
    for k in range(len(trials.lessons)):
        row = []
        for loud in (0, 1):
            these = trials.outcome[(trials.lesson == k) & (trials.loud == loud)]
            row += [int((these == PASS).sum()), int(these.size)]
        if row[1] and row[3]:
            rows.append(row)
    return rows


def pace(trials: Trials) -> dict[str, Any] | None:
    """The fencer's own seconds from cue to cue; None from too few gaps."""
    gaps = gaps_of(trials)
    if gaps.size < LEAST_GAPS:
        return None
    seconds = float(np.median(gaps))
    words = say("About %(seconds)s seconds a cue.", seconds=say_number(seconds))
    return {"seconds": seconds, "gaps": gaps.size, "words": words}
