"""Fixtures of the engine stories: one club, and in each engine one phone signed in at it."""

import shutil
from dataclasses import dataclass
from pathlib import Path

import pytest

import cueladder
from seed_demo.club import COACHES
from tests.browser.engines.chromium import Chromium
from tests.browser.engines.coach import sign_in
from tests.browser.engines.engine import Engine
from tests.browser.engines.engines import ENGINES
from tests.browser.engines.webkit import end_screen
from tests.browser.server import Server


@dataclass
class Salle:
    """A club's server, and a phone that is signed in at it.

    Attributes:
        engine: the browser; it is shared by the stories that run in it.
        static: the folder the front end is served from; another build may be put there.
    """

    engine: Engine
    server: Server
    static: Path
    coach: str = COACHES[0]["name"]
    other: str = COACHES[1]["name"]

    @property
    def url(self) -> str:
        """The phone's address of the server."""
        return self.server.url

    @property
    def second(self) -> str:
        """The same server by another name: to a browser a phone that knows nothing."""
        return f"http://127.0.0.1:{self.server.port}"


@pytest.fixture(scope="session", autouse=True)
def screen():
    """Whatever screen was begun ends with the run."""
    yield
    end_screen()


@pytest.fixture(scope="module", params=ENGINES)
def signed_in(request, chromium, season, tmp_path_factory):
    """A club and a phone signed in at it, for all stories of one engine."""
    kind = ENGINES[request.param]
    if lacks := kind.missing():
        pytest.skip(lacks)
    Chromium.playwright = chromium
    home = tmp_path_factory.mktemp(request.param)
    shutil.copytree(season[0], home / "data")
    shutil.copytree(Path(cueladder.__file__).parent / "static", home / "static")
    server = Server(home / "data", home / "static")
    server.start()
    here = phone_at(kind, home, server)
    yield here
    here.engine.close()
    server.stop()


def phone_at(kind: type[Engine], home: Path, server: Server) -> Salle:
    """A phone signed in at a server, at work."""
    engine = kind(home / "profile")
    engine.start()
    here = Salle(engine, server, home / "static")
    sign_in(engine, here.url, here.coach)
    # browsers write a cookie to the disk in their own time, and all at their end: without this a
    # kill right after would sign the phone out
    engine.close()
    engine.start()
    return here


@pytest.fixture
def salle(signed_in):
    """The phone on Today, its server answering."""
    signed_in.server.start_again()
    signed_in.engine.go(signed_in.url)
    signed_in.engine.shows("h1", "Today")
    return signed_in
