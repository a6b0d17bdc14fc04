"""Fixtures: a served club with a short season, and a phone."""

import shutil
from datetime import date

import pytest
from playwright.sync_api import sync_playwright

from cueladder.app import create_app
from seed_demo.make import make
from tests.browser.phone import Phone
from tests.browser.server import Server


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


@pytest.fixture(scope="session")
def chromium():
    with sync_playwright() as playwright:
        yield playwright


@pytest.fixture
def phone(chromium, tmp_path, server):
    one = Phone(chromium, tmp_path / "profile", server.url)
    yield one
    one.close()
