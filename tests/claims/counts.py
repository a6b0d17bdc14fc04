"""Truths for what is said of a count to come: how many cues it takes."""

from __future__ import annotations

from functools import cache

from cueladder.evidence.claims.rule import AHEAD_ASKED
from cueladder.planning.skill import RIGHT, WORTH, Skill
from cueladder.planning.spread import Spread, spread

from .line import Rng, Season, Try
from .one_rung import MISS, PASS, TABLE

CAP = 60


@cache
def _spread(right: int, seen: int) -> Spread:
    return spread(
        TABLE,
        [Skill(RIGHT * WORTH + right, (1 - RIGHT) * WORTH + seen - right, 0.0)],
        CAP,
        AHEAD_ASKED,
    )


def count_season(p: float) -> Season:
    """So many cues seen at the rung; does the next count end within the range?"""

    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        found = _spread(int(rng.binomial(at[-1], p)), at[-1])
        state, n = 0, 0
        while n < CAP:
            n += 1
            state, move = TABLE.rows[state][PASS if rng.random() < p else MISS]
            if move.value != "stay":
                break
        return [found.cues_low <= n <= found.cues_high]

    return season


TRIES = [
    Try("rule.ahead", f"right {p:.2f}, so many cues seen", "holds", count_season(p),
        cues=(10, 30, 80), seasons=600)
    for p in (0.8, 0.9, 0.97)
]  # fmt: skip
