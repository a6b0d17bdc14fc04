"""How a change of a drill affects the fencers who are working on it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..rules import Drill, compile_chart
from ..rules.said import Said, joined, say, say_n
from ..store.drills.midway import midway
from ..store.drills.versions import drill_in
from ..store.log.charts import chart_of
from ..store.replay.trials import carried
from .standing import cue_words, rung_words


def effect(club_id: int, drill_id: str, document: Mapping[str, Any]) -> dict[str, Any]:
    """Who is working on a drill, and where each continues once it is changed.

    Returns:
        ``judged`` (whether it changes how cues are judged, not only words), ``fencers`` (each
        with ``now`` and ``then`` as ``{rung, cue}``, whether the cue stays the ``same``, and
        whether a lesson is ``running``) and ``words``.

    Raises:
        Missing: no such drill in this club.
        RuleError: the document is no drill; names the field.
    """
    drill, version = drill_in(club_id, drill_id)
    new = compile_chart(Drill.from_json({**document, "slug": drill.slug}))
    judged = new.id != version.chart_id
    fencers = []
    for each in midway(club_id, drill_id) if judged else ():
        old = chart_of(each.walk["chart"])
        was = each.walk["place"]
        now = {"rung": rung_words(old, was), "cue": cue_words(old, was)}
        place = carried(new, each.walk).place
        then = {"rung": rung_words(new, place), "cue": cue_words(new, place)}
        fencers.append(
            {
                "fencer": each.fencer_id,
                "nickname": each.nickname,
                "day": each.day,
                "running": each.running,
                "now": now,
                "then": then,
                "same": now["cue"] == then["cue"],
            }
        )
    return {"judged": judged, "fencers": fencers, "words": _words(judged, fencers)}


def _words(judged: bool, fencers: list[dict[str, Any]]) -> Said:
    if not judged:
        return say("Only words change: every count and every standing stays as it is.")
    if not fencers:
        return say("Nobody has worked this drill yet: the change disturbs no one.")
    who = say_n(
        "%(n)s fencer is in the middle of this drill.",
        "%(n)s fencers are in the middle of this drill.",
        len(fencers),
    )
    stays = say(
        "Marks already given stay judged by the rule they were given under. From the next cue on "
        "the new one counts; a count begins anew where its rule or the words of its rung change."
    )
    moved = [each["nickname"] for each in fencers if not each["same"]]
    names = ", ".join(moved)
    return joined(
        [who, stays, say("Another cue than now: %(names)s.", names=names) if moved else ""]
    )
