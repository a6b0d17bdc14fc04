"""Plans by chance: drawn once, kept as they were drawn, given up at most."""

from __future__ import annotations

import secrets
from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from ...evidence.by_chance import FEWEST, MOST, Plan, days_needed, plan
from ...rules.said import say, say_day
from ..db.engine import db, now, writing
from ..db.models import Draw, Drill, DrillVersion, Fencer, LessonDrill
from ..log.audit import note
from ..log.counter import hold_club
from ..log.fields import is_id
from ..problems import Clash, Missing, Refused
from .edit import fencer_in

# A plan for later than this is drawn later.
AHEAD = timedelta(days=366)


def draw(
    club_id: int, fencer_id: str, fields: Mapping[str, Any], coach_id: str, today: date
) -> tuple[Draw, bool]:
    """Draw a plan; one of this id is there already where the reply to it was lost.

    Args:
        fields: ``{id, drills, first, every, days}``: bout days are the first and so many in all,
            each so many days after the one before.
        today: the day it is drawn on; bouts of before do not count.

    Returns:
        The plan, and whether it is new.

    Raises:
        Missing: no such fencer in the club.
        Refused: the drills or days cannot be those of a plan.
        Clash: the id is another fencer's plan's.
    """
    with writing() as session:
        hold_club(session, club_id)
        fencer = fencer_in(session, club_id, fencer_id)
        there = session.get(Draw, (club_id, fields["id"]))
        if there is not None:
            if there.fencer_id != fencer_id:
                raise Clash(say("This plan is another fencer's: draw one anew."))
            return there, False
        if fields["first"] < today.isoformat():
            raise Refused(
                say("should not be over: bouts count from the day of the draw on"), "first"
            )
        if fields["first"] > (today + AHEAD).isoformat():
            raise Refused(say("should be within a year of the day of the draw"), "first")
        _may_be_drawn(session, fencer, fields["drills"], today)
        days = bout_days(date.fromisoformat(fields["first"]), fields["every"], fields["days"])
        if len(days) < (least := days_needed(len(fields["drills"]))):
            raise Refused(
                say("should be at least %(least)s for so many drills", least=least), "days"
            )
        one = drawn(fencer, fields["id"], coach_id, fields["drills"], days, secrets.token_hex(16))
        session.add(one)
        note(session, club_id, fencer_id, coach_id, "plan drawn")
    return one, True


def drawn(
    fencer: Fencer,
    draw_id: str,
    coach_id: str,
    drills: Sequence[str],
    days: Sequence[date],
    seed: str,
) -> Draw:
    """The row of a plan drawn with this seed."""
    made = plan(drills, days, seed)
    return Draw(
        club_id=fencer.club_id,
        id=draw_id,
        fencer_id=fencer.id,
        coach_id=coach_id,
        drawn_at=now(),
        seed=seed,
        drills=list(made.drills),
        begins=[day.isoformat() for day in made.begins],
        first=made.first.isoformat(),
        last=made.last.isoformat(),
    )


def bout_days(first: date, every: int, days: int) -> list[date]:
    """So many bout days, evenly."""
    return [first + timedelta(days=every * k) for k in range(days)]


def withdraw(club_id: int, fencer_id: str, draw_id: str, coach_id: str, today: date) -> None:
    """Give a plan up. It stays to be seen, and is not judged.

    Raises:
        Missing: no such fencer in the club, or no such plan of theirs.
        Clash: it has ended: what it showed stands.
    """
    with writing() as session:
        hold_club(session, club_id)
        fencer_in(session, club_id, fencer_id)
        one = session.get(Draw, (club_id, draw_id)) if is_id(draw_id) else None
        if one is None or one.fencer_id != fencer_id:
            raise Missing(say("No such plan of this fencer."))
        if one.withdrawn_at is not None:
            return
        if one.last < today.isoformat():
            raise Clash(say("This plan has ended: what it showed stands."))
        one.withdrawn_at, one.withdrawn_by = now(), coach_id
        note(session, club_id, fencer_id, coach_id, "plan withdrawn")


def draws_of(club_id: int, fencer_id: str) -> list[Draw]:
    """A fencer's plans, those given up too, newest first."""
    fencer_in(db.session(), club_id, fencer_id)
    mine = select(Draw).where(Draw.club_id == club_id, Draw.fencer_id == fencer_id)
    return list(db.session.scalars(mine.order_by(Draw.drawn_at.desc(), Draw.id)))


