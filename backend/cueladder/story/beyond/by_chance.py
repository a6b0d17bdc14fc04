"""Did the lessons do it: a fencer's plans by chance, what to begin next, and what bouts say."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

import numpy as np

from ...evidence.by_chance import FEWEST, MOST, Watched, days_needed, sides
from ...evidence.claims import said
from ...evidence.claims.by_chance import AFTER, BEFORE, can_tell, did, overlap
from ...evidence.order_fit import Fit, found_in
from ...rules.said import Said, joined, say, say_day, say_number
from ...store.db.engine import db
from ...store.db.models import Draw
from ...store.fencers.draws import begun_by, drawable, draws_of, plan_of
from ...store.fencers.edit import fencer_in
from ...store.replay.bouts import bouts_of, documents_of, watched_in
from ...store.replay.season import coach_names
from ..drill_text import drill_text

# The same simulated seasons for whoever asks.
SEED = 16


def draws_told(club_id: int, fencer_id: str, today: date) -> dict[str, Any]:
    """A fencer's plans, newest first, and what another may be drawn of."""
    fencer = fencer_in(db.session(), club_id, fencer_id)
    draws = draws_of(club_id, fencer_id)
    documents = documents_of(club_id, [drill for each in draws for drill in each.drills])
    begun = begun_by(db.session(), club_id, fencer_id)
    coaches = coach_names(club_id)
    return {
        "draws": [_draw(each, documents, begun, coaches, today) for each in draws],
        "open": [_named(*each) for each in drawable(db.session(), fencer, today)],
        "needs": {str(n): days_needed(n) for n in range(FEWEST, MOST + 1)},
    }


def outlook(club_id: int, fencer_id: str, drills: int, days: int) -> dict[str, Any]:
    """What such a plan can tell, said before it is drawn.

    How often it finds something is told where bouts were watched, by how often an action came up.
    """
    fencer_in(db.session(), club_id, fencer_id)
    tallies = bouts_of(club_id, fencer_id).values()
    bouts, met = sum(each.bouts for each in tallies), sum(each.met for each in tallies)
    if not bouts:
        return said(can_tell(drills, days))
    chances = met / bouts
    rng = np.random.default_rng(SEED)
    told = can_tell(drills, days, found_in(drills, days, chances, (BEFORE, AFTER), rng))
    counted = say(
        "Reckoned with one bout a bout day for each drill, and %(chances)s real ones in it, as in "
        "the bouts watched so far.",
        chances=say_number(chances, 1),
    )
    return {**said(told), "words": joined([told.words, counted])}


def _draw(
    one: Draw,
    documents: Mapping[str, Mapping[str, Any]],
    begun: Mapping[str, date],
    coaches: Mapping[str, str],
    today: date,
) -> dict[str, Any]:
    plan = plan_of(one)
    watched = watched_in(one.club_id, one.fencer_id, one.drills, one.first, one.last)
    names = {drill: documents[drill]["name"] for drill in one.drills}
    told, fit = did([(plan, watched)], today, names, {d: begun[d] for d in names if d in begun})
    over = today > plan.last
    given_up = one.withdrawn_at is not None
    return {
        "id": one.id,
        "drawn": one.drawn_at.isoformat(),
        "coach": coaches.get(one.coach_id, "–"),
        "seed": one.seed,
        "first": one.first,
        "last": one.last,
        "withdrawn": one.withdrawn_at.isoformat() if one.withdrawn_at else None,
        "withdrawn_by": coaches.get(one.withdrawn_by or "", "–") if given_up else None,
        "over": over,
        "next": None if over or given_up else _next(one, documents, begun, today),
        "did": None if given_up else said(told),
        "fit": _fit(fit) if over and not given_up else None,
        "drills": [
            {
                "drill": _named(drill, documents[drill]),
                "begins": begins.isoformat(),
                "begun": begun[drill].isoformat() if drill in begun else None,
                **_sides(*sides(plan, watched, drill)),
                # asked once, at the end: what is looked at again and again is found by luck
                "overlap": _overlap(one, watched, drill) if over and not given_up else None,
            }
            for drill, begins in zip(plan.drills, plan.begins, strict=True)
        ],
    }


def _next(
    one: Draw,
    documents: Mapping[str, Mapping[str, Any]],
    begun: Mapping[str, date],
    today: date,
) -> Said:
    """Which drill is begun next, and from when."""
    for drill, begins in zip(one.drills, one.begins, strict=True):
        if drill in begun:
            continue
        name = drill_text(documents[drill], "name")
        if today >= date.fromisoformat(begins):
            return say("Begin %(drill)s in the next lesson.", drill=name)
        return say(
            "To begin next: %(drill)s, from %(day)s on. Until then it is watched in bouts only.",
            drill=name,
            day=say_day(begins),
        )
    return say(
        "All its drills are begun. Go on with them as you like, and have bouts watched until "
        "%(day)s.",
        day=say_day(one.last),
    )


def _fit(fit: Fit) -> dict[str, Any]:
    return {"as_good": fit.as_good, "orders": fit.orders, "p": fit.p, "gain": fit.gain}


def _sides(before: Sequence[Watched], after: Sequence[Watched]) -> dict[str, Any]:
    return {
        name: {
            "days": len(side),
            "met": sum(each.met for each in side),
            "chances": sum(each.chances for each in side),
        }
        for name, side in (("before", before), ("after", after))
    }


def _overlap(one: Draw, watched: Sequence[Watched], drill: str) -> dict[str, Any] | None:
    told = overlap(plan_of(one), watched, drill)
    return said(told) if told else None


def _named(drill: str, document: Mapping[str, Any]) -> dict[str, Any]:
    return {"id": drill, "name": drill_text(document, "name"), "kind": document["kind"]}
