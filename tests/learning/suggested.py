"""How often a suggestion is made where it is wrong, and where it is right; and how settings serve.

Not a test module.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import accumulate

import numpy as np

from cueladder.evidence.learning import breaks
from cueladder.evidence.learning.compare import DRAWS, EACH, Served, served, suggested, term_of
from cueladder.evidence.learning.course import Habits, Term, learners, teach
from cueladder.evidence.learning.fit import fit
from cueladder.evidence.learning.law import Figures
from cueladder.evidence.learning.whole import learn
from cueladder.rules import Chart, Kind, Tally, compile_chart
from cueladder.rules.rule import settings_of
from cueladder.rules.settings import REENTRY
from seed_demo.study.drill import drill

from .planted import Size, planted

READ = Kind.SENSITIZATION
SLOW = Tally(60, 30, 4, 0)  # sixty clean answers


def charts(own: Tally | None = None) -> dict[str, Chart]:
    rules = dict(settings_of(READ)) | ({"own": own} if own else {})
    return {name: compile_chart(drill(READ, rule, rungs=7)) for name, rule in rules.items()}


@dataclass(frozen=True)
class Looked:
    """A club, and what the product says of it."""

    figures: Figures
    told: dict


def look(figures: Figures, size: Size, seed: int, own: Tally | None = None) -> Looked:
    """A planted club, taught under ``usual`` or its own rule, and looked at."""
    rng = np.random.default_rng(seed)
    under = charts(own)
    now = "own" if own else "usual"
    cells = planted(figures, size, rng, under[now])
    told = learn(READ, cells, [[0, 0]] * 4, 0.3, under, now, REENTRY, seed)
    return Looked(figures, told)


def true_rungs(figures: Figures, size: Size, seed: int) -> list[float]:
    """Rungs that each usual break truly costs the middle fencer of such a club."""
    cells = planted(figures, size, np.random.default_rng(seed))
    found = fit(cells, np.random.default_rng(seed), points=4)
    one = replace(found, figures=figures)
    return [row.rungs[0] for row in breaks.lost(one)]


def wrong_rows(rungs: list[float], new: list[dict] | None, margin: float = 0.0) -> bool:
    """Whether a suggested table starts somewhere lower or higher than it truly should.

    Args:
        rungs: from `true_rungs`.
        new: the suggested rows.
        margin: of a rung within which either number is right.
    """
    if new is None:
        return False
    now = [int(back) for _, back, _ in REENTRY[:-1]]
    low = list(accumulate((int(max(0, r - margin) + 0.5) for r in rungs), max))
    high = list(accumulate((int(r + margin + 0.5) for r in rungs), max))
    for row, was, least, most in zip(new, now, low, high, strict=False):
        # a row moves only part of the way: what counts is that it moves towards the truth
        if row["back"] > was and row["back"] > max(most, 0):
            return True
        if row["back"] < was and row["back"] < least:
            return True
    return False


def truly_better(club: Looked, size: Size, seed: int) -> bool:
    """Whether what is suggested is better than ``usual`` for many fencers of the true figures."""
    name = club.told["suggested"]
    cells = planted(club.figures, size, np.random.default_rng(seed), charts()["usual"])
    term = term_of(cells, seed)
    true = {
        each: truly_served(club.figures, each, term, seed, DRAWS * EACH) for each in ("usual", name)
    }
    exact = {
        each: Served((one.lessons[0],) * 3, (one.early[0],) * 3, (one.never[0],) * 3)
        for each, one in true.items()
    }
    return suggested(exact, "usual") == name


def truly_served(figures: Figures, name: str, term: Term, seed: int, each: int = 4000) -> Served:
    """What a setting comes to on many fencers of the true figures."""
    rng = np.random.default_rng(seed)
    who = learners(figures, each, rng, Habits())
    out = teach(charts()[name], who, replace(term, gaps=term.gaps[:, :each]), Habits())
    assert each % EACH == 0
    return served(out)
