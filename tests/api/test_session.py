"""Signing in and out, devices, pairing."""

import re
import uuid
from datetime import timedelta

import pytest
from freezegun import freeze_time
from sqlalchemy import select

from cueladder.api.guard import COOKIE
from cueladder.store.access.sessions import LASTS, PAIRING_LASTS, digest_of
from cueladder.store.db.engine import db, now
from cueladder.store.db.models import Coach, Device
from tests.store.club import PASSPHRASE, Browser, Club

NAME = "Ansgar of Halle Nord Fencing Circle"


def sign_in(browser, name=NAME, passphrase=PASSPHRASE):
    device = str(uuid.uuid4())
    return browser.post("/api/session", {"name": name, "passphrase": passphrase, "device": device})


def test_signing_in_tells_who_one_is(app, club):
    browser = Browser(app)
    answer = sign_in(browser, name="  ansgar OF halle nord fencing circle ")
    assert answer.get_json()["coach"] == {"id": club.coach, "name": NAME, "role": "head"}
    assert answer.get_json()["club"]["name"] == "Halle Nord Fencing Circle"
    assert browser.get("/api/session").get_json() == answer.get_json()


def test_the_cookie_is_closed_to_scripts_and_to_other_sites(app, club):
    cookie = sign_in(Browser(app)).headers["Set-Cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=Lax" in cookie
    assert "Secure" not in cookie
    secure = Browser(app)
    body = {"name": NAME, "passphrase": PASSPHRASE, "device": str(uuid.uuid4())}
    answer = secure.send("POST", "/api/session", body, base_url="https://club.example")
    assert "Secure" in answer.headers["Set-Cookie"]


def test_neither_token_nor_passphrase_is_stored(app, club):
    browser = Browser(app)
    sign_in(browser)
    token = browser.client.get_cookie(COOKIE).value
    assert digest_of(token) in db.session.scalars(select(Device.token_hash)).all()
    assert db.session.scalar(select(Coach.passphrase_hash)).startswith("$argon2id$")
    assert PASSPHRASE not in db.session.scalar(select(Coach.passphrase_hash))


@pytest.mark.parametrize(("name", "passphrase"), [(NAME, "wrong"), ("nobody", PASSPHRASE)])
def test_a_wrong_name_and_a_wrong_passphrase_get_the_same_answer(app, club, name, passphrase):
    answer = sign_in(Browser(app), name, passphrase)
    assert (answer.status_code, answer.get_json()["title"]) == (401, "Sign in")
    assert answer.get_json()["detail"] == "Name or passphrase is wrong."
    assert "Set-Cookie" not in answer.headers


def test_an_unknown_name_costs_one_hash_as_a_known_one_does(app, club, monkeypatch):
    from argon2 import PasswordHasher

    verified, real = [], PasswordHasher.verify
    monkeypatch.setattr(
        PasswordHasher, "verify", lambda self, h, p: verified.append(h) or real(self, h, p)
    )
    sign_in(Browser(app), "nobody")
    sign_in(Browser(app), NAME, "wrong")
    assert len(verified) == 2
    assert verified[0].rsplit("$", 2)[0] == verified[1].rsplit("$", 2)[0]


def test_a_coach_who_left_can_neither_sign_in_nor_go_on(app, club):
    club.add_coach("Odile", "coach")
    browser = club.sign_in("Odile")
    db.session.execute(Coach.__table__.update().where(Coach.name == "Odile").values(active=False))
    db.session.commit()
    assert browser.get("/api/session").status_code == 401
    assert sign_in(Browser(app), "Odile").status_code == 401


def test_guessing_is_slowed_down_for_one_name_only(app, club):
    club.add_coach("Odile", "coach")
    browser = Browser(app)
    codes = [sign_in(browser, NAME, "wrong").status_code for _ in range(9)]
    assert codes == [401] * 8 + [429]
    assert sign_in(browser).status_code == 429
    assert sign_in(browser, "Odile").status_code == 200


def test_signing_in_rightly_is_never_slowed_down(app, club):
    assert [sign_in(Browser(app)).status_code for _ in range(12)] == [200] * 12


def test_without_our_header_nothing_is_changed(app, club):
    browser = club.browser
    for method, path in [("POST", "/api/events"), ("DELETE", "/api/session")]:
        answer = browser.open(path, method=method, json={"events": []})
        assert answer.status_code == 403
        assert "X-Cue-Ladder" in answer.get_json()["detail"]
    assert browser.get("/api/session").status_code == 200


def test_signing_out_forgets_the_token(app, club):
    browser = club.sign_in(NAME)
    token = browser.client.get_cookie(COOKIE).value
    assert browser.send("DELETE", "/api/session").status_code == 204
    browser.client.set_cookie(COOKIE, token)
    assert browser.get("/api/session").status_code == 401


def test_a_sign_in_ends_after_sixty_days_without_use(app, club):
    browser = club.browser
    with freeze_time(now() + LASTS + timedelta(seconds=1)):
        assert browser.get("/api/session").status_code == 401


def test_a_sign_in_in_use_goes_on(app, club):
    browser, start = club.browser, now()
    for day in (30, 60, 90, 120):
        with freeze_time(start + timedelta(days=day)):
            answer = browser.get("/api/session")
            assert answer.status_code == 200
            assert "Set-Cookie" in answer.headers


def test_a_sign_in_is_not_renewed_at_every_request(club):
    assert "Set-Cookie" not in club.browser.get("/api/session").headers


def test_a_revoked_device_is_signed_out_and_the_others_go_on(app, club):
    lost, kept = club.sign_in(NAME), club.sign_in(NAME)
    device = lost.get("/api/session").get_json()["device"]
    assert kept.send("DELETE", f"/api/devices/{device}").status_code == 204
    assert lost.get("/api/club").status_code == 401
    assert kept.get("/api/club").status_code == 200
    listed = [d["id"] for d in kept.get("/api/devices").get_json()["devices"]]
    assert device not in listed


def test_a_coach_sees_and_revokes_only_own_devices(app, club):
    club.add_coach("Odile", "coach")
    odile = club.sign_in("Odile")
    heads = club.browser.get("/api/session").get_json()["device"]
    assert [d["this"] for d in odile.get("/api/devices").get_json()["devices"]] == [True]
    assert len(club.browser.get("/api/devices").get_json()["devices"]) == 2
    assert odile.send("DELETE", f"/api/devices/{heads}").status_code == 404
    assert club.browser.get("/api/session").status_code == 200


def test_a_device_of_another_club_cannot_be_revoked(app, club):
    other = Club(app, "Salle Birkenhain")
    device = other.browser.get("/api/session").get_json()["device"]
    assert club.browser.send("DELETE", f"/api/devices/{device}").status_code == 404
    assert other.browser.get("/api/session").status_code == 200


def test_on_a_shared_browser_the_last_to_sign_in_has_it(app, club):
    club.add_coach("Odile", "coach")
    first = club.sign_in(NAME)
    token = first.client.get_cookie(COOKIE).value
    assert sign_in(first, "Odile").get_json()["coach"]["name"] == "Odile"
    first.client.set_cookie(COOKIE, token)
    assert first.get("/api/session").status_code == 401
    listed = club.browser.get("/api/devices").get_json()["devices"]
    assert len([one for one in listed if one["coach"] == club.coach]) == 1


def test_signing_in_again_in_the_same_browser_ends_its_older_token_and_keeps_its_name(app, club):
    browser = club.sign_in(NAME)
    device, token = browser.get("/api/session").get_json()["device"], cookie(browser)
    browser.send("PATCH", f"/api/devices/{device}", {"name": "Phone on the armband"})
    assert sign_in(browser).get_json()["device"] == device
    listed = browser.get("/api/devices").get_json()["devices"]
    assert [one["name"] for one in listed if one["this"]] == ["Phone on the armband"]
    newer = cookie(browser)
    browser.send("DELETE", "/api/session")
    for ended in (token, newer):
        browser.client.set_cookie(COOKIE, ended)
        assert browser.get("/api/session").status_code == 401


def test_a_sign_in_that_claims_anothers_device_ends_nothing_and_is_a_device_of_its_own(app, club):
    """A device's number is no secret; whoever says it is still somebody else."""
    club.add_coach("Odile", "observer")
    device = club.browser.get("/api/session").get_json()["device"]
    for name in ("Odile", NAME):
        assert club.sign_in(name, device).get("/api/session").get_json()["device"] != device
    assert club.browser.get("/api/session").get_json()["device"] == device
    listed = club.browser.get("/api/devices").get_json()["devices"]
    assert len(listed) == 3


def test_a_stolen_passphrase_lets_nobody_in_once_it_is_changed(app, club):
    """Not even one who gave the number of the device on which it was changed."""
    mine = club.browser.get("/api/session").get_json()["device"]
    thief = club.sign_in(NAME, mine)
    body = {"old": PASSPHRASE, "passphrase": "quite another phrase"}
    assert club.browser.send("PUT", "/api/session/passphrase", body).status_code == 204
    assert thief.get("/api/session").status_code == 401
    assert club.browser.get("/api/session").status_code == 200
    assert [one["this"] for one in club.browser.get("/api/devices").get_json()["devices"]] == [True]


def test_a_pairing_code_shown_on_a_device_ends_with_it(app, club):
    lost = club.sign_in(NAME)
    code = lost.post("/api/pairings").get_json()["code"]
    device = lost.get("/api/session").get_json()["device"]
    club.browser.send("DELETE", f"/api/devices/{device}")
    assert Browser(app).post("/api/session/pair", {"code": code}).status_code == 401


def cookie(browser):
    return browser.client.get_cookie(COOKIE).value


def test_a_phone_is_paired_by_a_code_once(app, club):
    shown = club.browser.post("/api/pairings").get_json()
    assert shown["code"] in shown["url"]
    assert shown["svg"].startswith("<svg")
    phone = Browser(app)
    assert re.fullmatch("(....)-(....)-(....)", shown["code"])
    body = {"code": shown["code"].lower().replace("-", " "), "device": str(uuid.uuid4())}
    assert phone.post("/api/session/pair", body).get_json()["coach"]["id"] == club.coach
    assert phone.get("/api/club").status_code == 200
    assert Browser(app).post("/api/session/pair", body).status_code == 401


def test_a_pairing_code_is_short_lived(app, club):
    code = club.browser.post("/api/pairings").get_json()["code"]
    body = {"code": code, "device": str(uuid.uuid4())}
    with freeze_time(now() + PAIRING_LASTS + timedelta(seconds=1)):
        assert Browser(app).post("/api/session/pair", body).status_code == 401


def test_a_new_pairing_code_ends_the_one_before(app, club):
    codes = [club.browser.post("/api/pairings").get_json()["code"] for _ in range(2)]
    found = [
        Browser(app)
        .post("/api/session/pair", {"code": code, "device": str(uuid.uuid4())})
        .status_code
        for code in codes
    ]
    assert found == [401, 200]


@pytest.mark.parametrize(
    ("body", "field"),
    [
        ({"name": NAME}, "passphrase"),
        ({"name": 3, "passphrase": PASSPHRASE, "device": str(uuid.uuid4())}, "name"),
        ({"name": "\0", "passphrase": PASSPHRASE, "device": str(uuid.uuid4())}, "name"),
        ({"name": NAME, "passphrase": "x" * 201, "device": str(uuid.uuid4())}, "passphrase"),
        ({"name": NAME, "passphrase": PASSPHRASE, "device": "mine"}, "device"),
        ([], "body"),
    ],
)
def test_a_malformed_sign_in_names_the_field(app, club, body, field):
    answer = Browser(app).post("/api/session", body)
    assert answer.status_code == 422
    assert field in answer.get_json()["errors"]


def test_guessing_one_name_from_many_addresses_is_slowed_down_too(app, club):
    """A hundred wrong tries an hour, however many machines share them."""
    club.add_coach("Odile", "coach")
    body = {"name": NAME, "passphrase": "wrong"}
    codes = [
        Browser(app)
        .send("POST", "/api/session", body, environ_overrides={"REMOTE_ADDR": f"10.0.{k}.7"})
        .status_code
        for k in range(101)
    ]
    assert codes == [401] * 100 + [429]
    assert sign_in(Browser(app), "Odile").status_code == 200


def test_ways_in_are_logged_by_number_and_never_with_what_was_sent(app, club, caplog):
    caplog.set_level("INFO", logger="cueladder.access")
    device = club.browser.get("/api/session").get_json()["device"]
    sign_in(Browser(app))
    sign_in(Browser(app), NAME, "wrong")
    club.add_coach("Odile", "observer")
    club.sign_in("Odile").get("/api/audit")
    club.browser.send("DELETE", f"/api/devices/{device}")
    told = [(r.levelname, r.getMessage().split(", by ")[0]) for r in caplog.records]
    assert ("INFO", "POST /api/session: 200") in told
    assert ("WARNING", "POST /api/session: 401") in told
    assert ("WARNING", "GET /api/audit: 403") in told
    assert ("INFO", "DELETE /api/devices/<device_id>: 204") in told
    assert caplog.records[-1].getMessage().endswith(club.coach)
    for secret in (PASSPHRASE, "wrong", NAME, "Odile", device):
        assert secret not in caplog.text


@pytest.mark.parametrize(("length", "code"), [(11, 422), (12, 204), (128, 204), (200, 204)])
def test_a_passphrase_has_twelve_characters_or_more_of_any_kind(club, length, code):
    new = "ß \U0001f93a" + "x" * (length - 3)
    body = {"old": PASSPHRASE, "passphrase": new}
    assert club.browser.send("PUT", "/api/session/passphrase", body).status_code == code
    assert sign_in(Browser(club.app), NAME, new).status_code == (200 if code == 204 else 401)
