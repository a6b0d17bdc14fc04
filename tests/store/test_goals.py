"""Competitions and goals: what is kept of them, what is refused, and what goes with a fencer."""

from __future__ import annotations

import uuid
from datetime import timedelta

import pytest
from sqlalchemy import select

from cueladder.store.db.engine import db, now
from cueladder.store.db.models import Audit, Change, Competition, Goal
from cueladder.store.fencers.competitions import (
    add_competition,
    change_competition,
    competitions_of,
    remove_competition,
)
from cueladder.store.fencers.erase import erase_fencer
from cueladder.store.fencers.goals import drop_goal, goals_of, set_goal
from cueladder.store.problems import Clash, Missing, Refused


def today():
    return now().astimezone().date()


def competition(club, ahead=40, name="Harbour Cup"):
    """A competition so many days ahead; its id."""
    fields = {"id": str(uuid.uuid4()), "name": name}
    fields["day"] = (today() + timedelta(days=ahead)).isoformat()
    assert add_competition(club.id, fields, club.coach)
    return fields["id"]


def give_goal(club, ahead=40, drill=None):
    """A goal on the club's drill; the competition's id."""
    by = competition(club, ahead)
    set_goal(club.id, club.fencer, drill or club.drill, by, club.coach, today())
    return by


def kept(club):
    return [(goal.drill_id, one.id) for goal, one in goals_of(club.id, club.fencer)]


def actions(club):
    wanted = select(Audit.action).where(Audit.fencer_id == club.fencer).order_by(Audit.id)
    return list(db.session.scalars(wanted))


def test_competitions_stand_by_day_and_one_sent_twice_is_one(club):
    late, soon = competition(club, 90, "Late"), competition(club, 9, "Soon")
    assert [each.id for each in competitions_of(club.id)] == [soon, late]
    again = {"id": soon, "name": "Soon again", "day": "2100-01-01"}
    assert not add_competition(club.id, again, club.coach)
    assert [each.name for each in competitions_of(club.id)] == ["Soon", "Late"]
    assert [each.id for each in competitions_of(club.id, "2099-01-01")] == []


def test_a_competition_that_is_moved_keeps_its_older_day_in_the_history(club):
    by = give_goal(club)
    change_competition(club.id, by, {"day": "2100-03-12"}, club.coach)
    change = db.session.scalars(select(Change).where(Change.kind == "competition")).one()
    assert (change.field, change.new, change.coach_id) == ("day", "2100-03-12", club.coach)
    assert [one.day for _, one in goals_of(club.id, club.fencer)] == ["2100-03-12"]


def test_a_competition_goes_only_when_no_goal_stands_by_it(club):
    by = give_goal(club)
    with pytest.raises(Clash, match="1 goal is set by it"):
        remove_competition(club.id, by)
    drop_goal(club.id, club.fencer, club.drill, club.coach)
    remove_competition(club.id, by)
    assert competitions_of(club.id) == []
    with pytest.raises(Missing):
        remove_competition(club.id, by)


def test_a_goal_is_one_a_drill_moves_along_and_is_in_the_audit(club):
    first, second = give_goal(club), competition(club, 60)
    set_goal(club.id, club.fencer, club.drill, second, club.coach, today())
    set_goal(club.id, club.fencer, club.drill, second, club.coach, today())
    assert kept(club) == [(club.drill, second)] and first != second
    drop_goal(club.id, club.fencer, club.drill, club.coach)
    assert kept(club) == []
    assert actions(club)[1:] == ["goal set", "goal set", "goal given up"]
    with pytest.raises(Missing):
        drop_goal(club.id, club.fencer, club.drill, club.coach)


def test_no_goal_is_set_by_what_is_over_or_on_what_does_not_fit(club):
    past, here = competition(club, 0), competition(club)
    sabre, _ = club.add_drill(slug="sabre-only", weapon=["sabre"])
    for drill, by, field in [
        (club.drill, past, "competition"),
        (club.drill, str(uuid.uuid4()), "competition"),
        (sabre, here, "drill"),
    ]:
        with pytest.raises(Refused) as refused:
            set_goal(club.id, club.fencer, drill, by, club.coach, today())
        assert refused.value.field == field
    with pytest.raises(Missing):
        set_goal(club.id, club.fencer, str(uuid.uuid4()), here, club.coach, today())
    assert kept(club) == []


def test_a_fencers_goals_are_erased_and_the_competition_stays(club):
    by = give_goal(club)
    erase_fencer(club.id, club.fencer, club.coach)
    assert db.session.scalars(select(Goal)).all() == []
    assert [each.id for each in db.session.scalars(select(Competition))] == [by]
