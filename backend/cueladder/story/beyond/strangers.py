"""Would it hold against a stranger: the first cues with a coach, a hand or a place not met yet."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from typing import Any

from ...evidence.claims import said
from ...evidence.claims.stranger import stranger, teaches
from ...evidence.strangers import KINDS, UNTOLD, Seen
from ...evidence.strangers import Setting as Asked
from ...rules import Walk
from ...store.replay.settings import settings_of
from ...store.replay.trials import Point, Trials
from ..answers import PASS


def against_strangers(
    club_id: int, walk: Walk, points: Sequence[Point], trials: Trials, names: Mapping[str, str]
) -> dict[str, Any] | None:
    """What is foretold of somebody or somewhere new, at the rung last met.

    Only cues since that rung was met count: those by which it was learnt tell of another time.

    Returns:
        ``first``: a claim for each kind of setting of which it can be told, or the one that it
        cannot be told of a coach; ``teaches``: which setting would teach most, or None. None before
        a rung is met, and without cues since.
    """
    if walk.met is None:
        return None
    seen = _seen(club_id, _since(points, walk.met), walk.met, trials)
    if not seen:
        return None
    told = {kind: stranger(seen, kind) for kind in KINDS}
    known = [kind for kind, (_, found) in told.items() if found is not None]
    most = teaches(seen, known[0], names) if known else None
    return {
        "first": [said(told[kind][0]) for kind in known or KINDS[:1]],
        "teaches": said(most[0]) if most else None,
    }


def _since(points: Sequence[Point], place: int) -> set[str]:
    """The lessons that followed the one in which a rung was met, and has stayed so."""
    since: set[str] = set()
    met = False
    for point in points:
        if met:
            since.add(point.lesson)
        met = any(rung.place == place for rung in point.walk.rungs)
        if not met:
            since = set()
    return since


def _seen(club_id: int, since: set[str], place: int, trials: Trials) -> list[Seen]:
    settings = settings_of(club_id, [lesson for lesson in trials.lessons if lesson in since])
    counts: dict[Asked, list[int]] = defaultdict(lambda: [0, 0])
    for at, where, outcome in zip(
        trials.lesson.tolist(), trials.place.tolist(), trials.outcome.tolist(), strict=True
    ):
        lesson = trials.lessons[at]
        if where != place or lesson not in since:
            continue
        one = settings[lesson]
        count = counts[Asked(one.giver, one.hand or UNTOLD, one.place or UNTOLD)]
        count[0] += outcome == PASS
        count[1] += 1
    return [Seen(setting, right, cues) for setting, (right, cues) in counts.items()]
