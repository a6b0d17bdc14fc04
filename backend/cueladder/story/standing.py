"""A fencer's standing on a drill, in plain words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..evidence.claims import Told, said
from ..evidence.claims import standing as claims
from ..rules import Chart, Walk, status
from ..rules.entry import finished
from ..rules.said import Said, joined, opening, say
from ..rules.suggestion import rung_text
from .plain import LADDERS


def standing(chart: Chart, walk: Walk, given: Mapping[int, int] | None = None) -> dict[str, Any]:
    """Where a fencer stands.

    Args:
        chart, walk: of the drill.
        given: cues given at each place, where they are known.

    Returns:
        ``status`` (None, ``working``, ``secure``), the places ``met``, ``secure`` and ``now`` as
        `place_words`, ``top`` (whether the whole ladder is met) and ``words``.
    """
    found = status(chart, walk)
    top = walk.met is not None and chart.places[walk.met].climb is None
    return {
        "status": found,
        "met": place_words(chart, walk.met),
        "secure": place_words(chart, walk.secure),
        "now": place_words(chart, walk.place),
        "top": top,
        **said(_told(chart, walk, found, top, given or {})),
    }


def place_words(chart: Chart, place: int | None) -> dict[str, Any] | None:
    """A place as ``{place, read: {rung, of, label} | None, heat: ...}``; rungs count from 1."""
    if place is None:
        return None
    here = chart.places[place]
    return {
        "place": place,
        "read": _rung(chart, "read", here.read),
        "heat": _rung(chart, "heat", here.heat),
    }


def rung_words(chart: Chart, place: int) -> Said:
    """A place as "rung 3 of 8", or "reading 3 of 5, calm 2 of 4"."""
    here = chart.places[place]
    if here.read is None or here.heat is None:
        family = "read" if here.read is not None else "heat"
        rung = _rung(chart, family, here.read if here.read is not None else here.heat)
        assert rung is not None
        return say("rung %(rung)s of %(of)s", rung=rung["rung"], of=rung["of"])
    read, heat = _rung(chart, "read", here.read), _rung(chart, "heat", here.heat)
    assert read is not None and heat is not None
    return say(
        "reading %(read)s of %(reads)s, calm %(heat)s of %(heats)s",
        read=read["rung"],
        reads=read["of"],
        heat=heat["rung"],
        heats=heat["of"],
    )


def short_words(chart: Chart, place: int) -> Said:
    """A place as "rung 3", or "reading 3 with calm 2"."""
    here = chart.places[place]
    if here.read is None or here.heat is None:
        return say("rung %(n)s", n=(here.heat if here.read is None else here.read) + 1)
    return say("reading %(read)s with calm %(heat)s", read=here.read + 1, heat=here.heat + 1)


def cue_words(chart: Chart, place: int) -> Said:
    """The cue of a place in words."""
    here = chart.places[place]
    labels = [
        _label(chart, family, rung)
        for family, rung in (("read", here.read), ("heat", here.heat))
        if rung is not None
    ]
    return joined(labels, " / ")


def ladders_of(chart: Chart) -> list[tuple[str, str, list[str]]]:
    """The drill's ladders: (family, everyday name, labels from the first rung up)."""
    return [
        (family, say(name), [rung_text(rung) for rung in ladder["rungs"]])
        for family, name in LADDERS.items()
        if (ladder := chart.ladders[family]) is not None
    ]


def _rung(chart: Chart, family: str, k: int | None) -> dict[str, Any] | None:
    ladder = chart.ladders[family]
    if ladder is None or k is None:
        return None
    return {"rung": k + 1, "of": len(ladder["rungs"]), "label": _label(chart, family, k)}


def _label(chart: Chart, family: str, k: int) -> str:
    ladder = chart.ladders[family]
    assert ladder is not None
    return rung_text(ladder["rungs"][k])


def _told(chart: Chart, walk: Walk, found: str | None, top: bool, given: Mapping[int, int]) -> Told:
    if walk.met is None:
        if walk.day is not None and chart.places[walk.work].lower is not None:
            return claims.by_hand(rung_words(chart, walk.work))
        return claims.begun(walk.day is not None)
    rung, cues = rung_words(chart, walk.met), given.get(walk.met)
    sure = None if walk.secure is None else rung_words(chart, walk.secure)
    if walk.work == walk.met and not finished(chart, walk.counters):
        return claims.again(opening(rung), sure, walk.secure == walk.met)
    if found == "secure":
        return claims.secure(rung, top, chart.check.ready, cues)
    return claims.working(rung, top, cues, sure)
