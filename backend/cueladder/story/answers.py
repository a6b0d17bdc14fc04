"""What the marks of one fencer on one drill show: counted here, judged and said by the claims."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..evidence.claims import Told, apart, heat, reach, said, share
from ..evidence.guards import percentage
from ..evidence.readiness import heat_shift
from ..evidence.threshold import position
from ..evidence.words import cues, lessons
from ..rules import Chart, Mark, Outcome, Walk
from ..rules.mark import OUTCOMES
from ..rules.said import later, listed, say, say_number
from ..store.replay.trials import MARKS, REMEDIES, Trials, gaps_of
from .plain import data
from .standing import rung_words

Mask = NDArray[np.bool_]

PASS = OUTCOMES.index(Outcome.PASS)
HOLD = OUTCOMES.index(Outcome.HOLD)
LATE, REACTED = MARKS.index(Mark.LATE), MARKS.index(Mark.DECOY)
SAID = {
    "correct": later("%(n)s correct"),
    "correct+tense": later("%(n)s correct, but tense"),
    "late": later("%(n)s late"),
    "early": later("%(n)s early or big"),
    "decoy": later("%(n)s fell for it"),
}
LEAST_GAPS = 10


def marks(trials: Trials) -> dict[str, Any]:
    """How often each mark was given."""
    counts = np.bincount(trials.mark, minlength=len(MARKS)).tolist()
    by_mark = {mark.value: n for mark, n in zip(MARKS, counts, strict=True)}
    told = [say(SAID[mark], n=n) for mark, n in by_mark.items() if n]
    words = say("No cues yet.")
    if len(trials):
        words = say(
            "%(cues)s in %(lessons)s: %(marks)s.",
            cues=cues(len(trials)),
            lessons=lessons(len(trials.lessons)),
            marks=listed(told),
        )
    return {
        "total": len(trials),
        "lessons": len(trials.lessons),
        "by_mark": by_mark,
        "words": words,
    }


def reliability(chart: Chart, walk: Walk, trials: Trials) -> dict[str, Any] | None:
    """How often right at the rung last met (the rung at work where none is met).

    None without cues at that rung.
    """
    place = walk.met if walk.met is not None else walk.work
    here = trials.outcome[trials.place == place]
    if here.size == 0:
        return None
    right, rung = int((here == PASS).sum()), rung_words(chart, place)
    told, ends = share.share_at(rung, right, int(here.size))
    return {
        "place": place,
        "rung": rung,
        "right": right,
        "trials": int(here.size),
        "percent": percentage(right, int(here.size)),
        "low": ends[0] if ends else None,
        "high": ends[1] if ends else None,
        **said(told),
    }


def recent(trials: Trials) -> Mask:
    """The cues of the last lessons: of someone who is learning, older ones tell of another time."""
    return np.asarray(trials.lesson >= len(trials.lessons) - reach.RECENT)


def reaches(chart: Chart, trials: Trials, family: reach.Family) -> dict[str, Any] | None:
    """How far up a ladder the answers hold; None without that ladder or without such cues.

    In a mixed drill both kinds of cue are asked for, by what was answered and what was left
    alone. Else only what bears on the ladder counts: a slip whose remedy is the other ladder is
    left out, and a tense answer was read, but not held.
    """
    ladder = chart.ladders[family]
    if ladder is None:
        return None
    rungs = trials.read if family == "read" else trials.heat
    counted = (rungs >= 0) & recent(trials)
    if family == "heat":
        counted &= trials.loud != 0
    good = trials.outcome == PASS
    if family == "read":
        good = np.isin(trials.outcome, (PASS, HOLD))
    if _mixed(chart):
        if family == "read":
            good = np.where(trials.attack == 1, trials.mark != LATE, trials.mark != REACTED)
        kinds = [counted & (trials.attack == 1), counted & (trials.attack == 0)]
    else:
        kinds = [counted & np.isin(trials.remedy, (0, REMEDIES.index(family)))]
    if not all(kind.any() for kind in kinds):
        return None
    size = len(ladder["rungs"])
    counts = [
        (
            np.bincount(rungs[kind & good], minlength=size).tolist(),
            np.bincount(rungs[kind], minlength=size).tolist(),
        )
        for kind in kinds
    ]
    labels = [say("“%(label)s”", label=rung["label"]) for rung in ladder["rungs"]]
    told, found = reach.reach_of(family, counts, labels)
    by_rung = np.array(counts).sum(axis=0).T.tolist()
    middle = min(position(right, cues) for right, cues in counts)
    return {**data(found), "position": middle, "by_rung": by_rung, **_said(told)}


def telling_apart(chart: Chart, trials: Trials) -> dict[str, Any] | None:
    """d' and c from cues answered and left alone; None in other drills."""
    if not _mixed(chart):
        return None
    counts = hits_and_alarms(trials, np.ones(len(trials), bool))
    if not counts[1] or not counts[3]:
        return None
    told, found, lean = apart.apart(*counts)
    named = dict(zip(("hits", "attacks", "false_alarms", "decoys"), counts, strict=True))
    return {**named, **data(found), **_said(told), "lean": lean and _said(lean)}


