"""Fixtures: a served club with a short season, a phone, and one that is signed in already."""

import shutil
from datetime import date

import pytest
from playwright.sync_api import expect

from cueladder.app import create_app
from seed_demo.make import make
from tests.browser.evening import make_evening
from tests.browser.phone import Phone
from tests.browser.server import Server

# A busy machine must not fail a test: what should come is waited for, however slow it is.
expect.set_options(timeout=30_000)


@pytest.fixture(scope="session")
def season(tmp_path_factory):
    """A database folder with five weeks of lessons up to today, and what was made."""
    folder = tmp_path_factory.mktemp("season")
    app = create_app({"DATA": str(folder), "ARGON2": (1, 8, 1)})
    with app.app_context():
        made = make(date.today(), weeks=5)
    return folder, made


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
    one = Phone(chromium, tmp_path / "profile", server.url)
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