def draws_in(club_id: int) -> list[Draw]:
    """All plans of a club's fencers that were not given up."""
    kept = select(Draw).where(Draw.club_id == club_id, Draw.withdrawn_at.is_(None))
    return list(db.session.scalars(kept))


def plan_of(one: Draw) -> Plan:
    """A plan as it is judged: by the days kept with it, whatever is drawn otherwise today."""
    return Plan(
        one.seed,
        tuple(one.drills),
        tuple(date.fromisoformat(day) for day in one.begins),
        date.fromisoformat(one.first),
        date.fromisoformat(one.last),
    )


def begun_by(session: Session, club_id: int, fencer_id: str) -> dict[str, date]:
    """The day of the fencer's first lesson with each drill, from the lessons themselves."""
    rows = session.execute(
        select(LessonDrill.drill_id, func.min(LessonDrill.day))
        .where(
            LessonDrill.club_id == club_id,
            LessonDrill.fencer_id == fencer_id,
            LessonDrill.trials > 0,
        )
        .group_by(LessonDrill.drill_id)
    )
    return {drill: date.fromisoformat(day) for drill, day in rows}


def drawable(session: Session, fencer: Fencer, today: date) -> list[tuple[str, dict[str, Any]]]:
    """Drills a plan may be drawn of, with their documents: of the weapon, and not begun yet.

    Bouts are judged by the real ones answered, so nothing is drawn in which none is given.
    """
    same = (DrillVersion.drill_id == Drill.id) & (DrillVersion.version == Drill.version)
    rows = session.execute(
        select(Drill.id, DrillVersion.document)
        .join(DrillVersion, (DrillVersion.club_id == Drill.club_id) & same)
        .where(Drill.club_id == fencer.club_id, Drill.archived.is_(False))
        .order_by(Drill.slug)
    )
    taken = begun_by(session, fencer.club_id, fencer.id).keys() | _drawn_until(
        session, fencer, today
    )
    return [
        (drill, document)
        for drill, document in rows
        if fencer.weapon in document["weapon"]
        and document["gives"] != "decoys"
        and drill not in taken
    ]


def held_back(club_id: int, fencer_id: str, day: date) -> set[str]:
    """Drills whose turn has not come yet by a plan that runs: no lesson begins them."""
    running = (
        each
        for each in draws_of(club_id, fencer_id)
        if each.withdrawn_at is None and each.last >= day.isoformat()
    )
    return {
        drill
        for each in running
        for drill, begins in zip(each.drills, each.begins, strict=True)
        if day.isoformat() < begins
    }


def _may_be_drawn(session: Session, fencer: Fencer, drills: Sequence[str], today: date) -> None:
    if not FEWEST <= len(drills) <= MOST or len(set(drills)) < len(drills):
        raise Refused(
            say("choose %(fewest)s to %(most)s different ones", fewest=FEWEST, most=MOST), "drills"
        )
    names = {drill: each["name"] for drill, each in drawable(session, fencer, today)}
    until, begun = (
        _drawn_until(session, fencer, today),
        begun_by(session, fencer.club_id, fencer.id),
    )
    for drill in drills:
        if drill in until:
            # whoever could draw until the order suits would have chosen it, and not chance
            raise Refused(
                say(
                    "one of them was drawn already: a draw stands until its plan's last day, "
                    "%(day)s, even if it was withdrawn",
                    day=say_day(until[drill]),
                ),
                "drills",
            )
        if drill in begun:
            raise Refused(
                say("one of them was begun already: there is no before to compare with"), "drills"
            )
        if drill not in names:
            raise Refused(
                say(
                    "one of them is no drill of the club in which this fencer's weapon answers "
                    "something"
                ),
                "drills",
            )


def _drawn_until(session: Session, fencer: Fencer, today: date) -> dict[str, str]:
    """Drills that stand in a plan, withdrawn or not, until its last day."""
    rows = session.scalars(
        select(Draw).where(
            Draw.club_id == fencer.club_id,
            Draw.fencer_id == fencer.id,
            Draw.last >= today.isoformat(),
        )
    )
    return {drill: one.last for one in rows for drill in one.drills}
