"""Fencers of steady skill, played through the rules. Not a test module."""

from __future__ import annotations

import random
from dataclasses import dataclass, field, replace

from cueladder.planning import Plan, Record, Standing
from cueladder.rules import Chart, Given, Mark, Move, Walk, enter, fresh, rest, step
from cueladder.rules.state import Rung, with_rungs

KINDS = {Given.ATTACK: Mark.LATE, Given.DECOY: Mark.DECOY}
OUTCOME = {Mark.CORRECT: 0, Mark.TENSE: 1}


def decided(walk: Walk) -> bool:
    """Whether the last cue decided a count."""
    moved = walk.move in (Move.CLIMB, Move.BACK) or walk.why.startswith("bottom")
    return moved or walk.phase == "close"


def left(
    chart: Chart,
    day: str,
    met: int | None = None,
    secure: int | None = None,
    place: int | None = None,
) -> Walk:
    """A walk last worked on a day, training above the rung it met or at another place."""
    walk = enter(chart, fresh(chart), day)
    if met is None:
        return replace(walk, place=place or 0, work=place or 0)
    held = -1 if secure is None else chart.places[secure].height
    below = reversed(chart.places[met].descent)
    rungs = tuple(Rung(at, int(chart.places[at].height <= held), day) for at in below)
    above = chart.places[met].climb
    work = place if place is not None else met if above is None else above
    top = above is None and work == met
    counters = ((chart.table.ready if top else 0),) * len(chart.counters)
    return with_rungs(replace(walk, place=work, work=work, counters=counters), rungs)


@dataclass
class Fencer:
    """Right with a steady chance on each drill, at a steady mean pace; keeps own books."""

    rng: random.Random
    right: dict[str, float]
    seconds: float
    hold: float = 0.0
    record: dict[str, dict[int, list[Record]]] = field(default_factory=dict)
    paces: dict[str, list[float]] = field(default_factory=dict)

    def answer(self, drill: str, chart: Chart, walk: Walk) -> tuple[Walk, float]:
        """One cue: the walk after it and the seconds it took."""
        given = self.rng.choice(list(chart.meaning))
        mark = KINDS[given]
        if self.rng.random() < self.right[drill]:
            mark = Mark.CORRECT
        elif Mark.TENSE in chart.meaning[given] and self.rng.random() < self.hold:
            mark = Mark.TENSE
        took = self.rng.gammavariate(4.0, self.seconds / 4.0)
        rows = self.record.setdefault(drill, {}).setdefault(
            walk.place, [Record() for _ in chart.counters]
        )
        counter = chart.meaning[given][mark].counter
        counts = list(rows[counter])
        counts[OUTCOME.get(mark, 2)] += 1
        rows[counter] = Record(*counts)
        self.paces.setdefault(drill, []).append(took)
        return step(chart, walk, given, mark), took

    def standing(self, drill: str, chart: Chart, walk: Walk) -> Standing:
        """What the books say."""
        record = {place: tuple(rows) for place, rows in self.record.get(drill, {}).items()}
        return Standing(drill, drill, chart, walk, record, tuple(self.paces.get(drill, ())))


def past(fencer: Fencer, charts: dict[str, Chart], days: list[str], cues: int) -> list[Standing]:
    """Standings after lessons on these days, so many cues a drill in each."""
    walks = {drill: fresh(chart) for drill, chart in charts.items()}
    for day in days:
        for drill, chart in charts.items():
            walk = enter(chart, walks[drill], day)
            for _ in range(cues):
                if walk.phase == "close":
                    break
                walk, _ = fencer.answer(drill, chart, walk)
            walks[drill] = walk
    return [fencer.standing(drill, chart, walks[drill]) for drill, chart in charts.items()]


def play(
    plan: Plan, standings: list[Standing], day: str, fencer: Fencer
) -> list[tuple[float, bool]]:
    """Play a plan: for each block the minutes it took and whether its first decision was up."""
    copy = replace(fencer, record={}, paces={})
    known = {s.drill: s for s in standings}
    walks = {s.drill: enter(s.chart, s.walk, day) for s in standings}
    played = []
    for block in plan.blocks:
        chart, walk = known[block.drill].chart, walks[block.drill]
        seconds, decisions, first, cues = 0.0, 0, None, 0
        if block.role == "sure success":
            walk = rest(chart, walk)
        while True:
            if block.role == "re-check":
                if walk.phase != "check":
                    first = walk.why in ("held", "top")
                    break
            elif block.role == "sure success":
                if cues == chart.closing:
                    break
            elif (
                decisions == block.decisions
                or walk.phase == "close"
                or (block.cut and cues == block.cues)
            ):
                break
            walk, took = copy.answer(block.drill, chart, walk)
            seconds, cues = seconds + took, cues + 1
            if block.role in ("main", "second") and decided(walk):
                decisions += 1
                if first is None:
                    first = walk.move is Move.CLIMB or walk.why == "top"
        walks[block.drill] = walk
        played.append((seconds / 60, bool(first)))
    return played
