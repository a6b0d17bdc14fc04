"""Odd and hostile visitors: each gets a clear answer, and nobody else waits for it."""

import os
import socket
import stat
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner
from sqlalchemy import event
from sqlalchemy.exc import OperationalError

from cueladder.app import create_app
from cueladder.cli import main
from cueladder.store.access.links import create_link
from cueladder.store.db import health, migrate
from cueladder.store.db.engine import db
from tests.conftest import CHEAP
from tests.faults.server_run import House, Served, call
from tests.store.club import PASSPHRASE, Browser

LONG, DIGITS = "x" * 300, "9" * 5000


@pytest.mark.parametrize("method", ["GET", "POST", "PUT", "PATCH", "DELETE"])
@pytest.mark.parametrize("odd", ["%00", LONG, DIGITS, "..%2f..%2fx", "%ff%fe", "x" * 5000])
def test_no_odd_name_in_an_address_is_more_than_a_plain_refusal(app, club, method, odd):
    """Every route with every part of it replaced; new routes come along by themselves."""
    tried = 0
    for rule in app.url_map.iter_rules():
        if method not in rule.methods or not rule.arguments:
            continue
        path = rule.rule
        for part in rule._trace:
            if part[0]:
                path = path.replace(_written(rule, part[1]), odd)
        body = None if method in ("GET", "DELETE") else {}
        answer = club.browser.send(method, path, body)
        assert answer.status_code < 500, (rule.rule, odd, answer.get_data(as_text=True))
        tried += 1
    assert tried > 2 or method == "PUT"


def _written(rule, name):
    """How an argument stands in the rule, converter included."""
    (found,) = [p for p in rule.rule.split("<")[1:] if p.split(">")[0].split(":")[-1] == name]
    return f"<{found.split('>')[0]}>"


@pytest.mark.parametrize("odd", ["%00", DIGITS, "%ed%a0%80", "-1", "1e9", "NaN"])
def test_no_odd_number_in_a_query_is_more_than_a_plain_refusal(app, club, odd):
    for path in (
        "/api/events?after=",
        "/api/standings?limit=",
        "/api/audit?before=",
        "/api/charts?ids=",
        "/api/club?day=",
        "/api/club/retention?days=",
        "/api/rules/odds.svg?rule=",
        f"/api/fencers/{club.fencer}/plan?minutes=",
    ):
        answer = club.browser.get(path + odd)
        assert answer.status_code < 500, (path, answer.get_data(as_text=True))


def test_a_number_of_five_thousand_digits_in_a_body_is_no_fault_of_ours(club):
    for body in (f'{{"events": [{DIGITS}]}}', f'{{"days": {DIGITS}}}', f"[{DIGITS}]"):
        for path in ("/api/events", f"/api/fencers/{club.fencer}/links", "/api/drills"):
            answer = club.browser.open(
                path, method="POST", data=body, content_type="application/json",
                headers={"X-Cue-Ladder": "1"},
            )  # fmt: skip
            assert answer.status_code in (200, 400, 422), (path, answer.get_data(as_text=True))


@pytest.mark.parametrize("there", ["/etc/passwd", "/etc/no-such-file"])
@pytest.mark.parametrize("way", ["..%2f", "%2e%2e/", "..\\"])
def test_a_file_outside_the_folder_is_not_told_from_one_that_is_not_there(app, club, there, way):
    told = [club.browser.get("/" + way * 12 + name.lstrip("/")) for name in (there, "etc/none")]
    assert told[0].status_code == told[1].status_code
    assert told[0].data == told[1].data


@pytest.mark.parametrize("blank", ["", " ", "\u00a0\u2003", "\u200b", "\t\n"])
def test_a_name_with_nothing_to_see_in_it_is_refused(app, club, blank):
    device = club.browser.get("/api/session").get_json()["device"]
    code = club.browser.post("/api/invitations", {}).get_json()["code"]
    join = {"code": code, "name": blank, "passphrase": PASSPHRASE}
    for method, path, body, field in (
        ("POST", "/api/fencers", {"nickname": blank, "weapon": "foil"}, "nickname"),
        ("PATCH", f"/api/fencers/{club.fencer}", {"nickname": blank}, "nickname"),
        ("PATCH", f"/api/devices/{device}", {"name": blank}, "name"),
        ("POST", "/api/session/join", join, "name"),
    ):
        answer = club.browser.send(method, path, body)
        assert (answer.status_code, list(answer.get_json()["errors"])) == (422, [field]), path


def test_who_is_slowed_down_is_told_for_how_long(app, club):
    body = {"name": "Ansgar of Halle Nord Fencing Circle", "passphrase": "wrong"}
    answers = [Browser(app).post("/api/session", body) for _ in range(9)]
    assert answers[-1].status_code == 429
    assert 0 < int(answers[-1].headers["Retry-After"]) <= 3600


