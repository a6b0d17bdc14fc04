"""A real app on real databases: an SQLite file and PostgreSQL, each migrated as in use."""

import os
import shutil
import subprocess
from pathlib import Path

import psycopg
import pytest
from hypothesis import settings
from playwright.sync_api import sync_playwright

from cueladder.api.limits import limiter
from cueladder.app import create_app
from cueladder.store import migrate
from cueladder.store.db import db
from tests.store.club import Club

# Timings are never tested: a slow machine must not fail a property.
settings.register_profile("house", deadline=None)
settings.load_profile("house")

POSTGRES = os.environ.get("CUELADDER_TEST_PG", "postgresql://postgres@127.0.0.1:5432/postgres")
# As cheap as argon2id gets: the tests sign in hundreds of times.
CHEAP = {"ARGON2": (1, 8, 1)}
DATABASES = ("sqlite", "postgresql")


@pytest.fixture(scope="session")
def sqlite_app(tmp_path_factory):
    """The app on a migrated SQLite file."""
    folder = tmp_path_factory.mktemp("sqlite")
    yield from _app({"DATA": folder, "DATABASE_URL": None}, folder)


@pytest.fixture(scope="session")
def postgres_server():
    """The address of a PostgreSQL server, or a visible skip."""
    try:
        psycopg.connect(POSTGRES, connect_timeout=3).close()
    except psycopg.OperationalError as error:
        pytest.skip(f"no PostgreSQL at CUELADDER_TEST_PG or 127.0.0.1:5432: {error}")
    return POSTGRES


@pytest.fixture(scope="session")
def postgresql_app(postgres_server, tmp_path_factory):
    """The app on a migrated PostgreSQL database of this test process."""
    with empty_database(postgres_server, "cueladder_test") as url:
        yield from _app({"DATABASE_URL": url}, tmp_path_factory.mktemp("postgresql"))


@pytest.fixture
def bare_postgres_url(postgres_server):
    """A PostgreSQL database without any table."""
    with empty_database(postgres_server, "cueladder_bare") as url:
        yield url


@pytest.fixture(scope="session")
def chromium():
    """Playwright, started once a process: a second one in the same process is refused."""
    with sync_playwright() as playwright:
        yield playwright


@pytest.fixture
def nginx():
    """The program, installed where that is possible, or a visible skip."""
    search = os.environ["PATH"] + ":/usr/sbin"
    if not shutil.which("nginx", path=search) and os.getuid() == 0 and shutil.which("apt-get"):
        subprocess.run(["apt-get", "install", "-y", "-qq", "nginx-light"], capture_output=True,
                       check=False)  # fmt: skip
    found = shutil.which("nginx", path=search)
    if not found or not shutil.which("openssl"):
        pytest.skip("nginx and openssl are needed to try the recipe, and cannot be installed here")
    return found


class empty_database:
    """A database that is there for a while."""

    def __init__(self, server, name):
        self.server = server
        self.name = f"{name}_{os.environ.get('PYTEST_XDIST_WORKER', 'main')}_{os.getpid()}"

    def __enter__(self):
        self._run(f'CREATE DATABASE "{self.name}"')
        return self.server.rsplit("/", 1)[0] + "/" + self.name

    def __exit__(self, *_):
        self._run(f'DROP DATABASE "{self.name}" WITH (FORCE)')

    def _run(self, statement):
        with psycopg.connect(self.server, autocommit=True) as connection:
            connection.execute(statement)


@pytest.fixture(params=DATABASES)
def app(request):
    """The app on each database, emptied, with a small front end."""
    made = request.getfixturevalue(f"{request.param}_app")
    limiter.reset()
    with made.app_context():
        _empty_tables()
        yield made
        db.session.remove()


@pytest.fixture
def club(app):
    """A club with a head coach who is signed in, a fencer and a drill."""
    return Club(app)


@pytest.fixture
def client(club):
    """The head coach's browser."""
    return club.browser


def _app(config, folder):
    made = create_app({**config, **CHEAP, "STATIC": _front_end(folder / "static")})
    with made.app_context():
        migrate.up()
    yield made
    with made.app_context():
        db.session.remove()
        db.engine.dispose()


def _empty_tables():
    with db.engine.begin() as connection:
        for table in reversed(db.metadata.sorted_tables):
            connection.execute(table.delete())


def _front_end(folder: Path) -> Path:
    (folder / "assets").mkdir(parents=True)
    (folder / "index.html").write_text("<!doctype html><title>Cue Ladder</title>")
    (folder / "sw.js").write_text("// worker")
    (folder / "assets" / "app-1a2b3c.js").write_text("// app")
    return folder
