"""Changes of a fencer's fields: sent twice they are made once, and what was before is kept."""

import uuid

import pytest
from sqlalchemy import select

from cueladder.store.db.engine import db
from cueladder.store.db.models import Change, Fencer
from cueladder.store.log.audit import audit_of
from tests.store.club import HEADER, Club


def change(browser, fencer, edit, **fields):
    return browser.open(
        f"/api/fencers/{fencer}",
        method="PATCH",
        json=fields,
        headers={**HEADER, **({"Idempotency-Key": edit} if edit else {})},
    )


def test_a_change_sent_again_does_not_undo_what_another_wrote_meanwhile(club):
    club.add_coach("Odile", "coach")
    edit = str(uuid.uuid4())
    change(club.browser, club.fencer, edit, nickname="Milla")
    change(club.sign_in("Odile"), club.fencer, str(uuid.uuid4()), nickname="Mila B.")
    again = change(club.browser, club.fencer, edit, nickname="Milla")
    assert (again.status_code, again.get_json()["nickname"]) == (200, "Mila B.")
    changes = db.session.scalars(select(Change.new).order_by(Change.id)).all()
    assert changes == ["Milla", "Mila B."]


def test_a_change_that_changed_nothing_is_known_again_too(club):
    edit = str(uuid.uuid4())
    change(club.browser, club.fencer, edit, nickname="Mila")
    change(club.browser, club.fencer, None, nickname="Other")
    assert (
        change(club.browser, club.fencer, edit, nickname="Mila").get_json()["nickname"] == "Other"
    )


def test_two_changes_of_one_field_under_their_own_ids_are_both_made(club):
    for name in ("One", "Two", "One"):
        change(club.browser, club.fencer, str(uuid.uuid4()), nickname=name)
    assert db.session.get(Fencer, (club.id, club.fencer)).nickname == "One"
    assert len(db.session.scalars(select(Change)).all()) == 3


def test_an_id_of_another_club_is_no_id_of_this_one(app, club):
    other, edit = Club(app, "Sabre House"), str(uuid.uuid4())
    change(other.browser, other.fencer, edit, nickname="X")
    assert change(club.browser, club.fencer, edit, nickname="Y").get_json()["nickname"] == "Y"


@pytest.mark.parametrize("edit", ["mine", "x" * 500, "91C49194-A43F-4116-A2FA-F0676ED6F79A"])
def test_an_id_that_is_none_is_a_problem(club, edit):
    answer = change(club.browser, club.fencer, edit, nickname="X")
    assert answer.status_code == 422
    assert "Idempotency-Key" in str(answer.get_json()["errors"])
    assert db.session.get(Fencer, (club.id, club.fencer)).nickname == "Mila"


def test_a_refused_change_leaves_its_id_free_for_when_it_is_mended(club):
    edit = str(uuid.uuid4())
    assert change(club.browser, club.fencer, edit, born=1800).status_code == 422
    assert change(club.browser, club.fencer, edit, born=2012).get_json()["born"] == 2012


def test_the_history_tells_what_was_before_and_who_changed_it(club):
    club.add_coach("Odile", "coach")
    odile = club.sign_in("Odile")
    change(club.browser, club.fencer, None, born=2012, consent="2026-03-01")
    change(odile, club.fencer, None, archived=True)
    told = odile.get(f"/api/fencers/{club.fencer}/changes").get_json()["changes"]
    assert [(c["name"], c["field"], c["old"], c["new"]) for c in told] == [
        ("Odile", "archived", False, True),
        (club.browser.get("/api/session").get_json()["coach"]["name"], "consent", None,
         "2026-03-01"),
        (club.browser.get("/api/session").get_json()["coach"]["name"], "born", 2013, 2012),
    ]  # fmt: skip
    entries, _ = audit_of(club.id, club.fencer)
    assert entries[0]["action"] == "looked"


def test_the_history_of_a_fencer_of_another_club_is_not_found(app, club):
    other = Club(app, "Sabre House")
    assert other.browser.get(f"/api/fencers/{club.fencer}/changes").status_code == 404