def test_a_parent_sees_a_page_when_the_database_does_not_answer(app, club, monkeypatch):
    token = create_link(club.id, club.fencer, club.coach).token

    def gone(*_, **__):
        raise OperationalError("SELECT", {}, Exception("database is locked"))

    for path in (f"/p/{token}", f"/p/{token}/drill/0.svg"):
        with monkeypatch.context() as patched:
            patched.setattr("cueladder.pages.progress.resolve_link", gone)
            answer = Browser(app).get(path)
        assert (answer.status_code, answer.mimetype) == (503, "text/html")
        assert "please try again in a few minutes" in answer.get_data(as_text=True)
        assert answer.headers["Cache-Control"] == "no-store"
        assert answer.headers["Retry-After"]
    assert Browser(app).get(f"/p/{token}").status_code == 200


@pytest.mark.thorough
def test_a_server_that_cannot_write_does_not_say_that_it_is_well(tmp_path, bare_postgres_url):
    def read_only(driver, _):
        if hasattr(driver, "info"):
            driver.execute("SET default_transaction_read_only = on")
            driver.commit()
        else:
            driver.execute("PRAGMA query_only=1")

    for url in (None, bare_postgres_url):
        app = create_app({"DATA": tmp_path, "DATABASE_URL": url, **CHEAP})
        with app.app_context():
            migrate.up()
            assert Browser(app).get("/api/health").get_json()["status"] == "ok"
            db.session.remove()
            db.engine.dispose()
            event.listen(db.engine, "connect", read_only)
            answer = Browser(app).get("/api/health")
            assert (answer.status_code, answer.mimetype) == (503, "application/problem+json")
            assert "disk full or read-only" in answer.get_json()["detail"]
            db.session.remove()
            db.engine.dispose()


@pytest.mark.parametrize("app", ["sqlite"], indirect=True)
def test_a_full_disk_is_not_well_and_another_writer_is(app, club, monkeypatch):
    with db.engine.connect().execution_options(immediate=True) as writer:
        writer.exec_driver_sql("UPDATE club SET seq = seq")
        assert Browser(app).get("/api/health").status_code == 200
        writer.rollback()
    monkeypatch.setattr(health, "LEAST_ROOM", 10**18)
    assert Browser(app).get("/api/health").status_code == 503


@pytest.mark.thorough
def test_nobody_else_on_the_machine_reads_the_data(tmp_path):
    folder = tmp_path / "data"
    old = os.umask(0o022)
    try:
        done = subprocess.run(
            [sys.executable, "-m", "cueladder.cli", "--data", str(folder), "setup"],
            capture_output=True, check=True, env=os.environ | {"DATABASE_URL": ""},
        )  # fmt: skip
        assert b"Set-up code" in done.stdout
        CliRunner().invoke(main, ["--data", str(folder), "backup", str(tmp_path / "copy")])
    finally:
        os.umask(old)
    modes = {path.name: stat.S_IMODE(path.stat().st_mode) for path in [folder, *folder.iterdir()]}
    assert modes.pop("data") == 0o700
    assert modes and set(modes.values()) == {0o600}
    assert stat.S_IMODE((tmp_path / "copy").stat().st_mode) == 0o600


def test_a_database_that_was_open_to_all_is_closed_at_the_next_start(tmp_path):
    file = tmp_path / "cueladder.sqlite"
    file.touch(mode=0o644)
    create_app({"DATA": tmp_path, "DATABASE_URL": None, **CHEAP})
    assert stat.S_IMODE(file.stat().st_mode) == 0o600


@pytest.mark.thorough
@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no way to make a full disk here")
def test_adding_a_coach_on_a_full_disk_is_told_in_one_line(tmp_path):
    words = ["--data", str(tmp_path), "coach", "add", "Odile", "--club", "Halle Nord",
             "--passphrase", PASSPHRASE]  # fmt: skip
    code = (
        "import resource, signal, sys; signal.signal(signal.SIGXFSZ, signal.SIG_IGN);"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (20000, 20000));"
        f"from cueladder.cli import main; main({words!r})"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=False,
        env=os.environ | {"DATABASE_URL": ""},
    )  # fmt: skip
    assert done.returncode == 1
    assert "Traceback" not in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1, done.stderr
    assert "Is the disk full or read-only" in done.stderr


@pytest.mark.thorough
def test_half_open_connections_and_endless_bodies_hold_nobody_up(tmp_path):
    house = House(tmp_path)
    with Served(house) as server:
        held = []
        try:
            for k in range(300):
                one = socket.create_connection(("127.0.0.1", server.port), timeout=10)
                one.sendall(b"POST /api/events HTTP/1.1\r\nHost: x\r\n" if k % 2 else b"G")
                held.append(one)
            for _ in range(3):
                one = socket.create_connection(("127.0.0.1", server.port), timeout=20)
                head = f"POST /api/events HTTP/1.1\r\nHost: x\r\nContent-Length: {10**8}\r\n\r\n"
                one.sendall(head.encode())
                assert _refused(one), "a body of 100 MB was read"
                one.close()
            status, told, _ = call(server.port, house.cookie, "GET", "/api/session")
            assert (status, told["coach"]["id"]) == (200, house.club.coach)
        finally:
            for one in held:
                one.close()


def _refused(connection):
    """Send on until the server will not have any more of it."""
    sent = 0
    try:
        while sent < 3 * 10**7:
            connection.sendall(b"x" * 65536)
            sent += 65536
    except OSError:
        return True
    return False
