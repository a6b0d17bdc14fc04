"""Invented clubs whose fencers learn by known figures, taught by the rules. Not a test module."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from cueladder.evidence.learning.cells import Cells, Gathering
from cueladder.evidence.learning.course import Habits, Learners, Term, teach
from cueladder.evidence.learning.law import Figures
from cueladder.rules import Chart, Kind, compile_chart
from cueladder.rules.rule import default_of
from seed_demo.study.drill import drill

HABITS = Habits()
# Days to the next lesson, and how often: missed lessons, and two holidays a year.
GAPS, ODDS = (7, 14, 21, 35, 63), (0.78, 0.12, 0.04, 0.04, 0.02)


@dataclass(frozen=True)
class Size:
    """A club's size: fencers, drills of the kind each works on, lessons of each, cues a lesson."""

    fencers: int = 30
    drills: int = 2
    lessons: int = 25
    cues: int = 20
    kinds: int = 6  # different drills there are


def chart_of(kind: Kind = Kind.SENSITIZATION) -> Chart:
    return compile_chart(drill(kind, default_of(kind), rungs=7))


def truth(rng: np.random.Generator, **fixed: float) -> Figures:
    """A club's figures, drawn from wide ranges that are not those the fit believes beforehand."""
    drawn = {
        "start": rng.normal(1.2, 0.4),
        "step": rng.uniform(0.5, 1.1),
        "gain": np.exp(rng.uniform(np.log(0.8), np.log(2.4))),
        "fresh": -rng.uniform(0.0, 0.8),
        "tired": rng.uniform(0.02, 0.2),
        "decoy": 0.0,
        "loss": rng.uniform(0.005, 0.12),
        "lapse": rng.uniform(0.005, 0.03),
        "people": rng.uniform(0.2, 0.7),
        "pairs": rng.uniform(0.2, 0.7),
        "paces": 0.0,
        "drills": rng.uniform(0.1, 0.5),
    }
    drawn["paces"] = drawn["gain"] * rng.uniform(0.2, 0.5)
    return Figures(**{k: np.array([v]) for k, v in {**drawn, **fixed}.items()})


def planted(f: Figures, size: Size, rng: np.random.Generator, chart: Chart | None = None) -> Cells:
    """The cells of a club of such fencers, as the adaptive rule led them."""
    chart = chart or chart_of()
    n = size.fencers * size.drills
    fencer = np.repeat(np.arange(size.fencers), size.drills)
    which = np.concatenate(
        [rng.permutation(size.kinds)[: size.drills] for _ in range(size.fencers)]
    )
    one = {name: float(value[0]) for name, value in f.__dict__.items()}
    people = one["people"] * rng.standard_normal(size.fencers)
    # gains are spread by a factor, as people's paces are, not as the law has it
    factor = np.sqrt(np.log1p((one["paces"] / one["gain"]) ** 2))
    pace = one["gain"] * np.exp(factor * rng.standard_normal(size.fencers) - factor**2 / 2)
    drills = one["drills"] * rng.standard_normal(size.kinds)
    same = {k: np.full(n, one[k]) for k in ("step", "fresh", "tired", "decoy", "loss", "lapse")}
    start = one["start"] + people[fencer] + drills[which] + one["pairs"] * rng.standard_normal(n)
    who = Learners(start=start, gain=pace[fencer], practice=np.zeros(n), **same)
    gaps = rng.choice(GAPS, (size.lessons, n), p=ODDS)
    gaps[0] = 0
    term = Term(gaps, int(rng.integers(2**31)), size.cues)
    out = teach(chart, who, term, HABITS, keep=True)
    return gathered(fencer, which, gaps, out.marks)


def gathered(fencer, which, gaps, marks) -> Cells:
    days = np.cumsum(gaps, axis=0)
    lessons: dict[int, list] = {}
    for number, _, rung, given, right, tense in marks:
        lessons.setdefault(number, []).append((rung, given, right, tense))
    made = Gathering()
    for i in range(len(fencer)):
        for number, cues in lessons.items():
            made.add(
                int(fencer[i]), str(which[i]), int(days[number, i]),
                [(int(r[i]), bool(g[i]), bool(ok[i]), bool(t[i])) for r, g, ok, t in cues
                 if r[i] >= 0],
            )  # fmt: skip
    return made.cells()
