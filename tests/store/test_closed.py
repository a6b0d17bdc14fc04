"""What was erased or closed stays so when an older state is put back."""

from contextlib import closing, contextmanager

import pytest
from click.testing import CliRunner
from sqlalchemy import select

from cueladder.app import create_app
from cueladder.cli import main
from cueladder.store.access.links import create_link
from cueladder.store.db import migrate
from cueladder.store.db.engine import db
from cueladder.store.db.models import Coach, Device, Erasure, Fencer, OneTimeCode
from cueladder.store.fencers.remnants import wipe_remnants
from cueladder.store.whole.closed import close_again, read_closed
from tests.conftest import CHEAP
from tests.faults.raw_bytes import file_bytes
from tests.patience import until
from tests.store.club import PASSPHRASE, Browser, Club

NAME, NEW = "Quibberina", "quite another phrase"


@contextmanager
def opened(folder, url=None):
    """The app on a database of its own."""
    app = create_app({"DATA": folder, "DATABASE_URL": url, **CHEAP})
    with app.app_context():
        migrate.up()
        try:
            yield app
        finally:
            db.session.remove()
            db.engine.dispose()


def begin(app):
    """A club as it is when the backup is made; returns what it is known by."""
    club = Club(app)
    erased = club.add_fencer(NAME)
    phone = club.phone()
    club.browser.push(phone.open("2026-03-02"), *phone.cues(3))
    removed = phone.lesson
    links = [create_link(club.id, club.fencer, club.coach).token for _ in range(2)]
    odile = club.add_coach("Odile", "coach")
    club.browser.post("/api/invitations", {"role": "head"})
    return {"club": club, "erased": erased, "removed": removed, "links": links, "odile": odile}


def go_on(club, erased, removed, links, odile):
    """What happens between the backup and the restore."""
    club.browser.send("DELETE", f"/api/fencers/{erased}")
    club.browser.send("DELETE", f"/api/lessons/{removed}")
    path = f"/api/fencers/{club.fencer}/links"
    newest = club.browser.get(path).get_json()["links"][0]["id"]
    club.browser.send("DELETE", f"{path}/{newest}")
    club.browser.send("PATCH", f"/api/coaches/{odile}", {"active": False})
    club.browser.send("PUT", "/api/session/passphrase", {"old": PASSPHRASE, "passphrase": NEW})


def sign_in(app, name, passphrase):
    return Browser(app).post("/api/session", {"name": name, "passphrase": passphrase}).status_code


def check(app, club, erased, removed, links, odile, cookie):
    """What must hold after the restore, whichever way it was done."""
    assert db.session.get(Fencer, (1, erased)) is None
    kept = set(db.session.scalars(select(Erasure.id)))
    assert kept == {erased, removed}
    for model in (Device, OneTimeCode):
        assert db.session.scalars(select(model)).all() == []
    db.session.remove()
    assert [Browser(app).get(f"/p/{token}").status_code for token in links] == [200, 404]
    thief = Browser(app)
    thief.client.set_cookie("cue_ladder", cookie)
    assert thief.get("/api/session").status_code == 401
    ansgar = "Ansgar of Halle Nord Fencing Circle"
    assert [sign_in(app, ansgar, each) for each in (PASSPHRASE, NEW)] == [401, 200]
    assert sign_in(app, "Odile", PASSPHRASE) == 401
    # PostgreSQL's own housekeeping may still read the old rows: then it is tried again
    until(wipe_remnants, "the wiping")
    assert NAME.encode() not in file_bytes()


def run(folder, *words):
    told = CliRunner().invoke(main, ["--data", str(folder), *map(str, words)])
    assert told.exit_code == 0, told.output
    return told.stdout


def test_a_backup_put_back_brings_back_nothing_that_was_closed_since(tmp_path, monkeypatch):
    monkeypatch.delenv("DATABASE_URL", raising=False)
    with opened(tmp_path / "here") as app:
        known = begin(app)
        cookie = known["club"].browser.client.get_cookie("cue_ladder").value
        db.session.remove()
        db.engine.dispose()
        run(tmp_path / "here", "backup", tmp_path / "old")
        go_on(**known)
    told = run(tmp_path / "here", "restore", tmp_path / "old", "--replace")
    assert "1 fencers and 1 lessons erased again, 1 links closed again" in told
    with opened(tmp_path / "here") as app:
        check(app, cookie=cookie, **known)


def test_where_the_database_before_is_lost_every_link_closes_and_the_operator_is_told(
    tmp_path, monkeypatch
):
    monkeypatch.delenv("DATABASE_URL", raising=False)
    with opened(tmp_path / "here") as app:
        known = begin(app)
    run(tmp_path / "here", "backup", tmp_path / "old")
    (tmp_path / "here" / "cueladder.sqlite").write_text("no database any more " * 500)
    for part in (tmp_path / "here").glob("cueladder.sqlite-*"):
        part.unlink()
    told = run(tmp_path / "new", "restore", tmp_path / "old")
    assert "could not be read: 2 links were closed" in told
    assert "Erase again who was erased since" in told
    with opened(tmp_path / "new") as app:
        found = [Browser(app).get(f"/p/{token}").status_code for token in known["links"]]
        assert found == [404, 404]
        assert db.session.scalars(select(Device)).all() == []


@pytest.mark.thorough
def test_after_pg_restore_the_same_is_done_from_the_old_database(tmp_path, bare_postgres_url):
    """The old state stands in an SQLite file here; what is read of it is the same SQL."""
    with opened(tmp_path / "later") as later:
        known = begin(later)
        cookie = known["club"].browser.client.get_cookie("cue_ladder").value
        db.session.remove()
        db.engine.dispose()
        run(tmp_path / "later", "move", "--to", bare_postgres_url)
        go_on(**known)
    old = f"sqlite:///{tmp_path / 'later' / 'cueladder.sqlite'}"
    told = CliRunner().invoke(
        main, ["close-again", "--from", old], env={"DATABASE_URL": bare_postgres_url}
    )
    assert told.exit_code == 0, told.output
    assert "1 fencers and 1 lessons erased again" in told.stdout
    with opened(tmp_path, bare_postgres_url) as app:
        check(app, cookie=cookie, **known)


def test_a_database_without_a_club_is_none_to_go_by(app):
    with closing(db.engine.connect()) as connection:
        assert read_closed(connection) is None


def test_closing_again_leaves_what_was_not_closed(app, club):
    second = club.add_fencer("Jona")
    with closing(db.engine.connect()) as connection:
        closed = read_closed(connection)
    assert close_again(closed) == {"fencers": 0, "lessons": 0, "links": 0}
    assert db.session.get(Fencer, (club.id, second)) is not None
    assert db.session.scalar(select(Coach.role)) == "head"


@pytest.mark.parametrize("lost", [True, False])
def test_a_coach_who_is_not_in_the_backup_is_not_made_again(club, lost):
    with closing(db.engine.connect()) as connection:
        closed = read_closed(connection)
    closed.coaches[(club.id, "someone")] = ("head", True, "x")
    closed.fencers.add((99, "of another club"))
    close_again(None if lost else closed)
    assert len(db.session.scalars(select(Coach)).all()) == 1
