"""Goals of fencers: a drill that is to be secure in two settings by a competition."""

from __future__ import annotations

from datetime import date

from sqlalchemy import select

from ...rules.said import say, say_day
from ..db.engine import db, now, writing
from ..db.models import Competition, Drill, DrillVersion, Fencer, Goal, LessonDrill
from ..log.audit import note
from ..log.counter import hold_club
from ..log.fields import is_id
from ..log.known import latest
from ..problems import Missing, Refused
from .competitions import competition_in
from .edit import fencer_in

# Lesson days a fencer's rhythm is looked for in.
DAYS = 40


def set_goal(
    club_id: int, fencer_id: str, drill_id: str, competition_id: str, coach_id: str, today: date
) -> None:
    """Set the goal on a drill, or move it to another competition.

    Raises:
        Missing: no such fencer or drill.
        Refused: the competition is not the club's, or over; or the drill is put away, or is none
            of the fencer's weapon.
    """
    with writing() as session:
        hold_club(session, club_id)
        fencer = fencer_in(session, club_id, fencer_id)
        drill = session.get(Drill, (club_id, drill_id)) if is_id(drill_id) else None
        if drill is None:
            raise Missing(say("No such drill in this club."))
        document = session.get_one(DrillVersion, (club_id, drill_id, drill.version)).document
        if drill.archived or fencer.weapon not in document["weapon"]:
            raise Refused(say("is put away, or is no drill of this fencer's weapon"), "drill")
        try:
            competition = competition_in(session, club_id, competition_id)
        except Missing:
            raise Refused(say("is no competition of this club"), "competition") from None
        if competition.day <= today.isoformat():
            raise Refused(
                say("should be still to come, not on %(day)s", day=say_day(competition.day)),
                "competition",
            )
        goal = session.get(Goal, (club_id, fencer_id, drill_id))
        if goal is None:
            goal = Goal(club_id=club_id, fencer_id=fencer_id, drill_id=drill_id)
            session.add(goal)
        elif goal.competition_id == competition_id:
            return
        goal.competition_id, goal.coach_id, goal.set_at = competition_id, coach_id, now()
        note(session, club_id, fencer_id, coach_id, "goal set")


def drop_goal(club_id: int, fencer_id: str, drill_id: str, coach_id: str) -> None:
    """Give a goal up.

    Raises:
        Missing: no such fencer in the club, or no goal on this drill.
    """
    with writing() as session:
        hold_club(session, club_id)
        fencer_in(session, club_id, fencer_id)
        key = (club_id, fencer_id, drill_id)
        goal = session.get(Goal, key) if is_id(drill_id) else None
        if goal is None:
            raise Missing(say("No such goal of this fencer."))
        session.delete(goal)
        note(session, club_id, fencer_id, coach_id, "goal given up")


def goals_of(club_id: int, fencer_id: str) -> list[tuple[Goal, Competition]]:
    """A fencer's goals with their competitions, the next one first."""
    rows = db.session.execute(
        select(Goal, Competition)
        .join(
            Competition,
            (Competition.club_id == Goal.club_id) & (Competition.id == Goal.competition_id),
        )
        .where(Goal.club_id == club_id, Goal.fencer_id == fencer_id)
        .order_by(Competition.day, Competition.id, Goal.drill_id)
    )
    return [(goal, competition) for goal, competition in rows]


def drills_for(fencer: Fencer) -> list[tuple[str, dict[str, object]]]:
    """Drills a goal may be set on, with their documents: those of the fencer's weapon."""
    same = (DrillVersion.drill_id == Drill.id) & (DrillVersion.version == Drill.version)
    rows = db.session.execute(
        select(Drill.id, DrillVersion.document)
        .join(DrillVersion, (DrillVersion.club_id == Drill.club_id) & same)
        .where(Drill.club_id == fencer.club_id, Drill.archived.is_(False))
        .order_by(Drill.slug)
    )
    return [(drill, document) for drill, document in rows if fencer.weapon in document["weapon"]]


def lesson_days(club_id: int, fencer_id: str) -> list[date]:
    """The last days on which the fencer worked in a lesson, newest first."""
    rows = db.session.scalars(
        select(LessonDrill.day)
        .where(
            LessonDrill.club_id == club_id,
            LessonDrill.fencer_id == fencer_id,
            LessonDrill.day <= latest(),
        )
        .distinct()
        .order_by(LessonDrill.day.desc())
        .limit(DAYS)
    )
    return [date.fromisoformat(day) for day in rows]
