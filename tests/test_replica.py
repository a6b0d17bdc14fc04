"""Progress pages are read from a streaming replica where there is one: a real one, made here."""

import os
import shutil
import subprocess
from pathlib import Path
from urllib.parse import urlsplit

import psycopg
import pytest

from cueladder.app import create_app
from cueladder.store.db import migrate
from cueladder.store.db.engine import db
from tests.patience import SECONDS, until
from tests.ports import free_port
from tests.store.club import CHEAP, Club

pytestmark = pytest.mark.thorough

SETTINGS = """
listen_addresses = '127.0.0.1'
unix_socket_directories = ''
fsync = off
max_wal_senders = 4
"""


class Cluster:
    """A PostgreSQL of our own in a folder; it refuses to run as root, so root lends it a user."""

    def __init__(self, programs, folder):
        self.programs, self.folder, self.port = programs, folder, free_port()
        self.url = f"postgresql://postgres@127.0.0.1:{self.port}/postgres"

    def run(self, program, *arguments):
        user = ["runuser", "-u", "postgres", "--"] if os.getuid() == 0 else []
        command = [*user, str(self.programs / program), *map(str, arguments)]
        # its log goes to a file: a pipe would stay open with the server
        with open(f"{self.folder}.log", "a") as log:
            subprocess.run(command, check=True, stdout=log, stderr=log, timeout=SECONDS, cwd="/")

    def start(self):
        with open(self.folder / "postgresql.conf", "a") as conf:
            conf.write(SETTINGS + f"port = {self.port}\n")
        self.run("pg_ctl", "-D", self.folder, "-w", "-l", f"{self.folder}.out", "start")

    def stop(self):
        self.run("pg_ctl", "-D", self.folder, "-m", "immediate", "stop")

    def ask(self, statement):
        with psycopg.connect(self.url, autocommit=True) as connection:
            return connection.execute(statement).fetchone()


@pytest.fixture(scope="module")
def programs():
    """Where initdb lives: Debian keeps it out of the way."""
    found = shutil.which("initdb") or max(
        Path("/usr/lib/postgresql").glob("*/bin/initdb"), default=None
    )
    if found is None or (os.getuid() == 0 and not shutil.which("runuser")):
        pytest.skip("PostgreSQL's own programs (initdb, pg_basebackup) are not installed here")
    return Path(found).resolve().parent


@pytest.fixture
def pair(programs, tmp_path_factory):
    """A primary and a replica that follows it."""
    home = tmp_path_factory.mktemp("replica")
    for folder in (home, *home.parents[:3]):
        folder.chmod(0o755)
    home.chmod(0o777)
    primary, replica = Cluster(programs, home / "primary"), Cluster(programs, home / "replica")
    primary.run("initdb", "-D", primary.folder, "-U", "postgres", "-A", "trust", "--no-sync")
    primary.start()
    source = f"host=127.0.0.1 port={primary.port} user=postgres"
    try:
        primary.run("pg_basebackup", "-D", replica.folder, "-R", "-d", source, "--no-sync")
        replica.start()
        try:
            yield primary, replica
        finally:
            replica.stop()
    finally:
        primary.stop()


@pytest.fixture
def club(pair, tmp_path):
    """A club on the primary, whose pages are read from the replica."""
    primary, replica = pair
    app = create_app(
        {"DATA": tmp_path, "DATABASE_URL": primary.url, "REPLICA_URL": replica.url, **CHEAP}
    )
    with app.app_context():
        migrate.up()
        yield Club(app)
        db.session.remove()
        for engine in db.engines.values():
            engine.dispose()


def wait_for(primary, replica):
    """Until the replica has all that the primary wrote."""
    (written,) = primary.ask("SELECT pg_current_wal_lsn()")
    there = f"SELECT pg_last_wal_replay_lsn() >= '{written}'"
    until(lambda: replica.ask(there)[0], "the replica")


def lesson(club, count):
    """A lesson of so many clean cues on the club's drill."""
    phone = club.phone()
    club.browser.push(phone.open(), *phone.cues(count))


def test_a_progress_page_is_read_from_the_replica_and_outlives_it(club, pair):
    primary, replica = pair
    lesson(club, 3)
    link = club.browser.post(f"/api/fencers/{club.fencer}/links", {}).get_json()
    wait_for(primary, replica)
    visitor = club.app.test_client()

    def page(suffix=""):
        answer = visitor.get(urlsplit(link["url"]).path + suffix)
        assert answer.status_code == 200
        return answer.get_data(as_text=True)

    before = page()
    replica.ask("SELECT pg_wal_replay_pause()")
    lesson(club, 16)
    assert page() == before, "while the replica stands still, so does the page"
    assert page("?ticked=1") != before, "after a tick the page is read where it was written"
    replica.ask("SELECT pg_wal_replay_resume()")
    wait_for(primary, replica)
    after = page()
    assert after != before

    replica.stop()
    assert page() == after, "without the replica the page is read from the primary"
    replica.run("pg_ctl", "-D", replica.folder, "-w", "-l", f"{replica.folder}.out", "start")
