"""Plans by chance: drawn once by the server, kept, given up at most."""

from __future__ import annotations

import uuid
from datetime import date, timedelta
from hashlib import sha256

import pytest
from sqlalchemy import select

from cueladder.store.db.engine import db, now
from cueladder.store.db.models import Audit, Draw, Fencer
from cueladder.store.fencers.draws import (
    begun_by,
    draw,
    drawable,
    draws_of,
    held_back,
    plan_of,
    withdraw,
)
from cueladder.store.problems import Clash, Missing, Refused
from cueladder.story.lesson_plan import plan_for


def today() -> date:
    return now().astimezone().date()


def fresh_drills(club, count=4):
    """Drills of the club that nobody has worked."""
    return [club.add_drill(slug=f"fresh-{uuid.uuid4()}")[0] for _ in range(count)]


def draw_plan(club, drills=None, **fields):
    """A plan of four drills and thirteen weekly bout days, drawn as a coach has it drawn."""
    asked = {"id": str(uuid.uuid4()), "first": today().isoformat(), "every": 7, "days": 13}
    asked["drills"] = drills or fresh_drills(club)
    one, _ = draw(club.id, club.fencer, asked | fields, club.coach, today())
    return one


def test_a_plan_keeps_the_draw_so_that_anyone_can_work_it_out_again(club):
    drills = fresh_drills(club)
    one = draw_plan(club, drills)
    assert sorted(one.drills) == sorted(drills)
    assert one.drills == sorted(
        drills, key=lambda drill: sha256(f"{one.seed}:{drill}".encode()).digest()
    )
    assert len(one.seed) == 32 and one.seed != draw_plan(club).seed
    assert (one.coach_id, one.first) == (club.coach, today().isoformat())
    db.session.remove()
    (_, kept) = draws_of(club.id, club.fencer)
    begins = [today() + timedelta(days=7 * (n - 1) + 1) for n in (3, 5, 7, 9)]
    assert plan_of(kept).begins == tuple(begins)
    assert plan_of(kept).last == today() + timedelta(days=7 * 12)


def test_a_lost_reply_draws_nothing_twice(club):
    drills, name = fresh_drills(club), str(uuid.uuid4())
    first, second = draw_plan(club, drills, id=name), draw_plan(club, drills, id=name)
    assert (first.seed, first.drills) == (second.seed, second.drills)
    assert len(draws_of(club.id, club.fencer)) == 1


def test_a_draw_stands_even_if_the_plan_is_withdrawn(club):
    one = draw_plan(club)
    withdraw(club.id, club.fencer, one.id, club.coach, today())
    withdraw(club.id, club.fencer, one.id, club.coach, today())
    with pytest.raises(Refused, match=r"drawn already: .* even if it was withdrawn"):
        draw_plan(club, one.drills)
    open_now = {drill for drill, _ in drawable(db.session(), _fencer(club), today())}
    assert not open_now & set(one.drills)
    later = date.fromisoformat(one.last) + timedelta(days=1)
    assert set(one.drills) <= {d for d, _ in drawable(db.session(), _fencer(club), later)}
    (kept,) = draws_of(club.id, club.fencer)
    assert kept.withdrawn_by == club.coach and kept.drills == one.drills


def test_what_has_ended_is_not_withdrawn_and_what_is_anothers_not_found(club):
    one = draw_plan(club)
    over = date.fromisoformat(one.last) + timedelta(days=1)
    with pytest.raises(Clash, match="has ended"):
        withdraw(club.id, club.fencer, one.id, club.coach, over)
    second = club.add_fencer("Jule")
    for fencer, name in ((second, one.id), (club.fencer, str(uuid.uuid4())), (club.fencer, "x")):
        with pytest.raises(Missing):
            withdraw(club.id, fencer, name, club.coach, today())
    club.fencer = second
    with pytest.raises(Clash, match="another fencer's"):
        draw_plan(club, id=one.id)


def test_only_drills_that_were_not_begun_can_be_drawn(club):
    phone = club.phone()
    club.browser.push(phone.open("2026-03-02"), *phone.cues(3))
    assert begun_by(db.session(), club.id, club.fencer) == {club.drill: date(2026, 3, 2)}
    with pytest.raises(Refused, match="begun already"):
        draw_plan(club, [club.drill, *fresh_drills(club, 3)])
    sabre, _ = club.add_drill(slug="another", weapon=["sabre"])
    calm, _ = club.add_drill("desensitization", gives="decoys")
    for foreign in (sabre, calm, str(uuid.uuid4())):
        with pytest.raises(Refused, match="no drill of the club in which"):
            draw_plan(club, [foreign, *fresh_drills(club, 3)])


@pytest.mark.parametrize(
    ("fields", "field", "says"),
    [
        ({"days": 8}, "days", "at least 9"),
        ({"first": (date.today() - timedelta(days=3)).isoformat()}, "first", "should not be over"),
        ({"first": "9999-12-31"}, "first", "within a year"),
    ],
)
def test_days_that_cannot_be_are_refused_by_field(club, fields, field, says):
    with pytest.raises(Refused, match=says) as refused:
        draw_plan(club, **fields)
    assert refused.value.field == field
    assert draws_of(club.id, club.fencer) == []


def test_the_same_drill_twice_is_refused(club):
    one, two = fresh_drills(club, 2)
    with pytest.raises(Refused, match="3 to 5 different ones"):
        draw_plan(club, [one, two, one])


def test_a_lesson_plan_begins_no_drill_before_its_turn(club):
    one = draw_plan(club, [club.drill, *fresh_drills(club, 3)])
    assert held_back(club.id, club.fencer, today()) == set(one.drills)
    planned = plan_for(_fencer(club), 40, today())
    assert not {block["drill"] for block in planned["blocks"]} & set(one.drills)
    second = date.fromisoformat(one.begins[1])
    assert held_back(club.id, club.fencer, second) == set(one.drills[2:])
    withdraw(club.id, club.fencer, one.id, club.coach, today())
    assert held_back(club.id, club.fencer, today()) == set()


def test_drawing_and_withdrawing_stand_in_the_audit(club):
    one = draw_plan(club)
    withdraw(club.id, club.fencer, one.id, club.coach, today())
    found = db.session.scalars(
        select(Audit.action).where(Audit.club_id == club.id).order_by(Audit.id)
    )
    assert [each for each in found if each.startswith("plan")] == ["plan drawn", "plan withdrawn"]


def test_the_export_has_the_plan_and_erasing_leaves_none(club):
    one = draw_plan(club)
    exported = club.browser.get(f"/api/fencers/{club.fencer}/export").get_json()
    (told,) = exported["draws"]
    assert (told["seed"], told["drills"], told["begins"]) == (one.seed, one.drills, one.begins)
    assert club.browser.send("DELETE", f"/api/fencers/{club.fencer}").status_code == 204
    db.session.remove()
    assert db.session.scalars(select(Draw)).all() == []


def _fencer(club) -> Fencer:
    return db.session.get_one(Fencer, (club.id, club.fencer))
