"""Setting up a club, inviting, passphrases, roles, leaving."""

import re
import uuid
from datetime import timedelta

import pytest
from freezegun import freeze_time
from sqlalchemy import select

from cueladder.store.access.accounts import invite as invite_by
from cueladder.store.access.accounts import new_reset_code, new_setup_code
from cueladder.store.access.codes import LASTS, LENGTH
from cueladder.store.access.sessions import CODE_LETTERS, digest_of
from cueladder.store.db.engine import db, now
from cueladder.store.db.models import Club as ClubRow
from cueladder.store.db.models import Coach, Device, Drill, OneTimeCode
from cueladder.store.problems import Clash, Missing
from tests.store.club import PASSPHRASE, Browser, Club

NEW = "another way to say it"


def device():
    return str(uuid.uuid4())


def set_up(browser, code, **changes):
    body = {
        "code": code,
        "club": "Halle Nord Fencing Circle",
        "name": "Ansgar Vell",
        "passphrase": PASSPHRASE,
        "device": device(),
    }
    return browser.post("/api/setup", {**body, **changes})


def join(browser, code, name="Odile", **changes):
    body = {"code": code, "name": name, "passphrase": PASSPHRASE, "device": device()}
    return browser.post("/api/session/join", {**body, **changes})


def invite(club, role="coach"):
    answer = club.browser.post("/api/invitations", {"role": role})
    assert answer.status_code == 201
    return answer.get_json()


def reset(browser, code, passphrase=NEW):
    body = {"code": code, "passphrase": passphrase, "device": device()}
    return browser.post("/api/session/reset", body)


def sign_in(app, name, passphrase=PASSPHRASE):
    body = {"name": name, "passphrase": passphrase, "device": device()}
    return Browser(app).post("/api/session", body).status_code


def test_the_first_club_is_set_up_by_the_printed_code(app):
    browser = Browser(app)
    assert browser.get("/api/setup").get_json() == {"needed": True}
    answer = set_up(browser, new_setup_code().code)
    assert answer.status_code == 200
    assert answer.get_json()["coach"]["role"] == "head"
    assert browser.get("/api/club").get_json()["name"] == "Halle Nord Fencing Circle"
    assert len(db.session.scalars(select(Drill)).all()) >= 24
    assert browser.get("/api/setup").get_json() == {"needed": False}


def test_a_setup_code_works_once_and_never_beside_a_club(app):
    code = new_setup_code().code
    assert set_up(Browser(app), code).status_code == 200
    assert set_up(Browser(app), code, club="Other", name="Other").status_code == 401
    with pytest.raises(Clash):
        new_setup_code()
    assert len(db.session.scalars(select(ClubRow)).all()) == 1


def test_a_setup_code_is_worthless_once_there_is_a_club_by_other_means(app):
    code = new_setup_code().code
    Club(app)
    assert set_up(Browser(app), code, club="Other", name="Other").status_code == 409
    assert len(db.session.scalars(select(ClubRow)).all()) == 1


def test_a_new_setup_code_ends_the_one_before(app):
    first, second = new_setup_code().code, new_setup_code().code
    assert set_up(Browser(app), first).status_code == 401
    assert set_up(Browser(app), second).status_code == 200


def test_a_mistake_at_set_up_names_the_field_and_spends_no_code(app):
    code = new_setup_code().code
    for wrong in ({"name": ""}, {"club": " "}, {"passphrase": "short"}, {"device": "mine"},
                  {"extra": 1}):  # fmt: skip
        answer = set_up(Browser(app), code, **wrong)
        assert (answer.status_code, list(answer.get_json()["errors"])) == (422, list(wrong))
    assert set_up(Browser(app), code).status_code == 200


def test_codes_carry_sixty_bits_or_more_and_only_their_digest_is_kept(club):
    assert 2 ** (5 * LENGTH) >= 2**60
    assert len(set(CODE_LETTERS)) == 32
    shown = invite(club)
    letters = shown["code"].replace("-", "")
    assert re.fullmatch(f"[{CODE_LETTERS}]{{{LENGTH}}}", letters)
    (kept,) = db.session.execute(select(OneTimeCode.__table__)).mappings().all()
    assert kept["code_hash"] == digest_of(letters)
    assert letters not in str(kept) and shown["code"] not in str(kept)
    assert shown["url"].endswith(f"/join#{shown['code']}")
    assert shown["svg"].startswith("<svg")


