"""Fold again what a push touched, from the earliest lesson it reaches onwards."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import bindparam, delete, null, select, tuple_, union_all
from sqlalchemy.orm import Session

from ...rules import Walk, fresh, status, suggestion
from ..db.among import among, listed
from ..db.models import Lesson, LessonDrill
from ..db.models import Standing as StandingRow
from .charts import chart_of
from .events import Log
from .fold import effective, fold_lesson
from .keys import LessonKey

_row, _lesson = LessonDrill.__table__.c, Lesson.__table__.c
_ORDER = (_row.day, _row.opened_at, _row.lesson_id)
_MINE = (
    _row.club_id == bindparam("club"),
    _row.fencer_id == bindparam("fencer"),
    _row.drill_id == bindparam("drill"),
)
_START = tuple_(bindparam("day"), bindparam("opened_at"), bindparam("lesson"))
_LATER = (
    select(*_ORDER, _lesson.coach_id, _row.after)
    .join_from(
        LessonDrill.__table__,
        Lesson.__table__,
        (_lesson.club_id == _row.club_id) & (_lesson.id == _row.lesson_id),
    )
    .where(*_MINE, tuple_(*_ORDER) >= _START)
)
_BEFORE = (
    select(*_ORDER, null().label("coach_id"), _row.after)
    .where(*_MINE, tuple_(*_ORDER) < _START)
    .order_by(*(column.desc() for column in _ORDER))
    .limit(1)
    .subquery()
)
# the last lesson before the start (it alone has no coach) and all from there, asked for at once
_CHAIN = union_all(select(*_BEFORE.c), _LATER)


_standing_of = StandingRow.__table__.c
_STANDINGS = select(
    _standing_of.fencer_id, _standing_of.drill_id, _standing_of.day, _standing_of.walk
).where(
    _standing_of.club_id == bindparam("club"),
    among(_standing_of.fencer_id, "fencers"),
    among(_standing_of.drill_id, "drills"),
)
Pair = tuple[str, str]


def standings_of(
    session: Session, club_id: int, pairs: Iterable[Pair]
) -> dict[Pair, tuple[str | None, dict[str, Any]]]:
    """(fencer, drill) → day of the last lesson and the walk after it, for those worked before."""
    pairs = list(pairs)
    asked = {
        "club": club_id,
        "fencers": listed({fencer for fencer, _ in pairs}),
        "drills": listed({drill for _, drill in pairs}),
    }
    found = session.connection().execute(_STANDINGS, asked)
    return {(fencer, drill): (day, walk) for fencer, drill, day, walk in found}


@dataclass(frozen=True)
class Refolded:
    """What came of folding one fencer's drill again.

    Attributes:
        walked: rows of `LessonDrill` to be written, for each lesson walked again.
        emptied: such rows of lessons in which nothing of the drill is left; they are deleted.
        standing: the new row of `Standing` without its number, or None where nothing changed.
    """

    walked: list[dict[str, Any]]
    emptied: list[dict[str, Any]]
    standing: dict[str, Any] | None


def refold(
    session: Session,
    log: Log,
    club_id: int,
    fencer_id: str,
    drill_id: str,
    first_chart: str,
    touched: Iterable[LessonKey],
    stands: tuple[str | None, dict[str, Any]] | None,
    to_the_end: bool = False,
) -> Refolded:
    """Fold a fencer's drill again from the earliest touched lesson.

    ``stands`` is what `standings_of` says of it: where all that is touched is later than that,
    nothing else need be read. ``to_the_end`` folds all that is later too and always gives the
    standing: for a lesson that was taken out, which leaves nothing behind that could be compared.

    Stops as soon as every touched lesson is done and a later one comes out as it was, so that the
    cost does not grow with the history. The caller holds the club's row, and writes what was
    walked for all drills at once.
    """
    keys = {lesson.id: lesson for lesson in touched}
    day, opened_at, first = min(lesson.order for lesson in keys.values())
    mine = {"club": club_id, "fencer": fencer_id, "drill": drill_id}
    found: Sequence[Any] = ()
    if stands is None or stands[0] is None or stands[0] < day:
        before = stands[1] if stands and stands[0] else None
    else:
        start = mine | {"day": day, "opened_at": opened_at, "lesson": first}
        found = session.connection().execute(_CHAIN, start).all()
        before = next((after for *_, coach, after in found if coach is None), None)
    later = [row for row in found if row.coach_id is not None]
    was = {lesson_id: after for _, _, lesson_id, _, after in later}
    chain = {i: LessonKey(i, fencer_id, coach, day, at) for day, at, i, coach, _ in later} | keys
    walked: list[dict[str, Any]] = []
    emptied: list[dict[str, Any]] = []
    changed = True
    for lesson in sorted(chain.values(), key=lambda lesson: lesson.order):
        if not (keys or changed or to_the_end):
            break
        keys.pop(lesson.id, None)
        row = _walk(log, club_id, lesson, drill_id, first_chart, before)
        if row.pop("happened"):
            walked.append(row)
            before = row["after"]
            changed = not same_walk(was.get(lesson.id), before)
        else:
            emptied.append(row)
            changed = True
    if emptied:
        gone = [row["lesson_id"] for row in emptied]
        session.execute(delete(LessonDrill.__table__).where(*_MINE, _row.lesson_id.in_(gone)), mine)
    if not (changed or to_the_end):
        return Refolded(walked, emptied, None)
    standing = standing_row(club_id, fencer_id, drill_id, first_chart, before)
    return Refolded(walked, emptied, standing)


def same_walk(stored: dict[str, Any] | None, walk: dict[str, Any] | None) -> bool:
    """Whether a stored walk, maybe in the form of version 1, is this one."""
    return stored == walk or (bool(stored) and Walk.from_json(stored or {}).to_json() == walk)


def _walk(
    log: Log,
    club_id: int,
    lesson: LessonKey,
    drill_id: str,
    first_chart: str,
    before: dict[str, Any] | None,
) -> dict[str, Any]:
    """The row of one lesson, with ``happened`` False where nothing of the drill is left in it."""
    kept = effective(log.of(lesson, drill_id), drill_id, lesson.coach)
    walk = Walk.from_json(before) if before else None
    folded = fold_lesson(chart_of, first_chart, walk, lesson.day, kept)
    walk = folded.walk or fresh(chart_of(first_chart))
    return {
        "club_id": club_id,
        "lesson_id": lesson.id,
        "drill_id": drill_id,
        "fencer_id": lesson.fencer,
        "day": lesson.day,
        "opened_at": lesson.opened_at,
        "before": before,
        "after": walk.to_json(),
        "trials": folded.trials,
        "happened": bool(kept),
    }


def standing_row(
    club_id: int, fencer_id: str, drill_id: str, first_chart: str, after: dict[str, Any] | None
) -> dict[str, Any]:
    """The standing at the end of the fold; a fresh walk where every mark was voided."""
    walk = Walk.from_json(after) if after else fresh(chart_of(first_chart))
    chart = chart_of(walk.chart)
    return {
        "club_id": club_id,
        "fencer_id": fencer_id,
        "drill_id": drill_id,
        "walk": walk.to_json(),
        "suggestion": suggestion(chart, walk).to_json(),
        "secure": status(chart, walk),
        "day": walk.day,
    }
