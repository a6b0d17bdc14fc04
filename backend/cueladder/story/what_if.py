"""How another rule would treat one fencer on one drill, given the fencer's own marks."""

from __future__ import annotations

from typing import Any

from ..evidence.claims import rule as claims
from ..evidence.claims import said
from ..evidence.guards import LEAST_TRIALS, share_words
from ..planning import Record, Standing
from ..planning.skill import skills
from ..planning.spread import Spread, spread
from ..rules import Chart, Drill, compile_chart, fresh
from ..rules.said import Said, joined, later, listed, say, say_n
from ..store.db.models import Fencer
from ..store.drills.versions import drill_in
from ..store.log.charts import chart_of
from ..store.replay.trials import trials_of
from ..store.replay.worked import worked_by
from .drill_text import drill_text
from .lesson_plan import LESSONS, record
from .plain import data
from .rule_words import rule_words
from .standing import cue_words, rung_words

COUNTED = {
    "all": later("%(share)s cues"),
    "attack": later("%(share)s cues to answer"),
    "decoy": later("%(share)s cues to leave"),
}
# A smaller difference in chance would not be noticed.
SAME_CHANCE = 0.02


def what_if(fencer: Fencer, drill_id: str, rule: dict[str, Any]) -> dict[str, Any]:
    """A fresh count at the fencer's rung, under the drill's present rule and under another.

    Returns:
        ``seen`` (what it is based on, in words), ``few`` (too few cues for more than a hint),
        ``present`` and ``edited`` (figures of `Spread` with ``words``), and ``words`` on the
        difference.

    Raises:
        Missing: no such drill in the fencer's club.
        RuleError: no such rule; the field starts with ``rule``.
    """
    drill, version = drill_in(fencer.club_id, drill_id)
    chart = chart_of(version.chart_id)
    edited = Drill.from_json({**version.document, "rule": rule})
    other = compile_chart(edited)
    standing = _standing(fencer, drill.id, drill_text(version.document, "name"), chart)
    place = standing.walk.work
    here = standing.record.get(place, (Record(),) * len(chart.counters))
    few = min(sum(counter) for counter in here) < LEAST_TRIALS
    ahead = skills(standing, place)
    old, new = (spread(each.table, ahead, each.cap, claims.AHEAD_ASKED) for each in (chart, other))
    return {
        "fencer": fencer.id,
        "drill": drill.id,
        "place": place,
        "seen": _seen(fencer.nickname, chart, place, here, few),
        "few": few,
        "present": {**data(old), **_told(old, few)},
        "edited": {**data(new), **_told(new, few)},
        "rule": rule_words(edited.rule),
        "words": _difference(fencer.nickname, old, new),
    }


def _standing(fencer: Fencer, drill_id: str, name: str, chart: Chart) -> Standing:
    """The fencer's standing; a fresh one where there are no marks."""
    worked = {each.drill_id: each for each in worked_by(fencer.club_id, fencer.id, archived=True)}
    if drill_id not in worked:
        return Standing(drill_id, name, chart, fresh(chart))
    trials = trials_of(fencer.club_id, fencer.id, drill_id, chart, LESSONS)
    return Standing(drill_id, name, chart, worked[drill_id].walk, record(chart, trials))


def _seen(name: str, chart: Chart, place: int, here: tuple[Record, ...], few: bool) -> Said:
    shares = [
        say(COUNTED[counter], share=share_words(one.passes, sum(one)))
        for counter, one in zip(chart.counters, here, strict=True)
        if sum(one)
    ]
    where: dict[str, object] = {
        "name": name,
        "rung": rung_words(chart, place),
        "cue": cue_words(chart, place),
    }
    if shares:
        found = say(
            "%(name)s is at %(rung)s (%(cue)s), right there in %(shares)s lately.",
            shares=listed(shares),
            **where,
        )
    else:
        found = say("%(name)s is at %(rung)s (%(cue)s), with no cue there yet.", **where)
    if not few:
        return found
    little = say(
        "That is little to go by (it takes at least %(least)s of each): take what follows as a "
        "first hint, mostly from what is usual.",
        least=LEAST_TRIALS,
    )
    return joined([found, little])


def _told(found: Spread, few: bool) -> dict[str, Any]:
    """The figures in words, coarser where they rest on little."""
    climb = (found.climb, found.climb_low, found.climb_high)
    return said(claims.ahead(climb, found.cues, (found.cues_low, found.cues_high), few))


def _difference(name: str, old: Spread, new: Spread) -> Said:
    chance, more = new.climb - old.climb, round(new.cues - old.cues)
    parts = []
    if chance >= SAME_CHANCE:
        parts.append(say("sends %(name)s up more often", name=name))
    elif chance <= -SAME_CHANCE:
        parts.append(say("sends %(name)s up less often", name=name))
    if more > 0:
        parts.append(
            say_n("takes about %(n)s more cue a try", "takes about %(n)s more cues a try", more)
        )
    elif more < 0:
        parts.append(
            say_n("takes about %(n)s cue fewer a try", "takes about %(n)s fewer cues a try", -more)
        )
    if not parts:
        return say("For %(name)s the two rules hardly differ.", name=name)
    return say("The new rule %(does)s.", does=listed(parts))
