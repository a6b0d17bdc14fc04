"""What a fencer's bouts show of the actions that were practised."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

import numpy as np

from ...evidence.claims import apart, bout, said
from ...evidence.guards import LEAST_TRIALS
from ...rules.said import Said, joined, say_n
from ...store.replay.bouts import Tally, bouts_of, documents_of
from ...store.replay.trials import LESSONS, trials_of
from ...store.replay.worked import Worked
from ..answers import HOLD, PASS, recent
from ..drill_text import drill_text


def in_bouts(club_id: int, fencer_id: str, worked: list[Worked]) -> list[dict[str, Any]]:
    """The bouts of each drill that was watched for, worked or not, the one watched last first.

    Args:
        club_id, fencer_id: the fencer.
        worked: the drills the fencer has worked.

    Returns:
        Rows with the ``drill``, the exact counts, a claim with its words and range, and ``apart``:
        whether real ones and feints were told apart, None from too few.
    """
    known = {each.drill_id: each for each in worked}
    found = bouts_of(club_id, fencer_id)
    documents = documents_of(club_id, list(found))
    return [
        {
            "drill": {
                "id": drill,
                "name": drill_text(documents[drill], "name"),
                "kind": documents[drill]["kind"],
            },
            **_told(tally, _in_lessons(club_id, fencer_id, known.get(drill))),
        }
        for drill, tally in found.items()
    ]


def _told(tally: Tally, lesson: tuple[int, int] | None) -> dict[str, Any]:
    told, ends = bout.shares(tally.answered, tally.met, lesson)
    rest = bout.rest(tally.fallen, tally.shown, tally.scored, tally.conceded)
    return {
        **asdict(tally),
        "claim": told.claim,
        "words": joined([told.words, rest, _of(tally.bouts)]),
        "lesson": lesson,
        "low": ends[0] if ends else None,
        "high": ends[1] if ends else None,
        "apart": _apart(tally),
    }


def _of(bouts: int) -> Said:
    return say_n("(%(n)s bout watched.)", "(%(n)s bouts watched.)", bouts)


def _in_lessons(club_id: int, fencer_id: str, each: Worked | None) -> tuple[int, int] | None:
    """Right answers and cues to answer in the last lessons."""
    if each is None:
        return None
    trials = trials_of(club_id, fencer_id, each.drill_id, each.chart, LESSONS)
    asked = recent(trials) & (trials.attack == 1)
    right = np.isin(trials.outcome, (PASS, HOLD)) & asked
    return (int(right.sum()), int(asked.sum())) if asked.any() else None


def _apart(tally: Tally) -> dict[str, Any] | None:
    """d′ and c of the bouts, by the same claims as of lessons."""
    if min(tally.met, tally.shown) < LEAST_TRIALS:
        return None
    told, found, lean = apart.apart(tally.answered, tally.met, tally.fallen, tally.shown)
    words = joined([told.words, lean.words if lean else ""])
    return {
        **said(told),
        "words": bout.in_bouts(words),
        "sensitivity": found.sensitivity,
        "criterion": found.criterion,
    }
