"""A real app on real databases: an SQLite file and PostgreSQL, each migrated as in use."""

# ruff: noqa: E402 (the clock is set before anything reads it)
from tests.morning import keep_midnight_away

keep_midnight_away()

import os
import shutil
import subprocess
from pathlib import Path

import freezegun
import psycopg
import pytest
from hypothesis import settings
from playwright.sync_api import sync_playwright

from cueladder.api.limits import limiter
from cueladder.app import create_app
from cueladder.store.db import migrate
from cueladder.store.db.engine import db
from cueladder.store.fencers import remnants
from tests.browser.phone import ARGUMENTS, SHELL
from tests.examples import TIMES
from tests.patience import SECONDS
from tests.store.club import CHEAP, Club

# pytest's own clock, by which it tells the slowest tests
freezegun.configure(extend_ignore_list=["_pytest.timing"])
# Timings are never tested: a slow machine must not fail a property.
settings.register_profile("house", deadline=None, max_examples=34 * TIMES, derandomize=TIMES == 1)
settings.load_profile("house")

# What is erased waits for every transaction on the server, and other tests use the same one.
remnants.PATIENCE = int(SECONDS)

POSTGRES = os.environ.get("CUELADDER_TEST_PG", "postgresql://postgres@127.0.0.1:5432/postgres")
DATABASES = ("sqlite", "postgresql")
# What stores, sends, edits and erases, and what two do at once runs on both; all else on SQLite,
# and on PostgreSQL by `make test-postgresql`.
ON_BOTH = (
    "store/",
    "faults/test_erase.py",
    "faults/test_server.py",
    "api/test_push.py",
    "api/test_edits.py",
)


def pytest_addoption(parser):
    parser.addoption("--engines", action="store_true", help="the stories in every engine, too")
    parser.addoption(
        "--postgresql", action="store_true", help="only what runs on SQLite alone, on PostgreSQL"
    )


def pytest_collection_modifyitems(config, items):
    if not config.getoption("engines"):  # but for some kills of Chromium
        items[:] = [
            one
            for one in items
            if "engines" not in one.path.parts
            or (one.path.name == "test_kills.py" and "[chromium]" in one.name)
        ]
    if config.getoption("postgresql"):
        items[:] = [one for one in items if _runs_elsewhere(one)]


def _runs_elsewhere(item):
    params = getattr(getattr(item, "callspec", None), "params", {})
    return params.get("app") == "postgresql" and not _path(item).startswith(ON_BOTH)


def _path(item):
    return item.path.relative_to(Path(__file__).parent).as_posix()


def pytest_generate_tests(metafunc):
    named = [mark.args[0] for mark in metafunc.definition.iter_markers("parametrize")]
    if "app" not in metafunc.fixturenames or "app" in named:
        return
    sqlite, postgresql = DATABASES
    if _path(metafunc.definition).startswith(ON_BOTH):
        on = DATABASES
    else:
        on = (postgresql,) if metafunc.config.getoption("postgresql") else (sqlite,)
    metafunc.parametrize("app", on, indirect=True)


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


@pytest.fixture(scope="session")
def chrome(chromium):
    """One browser for all that keeps nothing in it."""
    browser = chromium.chromium.launch(executable_path=SHELL, args=ARGUMENTS)
    yield browser
    browser.close()


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


@pytest.fixture
def app(request):
    """The app on a database, emptied, with a small front end; on which, see `ON_BOTH`."""
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
