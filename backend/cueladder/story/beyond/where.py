"""In which settings what is secure has held, and which setting would tell more."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from ...evidence.claims import said
from ...evidence.claims.where import where as claim
from ...evidence.claims.where import where_unnamed
from ...rules import Chart, Walk
from ...rules.elsewhere import asks_elsewhere
from ...rules.said import Said, joined, later, say
from ...store.access.clubs import coaches_of
from ...store.replay.partner_sets import held_with_partner
from ...store.replay.season import coach_names
from ...store.replay.settings import LATELY, Held, Setting, apart, held_at, places_of

HANDS = {"right": later("right hand"), "left": later("left hand")}
STATES = {"fresh": later("fresh"), "bouting": later("after bouting")}


@dataclass(frozen=True)
class Around:
    """What a club has of settings: names of all its coaches, how many teach, and its places."""

    names: Mapping[str, str]
    teach: int
    places: Sequence[str]

    @classmethod
    def of(cls, club_id: int, today: date) -> Around:
        """Of a club, as it was lately."""
        teach = sum(each["active"] and each["role"] != "observer" for each in coaches_of(club_id))
        since = (today - timedelta(days=LATELY)).isoformat()
        return cls(coach_names(club_id), teach, places_of(club_id, since))


def where_held(
    club_id: int, fencer_id: str, drill_id: str, chart: Chart, walk: Walk, around: Around
) -> dict[str, Any] | None:
    """Where the rung last secured has held; None where nothing is secure.

    Returns:
        A claim with ``settings`` (how many that differ for sure), ``unnamed`` (the same without
        names) and ``next``: which setting would tell more, in words, or None.
    """
    if walk.secure is None:
        return None
    held, whole = held_at(club_id, fencer_id, drill_id, chart, walk.secure)
    if not held:
        return None
    found = apart([each.setting for each in held])
    coaches = len({each.giver for each in found})
    partner = held_with_partner(club_id, fencer_id, drill_id, chart, walk.secure, held[0].day)
    told = claim(
        [setting_words(each, found, around.names) for each in found], coaches, whole, partner
    )
    return {
        **said(told),
        "settings": len(found),
        "unnamed": where_unnamed(len(found), coaches, whole, partner).words,
        "next": _missing(chart, held, found, around),
    }


def setting_words(one: Setting, of: Sequence[Setting], names: Mapping[str, str]) -> Said:
    """A setting in words. Where there are several, only what tells them apart."""

    def tells(name: str) -> bool:
        return len(of) == 1 or len({getattr(each, name) for each in of}) > 1

    parts: list[str] = []
    if one.place is not None and tells("place"):
        parts.append(one.place)
    if one.hand is not None and len(of) > 1 and tells("hand"):
        parts.append(say(HANDS[one.hand]))
    if one.state is not None and len(of) > 1 and tells("state"):
        parts.append(say(STATES[one.state]))
    giver = say("with %(coach)s", coach=names.get(one.giver, "–"))
    return joined([giver, *parts], ", ")


def _missing(
    chart: Chart, held: Sequence[Held], found: Sequence[Setting], around: Around
) -> Said | None:
    """The setting that was not tried yet, where it would tell more."""
    heated = chart.ladders["heat"] is not None
    givers = len({each.giver for each in found})
    if not asks_elsewhere(heated, len(held), len(found), givers):
        return None
    return another(found[-1], around)


def another(only: Setting, around: Around) -> Said | None:
    """A setting that differs from the one there was: another coach first, then place, hand and
    state."""
    if around.teach > 1:
        return say("A re-check with another coach would show whether it goes with others, too.")
    if only.place is not None and set(around.places) - {only.place}:
        return say("A re-check in another place would show whether it goes there, too.")
    if only.hand is not None:
        return say("A re-check with the other hand would show whether it goes there, too.")
    if only.state == "fresh":
        return say("A re-check after bouting would show whether it goes then, too.")
    return None
