"""Sets that another fencer gave by a card."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sqlalchemy import select

from ...rules import Chart
from ...rules.elsewhere import holds
from ..db.engine import db
from ..db.models import PartnerSet
from ..log.charts import chart_of
from ..log.known import latest
from .trials import same_words

READ = 200


@dataclass(frozen=True)
class Given:
    """One set.

    Attributes:
        day: its day.
        drill: the drill.
        place: the rung, on the drill's chart of that time, ``chart``.
        right: cues ticked as right.
        given: cues given; those of the card that were left out are not among them.
        asked: cues on the card.
    """

    day: str
    drill: str
    chart: str
    place: int
    right: int
    given: int
    asked: int


def sets_of(club_id: int, fencer_id: str) -> list[Given]:
    """The fencer's sets, the newest first.

    Of a card that was entered more than once, only what was entered last counts. What was taken
    back, and what is dated past tomorrow, is left out.
    """
    rows = db.session.scalars(
        select(PartnerSet)
        .where(
            PartnerSet.club_id == club_id,
            PartnerSet.fencer_id == fencer_id,
            PartnerSet.day <= latest(),
            PartnerSet.voided.is_(False),
        )
        .order_by(PartnerSet.day.desc(), PartnerSet.entered_at.desc(), PartnerSet.id.desc())
        .limit(READ)
    )
    return [_given(row) for row in _once_a_card(rows)]


def held_with_partner(
    club_id: int, fencer_id: str, drill_id: str, chart: Chart, place: int, since: str
) -> bool:
    """Whether a rung held in a partner's set, on a day or later.

    Args:
        club_id, fencer_id, drill_id: the fencer and drill.
        chart: the drill's present chart.
        place: the rung, on that chart.
        since: the day on which it first held in a lesson.
    """
    return any(
        each.drill == drill_id
        and holds(each.right, each.asked)
        and each.day >= since
        and same_words(chart_of(each.chart), chart)[each.place][0] == place
        for each in sets_of(club_id, fencer_id)
    )


def _once_a_card(rows: Iterable[PartnerSet]) -> list[PartnerSet]:
    found: dict[str, PartnerSet] = {}
    for row in rows:
        found.setdefault(row.card, row)
    return list(found.values())


def _given(row: PartnerSet) -> Given:
    right, wrong = row.ticks.count("1"), row.ticks.count("0")
    asked = len(row.cues)
    return Given(row.day, row.drill_id, row.chart, row.place, right, right + wrong, asked)
