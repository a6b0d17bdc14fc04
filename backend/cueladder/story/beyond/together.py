"""Plans by chance of several fencers together: three drills alone can never tell, 36 orders can.

Which plans are looked at together is settled beforehand, so that nobody adds one to help another:
those whose last bout day falls in the same half of a year, once that half is over.
"""

from __future__ import annotations

from datetime import date, timedelta
from itertools import groupby
from typing import Any

from ...evidence.claims import said
from ...evidence.claims.by_chance import did
from ...evidence.order_fit import MOST_TOGETHER
from ...rules.said import say, say_day
from ...store.db.models import Draw
from ...store.fencers.draws import draws_in, plan_of
from ...store.replay.bouts import watched_in


def together(club_id: int, today: date) -> list[dict[str, Any]]:
    """Each half of a year in which two plans or more end, the newest first.

    Of more plans than can be looked at together the first ones drawn count.
    """
    draws = sorted(draws_in(club_id), key=lambda one: (_half(one), one.drawn_at, one.id))
    found = []
    for last, some in groupby(draws, key=_half):
        plans = list(some)[:MOST_TOGETHER]
        if len(plans) >= 2:
            found.append(_told(last, plans, today))
    return found[::-1]


def _told(last: date, draws: list[Draw], today: date) -> dict[str, Any]:
    told: dict[str, Any] = {"last": last.isoformat(), "plans": len(draws), "did": None, "fit": None}
    if today <= last:
        words = say(
            "They are looked at together once, after %(day)s; until then more may come.",
            day=say_day(last),
        )
        return {**told, "waits": words}
    pairs = [
        (plan_of(one), watched_in(one.club_id, one.fencer_id, one.drills, one.first, one.last))
        for one in draws
    ]
    one, fit = did(pairs, today, {})
    figures = {"as_good": fit.as_good, "orders": fit.orders, "p": fit.p, "gain": fit.gain}
    return {**told, "waits": None, "did": said(one), "fit": figures}


def _half(one: Draw) -> date:
    """The last day of the half of a year in which a plan ends."""
    last = date.fromisoformat(one.last)
    return date(last.year, 6, 30) if last.month <= 6 else date(last.year + 1, 1, 1) - timedelta(1)
