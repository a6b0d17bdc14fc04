"""Find and keep what a club's own lessons teach."""

from __future__ import annotations

from collections import Counter
from datetime import timedelta
from typing import Any

from ...evidence.learning.whole import learn
from ...rules import Chart, Drill, Kind, compile_chart
from ...rules.breaks import Breaks
from ...rules.rule import settings_of
from ..db.engine import db, now, writing
from ..db.models import Club, DrillVersion, Learned
from ..drills.versions import drills_of
from ..log.charts import chart_of
from ..replay.learned import gathered

OWN = "own"
SEED = 1701
# A look that was asked for so long ago and has not come is not waited for any more.
PATIENCE = timedelta(minutes=15)


def work_out(club_id: int) -> list[dict[str, Any]]:
    """Read the club's whole log and find its figures, one entry a kind of drill.

    Reads only; takes some seconds for a season, and as many more as there are seasons.
    """
    drills = {version.drill_id: version for _, version in drills_of(club_id)}
    found = gathered(club_id, {drill: version.chart_id for drill, version in drills.items()})
    told = []
    for kind, one in found.items():
        if not one.drills:
            continue
        usual = Counter(one.drills).most_common(1)[0][0]
        charts, name, breaks = settings_now(kind, drills[usual])
        early = (one.early + 1) / (one.slips + 3)
        told.append(learn(kind, one.cells, one.checks, early, charts, name, breaks, SEED))
    return told


def settings_now(kind: Kind, version: DrillVersion) -> tuple[dict[str, Chart], str, Breaks]:
    """A drill under each of the three settings, which of them it has (or `OWN`), and its breaks."""
    document = Drill.from_json(version.document)
    three = settings_of(kind)
    charts = {
        name: compile_chart(Drill(**{**document.__dict__, "rule": rule}))
        for name, rule in three.items()
    }
    for name, rule in three.items():
        if rule.to_json() == document.rule.to_json():
            return charts, name, document.breaks
    return {OWN: chart_of(version.chart_id), **charts}, OWN, document.breaks


def keep(club_id: int, figures: list[dict[str, Any]]) -> None:
    """Keep the figures until the next look."""
    with writing() as session:
        if (row := session.get(Learned, club_id)) is None:
            session.add(row := Learned(club_id=club_id, asked_at=now()))
        row.figures, row.done_at, row.trouble = figures, now(), False


def ask(club_id: int) -> bool:
    """Note that a look is asked for; False where one is under way already."""
    with writing() as session:
        session.get_one(Club, club_id, with_for_update=True)
        row = session.get(Learned, club_id)
        if row is None:
            session.add(Learned(club_id=club_id, asked_at=now(), figures=[]))
            return True
        if running(row):
            return False
        row.asked_at, row.trouble = now(), False
        return True


def failed(club_id: int) -> None:
    """Note that the look that was asked for came to nothing."""
    with writing() as session:
        if (row := session.get(Learned, club_id)) is not None:
            row.trouble = True


def running(row: Learned) -> bool:
    """Whether a look is under way."""
    done = row.done_at is not None and row.done_at >= row.asked_at
    return not done and not row.trouble and now() - row.asked_at < PATIENCE


def learned_by(club_id: int) -> Learned | None:
    """The last look, if there was one."""
    return db.session.get(Learned, club_id)
