"""Fixtures: a served club with a short season, a phone, and one that is signed in already."""

import fcntl
import os
import pickle
import re
import shutil
import subprocess
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner

from cueladder.app import create_app
from cueladder.cli import main
from cueladder.store.db.engine import db
from seed_demo.make import make
from tests.browser.evening import make_evening
from tests.browser.phone import SHELL, Guest, Phone
from tests.browser.server import Server
from tests.store.club import CHEAP


@pytest.fixture(scope="session")
def season(tmp_path_factory):
    """A database folder with five weeks of lessons up to today, and what was made."""
    return made_once(tmp_path_factory, "season", make_season)


def make_season(folder):
    app = create_app({"DATA": str(folder), **CHEAP})
    with app.app_context():
        made = make(date.today(), weeks=5)
        db.session.remove()
        db.engine.dispose()
    return made


def made_once(tmp_path_factory, name, build):
    """A folder, and what ``build(folder)`` gave: made by the first process, read by the others."""
    root = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        root = root.parent
    folder, told = root / f"{name}-of-all", root / f"{name}.pickle"
    with open(root / f"{name}.lock", "w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not told.exists():
            folder.mkdir()
            told.write_bytes(pickle.dumps(build(folder)))
    return folder, pickle.loads(told.read_bytes())


@pytest.fixture(scope="session")
def second_build(tmp_path_factory):
    """The same sources, built as another version."""
    return made_once(tmp_path_factory, "second", build_again)[0]


def build_again(folder):
    subprocess.run(
        ["npx", "vite", "build", "--outDir", str(folder), "--emptyOutDir", "--logLevel", "error"],
        cwd=Path(__file__).parents[2] / "frontend",
        env=os.environ | {"CUE_LADDER_BUILD": "2031-01-01T08:00"},
        check=True,
        capture_output=True,
    )


@pytest.fixture
def server(season, tmp_path):
    folder = tmp_path / "data"
    shutil.copytree(season[0], folder)
    running = Server(folder)
    running.start()
    yield running
    running.stop()


@pytest.fixture
def phone(chromium, tmp_path, server):
    one = Phone(chromium, tmp_path / "profile", server.url, program=SHELL)
    yield one
    one.close()


@pytest.fixture(scope="session")
def evening(chromium, season, tmp_path_factory):
    """A club and a phone that is signed in and has fetched everything, to be copied."""
    return make_evening(chromium, season, tmp_path_factory.mktemp("evening"))


@pytest.fixture
def salle(evening, tmp_path):
    """A running server with a phone that is signed in at it and holds the club's data."""
    with evening.copy(tmp_path) as here:
        yield here


@pytest.fixture
def empty(chrome, tmp_path):
    """A server without a club, the link its owner is told, and a phone that knows nothing."""
    server = Server(tmp_path / "data")
    words = ["--data", str(server.folder), "setup", "--address", server.url]
    told = CliRunner().invoke(main, words, catch_exceptions=False).stdout
    server.start()
    phone = Guest(chrome, server.url)
    yield phone, re.search(r"Open (\S+)", told)[1]
    phone.close()
    server.stop()
