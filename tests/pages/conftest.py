"""The progress page of a fencer with a season behind them, on a day that stands still."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from html import unescape
from typing import Any

import pytest
from freezegun import freeze_time

from cueladder.store.access.links import create_link
from tests.pages import season
from tests.store.club import Club

# At noon in UTC it is the same day in most of the world's halls.
TODAY = date(2026, 11, 25)


NOON = datetime(TODAY.year, TODAY.month, TODAY.day, 12)


@pytest.fixture(scope="module", autouse=True)
def frozen():
    """Freezing looks through every module there is, so it is done once for all tests of a file."""
    with freeze_time(NOON) as stopped:
        yield stopped


@pytest.fixture(autouse=True)
def clock(frozen):
    frozen.move_to(NOON)
    return frozen


@dataclass
class Opened:
    """A club, a link to its fencer's page, and a browser without any sign-in."""

    club: Club
    token: str
    drills: list[tuple[str, str]]
    lessons: list[str]

    def get(self, path: str = "", token: str | None = None) -> Any:
        return self.club.app.test_client().get(f"/p/{token or self.token}{path}")

    def text(self) -> str:
        answer = self.get()
        assert answer.status_code == 200
        return unescape(answer.text)


@pytest.fixture
def opened(club):
    """Makes lessons and opens the page: ``opened(lessons=6, drills=3, ...)``."""

    def make(lessons: int = 6, drills: int = 3, last: date = TODAY, **how: Any) -> Opened:
        some = season.drills_for(club, season.SLUGS[:drills])
        ids = season.lessons(club, some, season.weekly(lessons, last), **how)
        token = create_link(club.id, club.fencer, club.coach).token
        return Opened(club, token, some, ids)

    return make
