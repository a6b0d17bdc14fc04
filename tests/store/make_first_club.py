"""Made the club of first_club.sql, by the program as it was before chart version 2.

In a copy of commit 690048d: ``python make_first_club.py out.sql``. Not a test module, and of no use
with the program of today.
"""

from __future__ import annotations

import sqlite3
import sys
import tempfile
from pathlib import Path

from cueladder.app import create_app
from cueladder.store import migrate
from cueladder.store.db import db
from tests.conftest import CHEAP
from tests.store.club import Club

KEPT = ("club", "coach", "fencer", "chart", "drill", "drill_version", "lesson", "event")
KEPT += ("lesson_drill", "standing")


def teach(club: Club) -> None:
    """Some lessons of every kind: climbs, re-checks held and failed, rests, rungs by hand."""
    phone = club.phone()
    calm, chart = club.add_drill("desensitization")
    mixed, both = club.add_drill("discrimination")
    on_calm, on_both = {"drill": calm, "chart": chart}, {"drill": mixed, "chart": both}
    push = club.browser.push
    push(phone.open(day="2026-03-02"), *phone.cues(33))
    push(phone.open(day="2026-03-09"), *phone.cues(5), *phone.cues(17))
    push(phone.open(day="2026-03-16"), *phone.cues(2), phone.cue("late"), *phone.cues(9))
    push(
        phone.open(day="2026-03-09"),
        *phone.cues(16, **on_calm),
        phone.event("drill_rested", drill=calm),
    )
    push(phone.open(day="2026-03-16"), *phone.cues(4, **on_calm), phone.cue(tense=True, **on_calm))
    push(phone.open(day="2026-03-02"))
    for _ in range(16):
        push(phone.cue(**on_both), phone.cue(given="decoy", **on_both))
    push(phone.set_rung(4, **on_both), *phone.cues(3, **on_both))
    club.fencer = club.add_fencer("Jona")
    push(phone.open(day="2026-03-02"), phone.set_rung(3), *phone.cues(16), phone.void(phone.cue()))
    club.fencer = club.add_fencer("Veit")
    push(phone.open(day="2026-03-02"), phone.event("drill_rested", drill=club.drill))
    club.fencer = club.add_fencer("Anouk")
    push(phone.open(day="2026-03-02"), *phone.cues(76))


def main() -> None:
    """Write the club as SQL, without the sessions and devices of its test browsers."""
    with tempfile.TemporaryDirectory() as folder:
        app = create_app({"DATA": Path(folder), "DATABASE_URL": None, **CHEAP})
        with app.app_context():
            migrate.up()
            teach(Club(app))
            path = db.engine.url.database
            db.session.remove()
            db.engine.dispose()
        with sqlite3.connect(path) as connection:
            lines = [line.replace("\n", " ") for line in connection.iterdump()]
    wanted = tuple(f'INSERT INTO "{name}"' for name in KEPT)
    rows = [line for line in lines if line.startswith(wanted)]
    Path(sys.argv[1]).write_text("\n".join(rows) + "\n")


if __name__ == "__main__":
    main()
