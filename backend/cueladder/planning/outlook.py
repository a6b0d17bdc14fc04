"""The expected lesson on one drill: its re-check and the counts that follow."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property, lru_cache

from cueladder.rules import Mark, Walk, enter, rest, step
from cueladder.rules.entry import finished
from cueladder.rules.mark import Given, Outcome

from .count import Forecast, check_forecast, forecast
from .pace import pace
from .skill import skills
from .standing import Standing

# Where a count starts: its place, the states of its counters, and the cues it has had.
Spot = tuple[int, tuple[int, ...], int]


@dataclass(frozen=True)
class Check:
    """The expected course of a re-check.

    Attributes:
        cues: expected cues until it has held or failed.
        held: chance that it holds, at every rung on the way up after a long break.
        ends: where training goes on, as (chance, spot); no spot where the top held.
    """

    cues: float
    held: float
    ends: tuple[tuple[float, Spot | None], ...]


@dataclass(frozen=True)
class Outlook:
    """One drill on the day of the lesson.

    Attributes:
        standing: where the fencer is on it.
        day: ISO day of the lesson.
        seconds: the fencer's seconds a cue in this drill.
    """

    standing: Standing
    day: str
    seconds: float
    _counts: dict[tuple[Spot, int], Forecast] = field(default_factory=dict, compare=False)

    @classmethod
    def of(cls, standing: Standing, day: str, usual: float) -> Outlook:
        """The outlook of a standing, for a fencer with a usual pace in seconds a cue."""
        return cls(standing, day, pace(standing.seconds, usual))

    @cached_property
    def walk(self) -> Walk:
        """The walk once the drill is opened in the lesson."""
        return enter(self.standing.chart, self.standing.walk, self.day)

    @cached_property
    def sure(self) -> int:
        """The place to end on with a sure success."""
        return rest(self.standing.chart, self.walk).place

    @cached_property
    def check(self) -> Check | None:
        """The re-check that comes first, if one does.

        The rules themselves say what comes of holding and of failing; in a mixed drill it is an
        attack that fails. Skills on different places count as independent.
        """
        chart, walk = self.standing.chart, self.walk
        if walk.check is None:
            return None
        given, slip = self._slip()
        reached, cues = 1.0, 0.0
        ends: list[tuple[float, Spot | None]] = []
        while walk.check is not None:
            stage = _check_forecast(chart.check, skills(self.standing, walk.place), walk.check[1])
            cues += reached * stage.cues
            ends.append((reached * stage.back, _spot(step(chart, walk, given, slip))))
            reached *= stage.climb
            here = walk.place
            while walk.check is not None and walk.place == here:
                walk = step(chart, walk, given, Mark.CORRECT)
        ends.append((reached, _spot(walk)))
        return Check(cues, reached, tuple(ends))

    @property
    def decided(self) -> bool:
        """Whether no cue of training can decide anything: the top is met, its count finished."""
        return finished(self.standing.chart, self.walk.counters)

    def _slip(self) -> tuple[Given, Mark]:
        """A mark that fails a re-check."""
        slips = (Outcome.MISS, Outcome.STARTLE)
        return next(
            (given, mark)
            for given, cells in self.standing.chart.meaning.items()
            for mark, cell in cells.items()
            if cell.outcome in slips
        )

    def count(self, spot: Spot, most: int | None = None) -> Forecast:
        """One count from a spot, cut off at the chart's cap or after ``most`` cues."""
        place, states, used = spot
        cap = max(1, self.standing.chart.cap - used)
        cap = cap if most is None else min(cap, most)
        key = (spot, cap)
        if key not in self._counts:
            self._counts[key] = _forecast(
                self.standing.chart.table, skills(self.standing, place), states, cap
            )
        return self._counts[key]

    def spots(self) -> list[tuple[float, Spot]]:
        """Where training starts, as (chance, spot), after the re-check if there is one."""
        if self.check is None:
            return [(1.0, (self.walk.place, self.walk.counters, self.walk.cues))]
        return [(chance, spot) for chance, spot in self.check.ends if spot is not None]

    def climb(self, most: int | None = None) -> float:
        """Chance that the first count of the training ends in a climb."""
        return sum(chance * self.count(spot, most).climb for chance, spot in self.spots())

    def cues(self, decisions: int) -> float:
        """Expected cues of the training until so many decisions are made."""
        return sum(chance * self._cues(spot, decisions) for chance, spot in self.spots())

    def _cues(self, spot: Spot, decisions: int) -> float:
        """Cues from a spot; a climb from the top and the cap leave the drill for the day."""
        ahead = self.count(spot)
        if decisions == 1:
            return ahead.cues
        chart = self.standing.chart
        here = chart.places[spot[0]]
        # at the bottom a step back only begins the count anew
        down = (spot[0], 0) if here.lower is None else (here.lower, chart.back)
        more = ahead.back * self._cues(self._at(*down), decisions - 1)
        if here.climb is not None:
            more += ahead.climb * self._cues(self._at(here.climb, 0), decisions - 1)
        return ahead.cues + more

    def _at(self, place: int, state: int) -> Spot:
        return (place, (state,) * len(self.standing.chart.counters), 0)


# A coach's phone asks for the same plans again and again in an evening.
_forecast = lru_cache(maxsize=4096)(forecast)
_check_forecast = lru_cache(maxsize=1024)(check_forecast)


def _spot(walk: Walk) -> Spot | None:
    return (walk.place, walk.counters, walk.cues) if walk.phase == "train" else None
