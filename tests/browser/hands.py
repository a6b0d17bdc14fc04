"""Hands that never touch the screen, and eyes on what the phone did. Not a test module."""

from __future__ import annotations

import json
import sqlite3
from typing import Any

from playwright.sync_api import Page, expect

from tests.browser.database import read
from tests.browser.evening import Salle
from tests.browser.phone import page_until
from tests.browser.strip import standing_marks

# every touch or move of a pointer, in any page of the tab
NO_POINTER = """
for (const type of ["pointerdown", "mousedown", "touchstart", "wheel"]) {
  addEventListener(type, () => {
    sessionStorage.pointed = Number(sessionStorage.pointed ?? 0) + 1;
  }, true);
}
"""


def pointed(page: Page) -> int:
    """How often a pointer was used since `NO_POINTER` was put in."""
    return int(page.evaluate("Number(sessionStorage.pointed ?? 0)"))


def stored_marks(salle: Salle, lesson: str) -> list[dict[str, Any]]:
    """The marks of a lesson that stand in the server's own database, oldest first."""
    database = sqlite3.connect(f"file:{salle.server.folder / 'cueladder.sqlite'}?mode=ro", uri=True)
    rows = database.execute(
        "SELECT id, type, drill_id, payload FROM event WHERE lesson_id = ? ORDER BY n", (lesson,)
    ).fetchall()
    database.close()
    events = [
        {"id": i, "type": kind, "drill": drill, **json.loads(data)} for i, kind, drill, data in rows
    ]
    voided = {one["mark"] for one in events if one["type"] == "mark_voided"}
    return [one for one in events if one["type"] == "cue_marked" and one["id"] not in voided]


def marked(page: Page, number: int) -> None:
    """Wait until so many marks are kept by the phone, and the strip says which is the last."""
    page_until(page, lambda: len(standing_marks(page)) == number, f"mark number {number}")
    last = page.get_by_test_id("last-mark")
    expect(last).to_have_attribute("data-last", standing_marks(page)[-1]["id"])


def moved(page: Page, move: str) -> None:
    """Wait until the strip shows a move."""
    expect(page.get_by_test_id("cue")).to_have_attribute("data-move", move)


def told_today(page: Page, told: str, voided: str) -> list[dict[str, Any]]:
    """Today's events on the phone that tell of a bout or a set, or take one back; oldest first."""
    [kept] = read(page.evaluate, ("events", "getAll"))
    today = page.evaluate("new Date().toLocaleDateString('sv')")
    events = [
        each["event"]
        for each in kept
        # the coach's of the season came with the club
        if each["event"]["type"] == voided
        or (each["event"]["type"] == told and each["event"]["day"] == today)
    ]
    return sorted(events, key=lambda event: event["n"])