@pytest.mark.parametrize("role", ["coach", "observer", "head"])
def test_an_invited_person_joins_once_in_the_role_of_the_invitation(app, club, role):
    code = invite(club, role)["code"]
    browser = Browser(app)
    joined = join(browser, code.lower().replace("-", " "))
    assert joined.get_json()["coach"]["role"] == role
    assert joined.get_json()["club"]["id"] == str(club.id)
    assert browser.get("/api/club").status_code == 200
    assert join(Browser(app), code, "Someone").status_code == 401
    assert sign_in(app, "Odile") == 200


def test_a_taken_name_does_not_spend_the_invitation(app, club):
    code = invite(club)["code"]
    taken = join(Browser(app), code, "Ansgar of Halle Nord Fencing Circle")
    assert (taken.status_code, list(taken.get_json()["errors"])) == (409, ["name"])
    assert join(Browser(app), code).status_code == 200


@pytest.mark.parametrize("purpose", ["setup", "join", "reset"])
def test_a_code_runs_out(app, request, purpose):
    browser = Browser(app)
    if purpose == "setup":
        code, use = new_setup_code().code, set_up
    elif purpose == "join":
        code, use = invite(Club(app))["code"], join
    else:
        club = Club(app)
        made = club.browser.post(f"/api/coaches/{club.coach}/reset")
        code, use = made.get_json()["code"], reset
    with freeze_time(now() + LASTS[purpose] + timedelta(seconds=1)):
        assert use(browser, code).status_code == 401


def test_a_code_opens_no_other_door(app, club):
    code = invite(club)["code"]
    assert reset(Browser(app), code).status_code == 401
    assert set_up(Browser(app), code).status_code == 401
    pair = {"code": code, "device": device()}
    assert Browser(app).post("/api/session/pair", pair).status_code == 401
    assert join(Browser(app), code).status_code == 200


def test_guessing_codes_is_slowed_down(app, club):
    codes = [join(Browser(app), "A" * LENGTH).status_code for _ in range(9)]
    assert codes == [401] * 8 + [429]


def test_invitations_are_listed_without_their_codes_and_can_be_withdrawn(app, club):
    shown = invite(club, "observer")
    (listed,) = club.browser.get("/api/invitations").get_json()["invitations"]
    assert (listed["id"], listed["role"]) == (shown["id"], "observer")
    assert listed["by"] == "Ansgar of Halle Nord Fencing Circle"
    other = Club(app, "Salle Birkenhain")
    path = f"/api/invitations/{shown['id']}"
    assert other.browser.get("/api/invitations").get_json()["invitations"] == []
    assert other.browser.send("DELETE", path).status_code == 404
    assert club.browser.send("DELETE", path).status_code == 204
    assert join(Browser(app), shown["code"]).status_code == 401


def test_changing_ones_passphrase_needs_the_old_one_and_signs_out_elsewhere(app, club):
    name = "Ansgar of Halle Nord Fencing Circle"
    elsewhere = club.sign_in(name)
    path = "/api/session/passphrase"
    wrong = club.browser.send("PUT", path, {"old": "not this one", "passphrase": NEW})
    assert (wrong.status_code, list(wrong.get_json()["errors"])) == (422, ["old"])
    short = club.browser.send("PUT", path, {"old": PASSPHRASE, "passphrase": "short"})
    assert list(short.get_json()["errors"]) == ["passphrase"]
    done = club.browser.send("PUT", path, {"old": PASSPHRASE, "passphrase": NEW})
    assert done.status_code == 204
    assert club.browser.get("/api/session").status_code == 200
    assert elsewhere.get("/api/session").status_code == 401
    assert (sign_in(app, name), sign_in(app, name, NEW)) == (401, 200)


def test_guessing_the_old_passphrase_is_slowed_down(club):
    body = {"old": "not this one", "passphrase": NEW}
    tries = [
        club.browser.send("PUT", "/api/session/passphrase", body).status_code for _ in range(9)
    ]
    assert tries == [422] * 8 + [429]


def test_a_forgotten_passphrase_is_set_anew_by_the_head_coachs_code(app, club):
    odile = club.add_coach("Odile", "coach")
    signed_in = club.sign_in("Odile")
    code = club.browser.post(f"/api/coaches/{odile}/reset").get_json()["code"]
    assert signed_in.get("/api/session").status_code == 200
    browser = Browser(app)
    short = reset(browser, code, "short")
    assert list(short.get_json()["errors"]) == ["passphrase"]
    assert reset(browser, code).get_json()["coach"]["name"] == "Odile"
    assert browser.get("/api/session").status_code == 200
    assert signed_in.get("/api/session").status_code == 401
    assert (sign_in(app, "Odile"), sign_in(app, "Odile", NEW)) == (401, 200)
    assert reset(Browser(app), code).status_code == 401