def heat_effect(chart: Chart, trials: Trials) -> dict[str, Any] | None:
    """Loud cues against soft ones, each lesson and rung compared with itself; None without both.

    On the mildest rung a loud cue is no louder than a soft one, so it is left out.
    """
    here = trials.heat > 0
    kinds = {"all": here}
    if _mixed(chart):
        kinds = {"attack": here & (trials.attack == 1), "decoy": here & (trials.attack == 0)}
    rows = {name: _strata(trials, kind) for name, kind in kinds.items()}
    shift = heat_shift(_by_rung(trials, here)) if _mixed(chart) and here.any() else None
    told = heat.heat_of(rows, shift)
    if told is None:
        return None
    compared = {name: one for name in rows if (one := heat.compare(rows[name])) is not None}
    return {
        "kinds": {
            name: {"soft": one.soft, "loud": one.loud, **data(one.effect)}
            for name, one in compared.items()
        },
        "shift": shift and data(shift),
        **_said(told),
    }


def hits_and_alarms(trials: Trials, here: Mask) -> tuple[int, int, int, int]:
    """Cues to answer that were answered, all of those, cues to leave alone reacted to, all."""
    attacks, decoys = here & (trials.attack == 1), here & (trials.attack == 0)
    return (
        int((attacks & (trials.mark != LATE)).sum()),
        int(attacks.sum()),
        int((decoys & (trials.mark == REACTED)).sum()),
        int(decoys.sum()),
    )


def pace(trials: Trials) -> dict[str, Any] | None:
    """The fencer's own seconds from cue to cue; None from too few gaps."""
    gaps = gaps_of(trials)
    if gaps.size < LEAST_GAPS:
        return None
    seconds = float(np.median(gaps))
    words = say("About %(seconds)s seconds a cue.", seconds=say_number(seconds))
    return {"seconds": seconds, "gaps": gaps.size, "words": words}


def _mixed(chart: Chart) -> bool:
    return len(chart.counters) > 1


def _said(told: Told) -> dict[str, Any]:
    return {**said(told), "acts": told.acts}


def _strata(trials: Trials, here: Mask) -> list[list[int]]:
    """[soft right, soft cues, loud right, loud cues] of each lesson and rung that had both."""
    rows = []
    for lesson, place in sorted(set(zip(*_keys(trials, here), strict=True))):
        these = here & (trials.lesson == lesson) & (trials.place == place)
        row: list[int] = []
        for loud in (0, 1):
            outcome = trials.outcome[these & (trials.loud == loud)]
            row += [int((outcome == PASS).sum()), int(outcome.size)]
        if row[1] and row[3]:
            rows.append(row)
    return rows


def _keys(trials: Trials, here: Mask) -> tuple[list[int], list[int]]:
    return trials.lesson[here].tolist(), trials.place[here].tolist()


def _by_rung(trials: Trials, here: Mask) -> list[list[int]]:
    """Eight counts of each rung as `heat_shift` takes them."""
    return [
        [
            n
            for loud in (0, 1)
            for n in hits_and_alarms(trials, here & (trials.place == k) & (trials.loud == loud))
        ]
        for k in sorted(set(trials.place[here].tolist()))
    ]
