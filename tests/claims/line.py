"""One line of the table: a claim, a truth, and how often it came out for each number of cues."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from cueladder.evidence.claims import REGISTER

# Seasons in which a range was shown, from which its line is judged.
FEWEST = 20
CUES = (5, 10, 20, 40, 80, 120, 200)
LOOKS = 20

Rng = np.random.Generator
# A season: its truth drawn, looked at after so many cues; what came of each look, in order.
Season = Callable[[Rng, list[int]], list[bool | None]]


@dataclass(frozen=True)
class Try:
    """A truth on which a claim is tried.

    Attributes:
        claim: name in the register.
        truth: in words.
        side: ``false`` and ``true``: said in how many seasons? ``holds``: in how many did it hold
            at every look at which it was said?
        season: what comes of each look: False and True for said or not said, or for held or not;
            None where it is not said.
        cues: numbers of cues in a season.
        seasons: how many are simulated.
        told_only: shown in the table, and judged by nothing.
        by: what ``cues`` counts, where it is something else.
        at_most: of a range that is to hold no more often than that either, being too wide then,
            and as much less often than it says.
    """

    claim: str
    truth: str
    side: str
    season: Season
    cues: tuple[int, ...] = CUES
    seasons: int = 600
    told_only: bool = False
    by: str = "cues"
    at_most: float | None = None


@dataclass(frozen=True)
class Line:
    """What came out.

    Attributes:
        shares: for each number of cues the share of seasons, or None where it was never said.
        counts: seasons behind each share.
    """

    asked: Try
    shares: tuple[float | None, ...]
    counts: tuple[int, ...]

    @property
    def limit(self) -> str:
        """What the claim promises of this line, in short."""
        claim = REGISTER[self.asked.claim]
        if self.asked.told_only:
            return "told only"
        if self.asked.side == "true":
            assert claim.power is not None
            return f"≥ {claim.power[1]:.0%} at {claim.power[0]}"
        assert claim.promise is not None
        if self.asked.at_most is not None:
            return f"{2 * claim.promise - self.asked.at_most:.0%}–{self.asked.at_most:.0%}"
        return f"≤ {claim.promise:.0%}" if self.asked.side == "false" else f"≥ {claim.promise:.0%}"

    def kept(self) -> bool:
        """Whether the promise is kept, as far as so many seasons can tell (two standard errors).

        A range is allowed two points less than it says, or as much less as its line allows more.
        """
        claim = REGISTER[self.asked.claim]
        if self.asked.told_only:
            return True
        for cues, share, count in zip(self.asked.cues, self.shares, self.counts, strict=True):
            if share is None:
                continue
            slack = 2.0 * float(np.sqrt(max(share * (1 - share), 0.01) / count))
            if self.asked.side == "true":
                assert claim.power is not None
                if cues >= claim.power[0] and share < claim.power[1] - slack:
                    return False
            elif self.asked.side == "false":
                if share > claim.promise + slack:
                    return False
            elif count >= FEWEST:
                most = self.asked.at_most
                least = claim.promise - 0.02 if most is None else 2 * claim.promise - most
                if share < least - slack or (most is not None and share > most + slack):
                    return False
        return True


def looks_at(cues: int) -> list[int]:
    """After how many cues a season is looked at."""
    return sorted({max(1, round(cues * (k + 1) / LOOKS)) for k in range(LOOKS)})


def run(asked: Try, seed: int, part: float = 1.0) -> Line:
    """Simulate the seasons of one line, or a part of them."""
    shares: list[float | None] = []
    counts: list[int] = []
    for cues in asked.cues:
        # every line has its own luck, the same in each run
        rng = np.random.default_rng([seed, cues, *asked.claim.encode(), *asked.truth.encode()])
        at = looks_at(cues)
        came = [asked.season(rng, at) for _ in range(max(10, int(part * asked.seasons)))]
        if asked.side == "holds":
            kept = [[one for one in season if one is not None] for season in came]
            shown = [all(season) for season in kept if season]
            shares.append(float(np.mean(shown)) if shown else None)
            counts.append(len(shown))
        else:
            shares.append(float(np.mean([any(season) for season in came])))
            counts.append(len(came))
    return Line(asked, tuple(shares), tuple(counts))
