"""A club with much behind it: 60 fencers and 20,000 trials."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path
from unittest.mock import patch

from sqlalchemy import func, select

from cueladder.app import create_app
from cueladder.store.db.engine import db
from cueladder.store.db.models import Event
from seed_demo import make as demo
from seed_demo.club import FENCERS


def make_history(folder: Path, fencers: int = 60, weeks: int = 12) -> tuple[str, int]:
    """Fill an empty database folder; returns the coach to sign in as and the number of trials."""
    people = [
        replace(FENCERS[i % len(FENCERS)], nickname=f"{FENCERS[i % len(FENCERS)].nickname} {i}")
        for i in range(fencers)
    ]
    app = create_app({"DATA": str(folder)})
    with app.app_context(), patch.object(demo, "FENCERS", tuple(people)):
        made = demo.make(date.today(), weeks)
        trials = db.session.scalar(
            select(func.count()).select_from(Event).where(Event.type == "cue_marked")
        )
        db.session.remove()
        db.engine.dispose()
    return made.coach, trials or 0
