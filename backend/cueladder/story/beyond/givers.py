"""Whether it goes as well with another coach as with the usual one."""

from __future__ import annotations

from collections import Counter
from typing import Any

from ...evidence.claims import said
from ...evidence.claims.where import compared
from ...evidence.flanked import blocks, strata
from ...store.replay.season import coach_names
from ...store.replay.settings import givers_of
from ...store.replay.trials import Trials
from ..answers import PASS


def by_giver(club_id: int, trials: Trials) -> dict[str, Any] | None:
    """The two coaches who gave most cues, at the same rungs and about the same time.

    None where one coach gave them all, and from too few lessons or cues.
    """
    givers = givers_of(club_id, trials.lessons)
    common = Counter(givers[lesson] for lesson in trials.lesson.tolist()).most_common(2)
    if len(common) < 2:
        return None
    (usual, _), (other, _) = common
    some = blocks(givers, usual, other)
    here = trials.place >= 0
    right = trials.outcome[here] == PASS
    rows = strata(some, trials.lesson[here], trials.place[here], right)
    names = coach_names(club_id)
    told = compared(rows, len(some), names[usual], names[other])
    return told and said(told)
