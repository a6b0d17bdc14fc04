"""A coach's evening on a bench phone: sign in, fetch everything, start lessons."""

from __future__ import annotations

from urllib.parse import urljoin

from playwright.sync_api import Page

from seed_demo.club import PASSPHRASE
from tests.browser.database import read
from tests.browser.strip import open_lesson, sign_in


def fetch_all(page: Page, coach: str) -> int:
    """Sign in and wait until the phone holds all events; returns how many."""
    sign_in(page, coach, PASSPHRASE)
    last, same = -1, 0
    while same < 4:
        page.wait_for_timeout(500)
        [held] = read(page.evaluate, ("events", "count"))
        same = same + 1 if held == last else 0
        last = held
    return last


def start_lesson(page: Page, number: int) -> str:
    """Start a lesson with the given fencer of the list on its planned drill."""
    page.goto(urljoin(page.url, "/"))
    open_lesson(page, None, number)
    return page.url
