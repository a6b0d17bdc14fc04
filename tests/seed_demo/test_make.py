"""The demo's club is the same club whenever it is made."""

from datetime import date, timedelta

import pytest
from sqlalchemy import select

from cueladder.app import create_app
from cueladder.store.db.engine import db
from cueladder.store.db.models import Booking, Standing
from cueladder.store.fencers.goals import goals_of
from seed_demo.make import AHEAD, COMPETITION, make

DAY = date(2026, 3, 5)  # both well before now: a lesson of tomorrow is held


def made_on(day, folder):
    """This evening's plans, where fencers stand in each drill, and goals; dates as days ago."""
    app = create_app({"DATA": str(folder), "ARGON2": (1, 8, 1)})
    with app.app_context():
        make(day, weeks=2)
        plans = db.session.scalars(select(Booking).order_by(Booking.fencer_id)).all()
        stands = db.session.scalars(select(Standing)).all()
        walks = {}
        for one in stands:
            walk = dict(one.walk)
            walk["day"] = (day - date.fromisoformat(walk["day"])).days
            walk["rungs"] = [
                [place, holds, (day - date.fromisoformat(on)).days]
                for place, holds, on in walk["rungs"]
            ]
            walks[one.fencer_id, one.drill_id] = walk
        goals = [
            (goal.fencer_id, goal.drill_id, one.name, (date.fromisoformat(one.day) - day).days)
            for fencer in {p.fencer_id for p in plans}
            for goal, one in goals_of(plans[0].club_id, fencer)
        ]
        return [(p.fencer_id, p.at, p.minutes, p.plan) for p in plans], walks, goals


@pytest.fixture(scope="module")
def today(tmp_path_factory):
    return made_on(DAY, tmp_path_factory.mktemp("today"))


@pytest.mark.thorough
@pytest.mark.parametrize("days", [1, 45])
def test_the_demo_stands_the_same_on_whatever_day_it_is_made(today, days, tmp_path):
    plans, walks, goals = today
    assert len(plans) > 20
    assert [(name, ahead) for _, _, name, ahead in goals] == [(COMPETITION, AHEAD)]
    assert len(walks) > 50
    assert made_on(DAY + timedelta(days=days), tmp_path) == today