def test_a_coach_who_is_let_go_is_signed_out_and_every_code_of_theirs_ends(app, club):
    second = club.add_coach("Odile", "head")
    odile = club.sign_in("Odile")
    made = odile.post("/api/invitations", {}).get_json()["code"]
    own = club.browser.post(f"/api/coaches/{second}/reset").get_json()["code"]
    path = f"/api/coaches/{second}"
    gone = club.browser.send("PATCH", path, {"active": False})
    assert gone.get_json()["active"] is False
    assert odile.get("/api/session").status_code == 401
    assert sign_in(app, "Odile") == 401
    assert join(Browser(app), made, "Guest").status_code == 401
    assert reset(Browser(app), own).status_code == 401
    assert club.browser.post(f"{path}/reset").status_code == 422
    back = club.browser.send("PATCH", path, {"active": True, "role": "coach"}).get_json()
    assert (back["active"], back["role"]) == (True, "coach")
    assert sign_in(app, "Odile") == 200


@pytest.mark.parametrize("role", ["coach", "observer"])
def test_codes_of_a_head_coach_who_is_none_any_more_open_nothing(app, club, role):
    third = club.add_coach("Third", "head")
    second = club.add_coach("Odile", "head")
    odile = club.sign_in("Odile")
    invited = odile.post("/api/invitations", {"role": "head"}).get_json()["code"]
    anothers = odile.post(f"/api/coaches/{third}/reset").get_json()["code"]
    club.browser.send("PATCH", f"/api/coaches/{second}", {"role": role})
    assert join(Browser(app), invited, "Guest").status_code == 401
    assert reset(Browser(app), anothers).status_code == 401
    assert club.browser.get("/api/invitations").get_json()["invitations"] == []
    club.browser.send("PATCH", f"/api/coaches/{second}", {"role": "head"})
    assert join(Browser(app), invited, "Guest").status_code == 401
    assert reset(Browser(app), anothers).status_code == 401
    assert sign_in(app, "Third") == 200


def test_a_code_that_was_asked_for_while_its_maker_lost_the_right_is_not_made(club):
    second = club.add_coach("Odile", "coach")
    with pytest.raises(Missing):
        invite_by(club.id, second, "head")
    with pytest.raises(Missing):
        new_reset_code(club.id, club.coach, second)


@pytest.mark.parametrize("change", [{"active": False}, {"role": "coach"}])
def test_a_club_is_never_left_without_a_head_coach(club, change):
    path = f"/api/coaches/{club.coach}"
    assert club.browser.send("PATCH", path, change).status_code == 409
    assert club.browser.get("/api/session").get_json()["coach"]["role"] == "head"
    club.add_coach("Odile", "head")
    assert club.browser.send("PATCH", path, change).status_code == 200


def test_a_coach_of_another_club_is_unknown(app, club):
    other = Club(app, "Salle Birkenhain")
    for method, path, body in [
        ("PATCH", f"/api/coaches/{other.coach}", {"active": False}),
        ("POST", f"/api/coaches/{other.coach}/reset", None),
    ]:
        assert club.browser.send(method, path, body).status_code == 404
    assert db.session.scalar(select(Coach.active).where(Coach.id == other.coach))


def test_a_device_is_given_a_name_by_its_own_coach(app, club):
    club.add_coach("Odile", "coach")
    odile = club.sign_in("Odile")
    path = f"/api/devices/{odile.get('/api/session').get_json()['device']}"
    assert odile.send("PATCH", path, {"name": "Phone on the armband"}).status_code == 204
    (listed,) = odile.get("/api/devices").get_json()["devices"]
    assert listed["name"] == "Phone on the armband"
    heads = f"/api/devices/{club.browser.get('/api/session').get_json()['device']}"
    assert odile.send("PATCH", heads, {"name": "mine"}).status_code == 404
    assert odile.send("PATCH", path, {"name": "x" * 61}).status_code == 422
    assert len(db.session.scalars(select(Device)).all()) == 2


def test_the_head_coach_lists_the_coaches_of_the_own_club_only(app, club):
    other = Club(app, "Salle Birkenhain")
    gone = club.add_coach("Odile", "observer")
    club.browser.send("PATCH", f"/api/coaches/{gone}", {"active": False})
    told = club.browser.get("/api/coaches").get_json()["coaches"]
    assert [(c["id"], c["role"], c["active"]) for c in told] == [
        (club.coach, "head", True),
        (gone, "observer", False),
    ]
    assert other.coach not in str(told)
