"""What a lesson holds for one drill: its re-check, and the counts that follow."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from cueladder.rules import Walk, enter, rest

from .count import Forecast, check_forecast, forecast
from .pace import pace
from .skill import skills
from .standing import Standing

# Where a count starts: its place, the states of its counters, and the cues it has had.
Spot = tuple[int, tuple[int, ...], int]


@dataclass(frozen=True)
class Check:
    """What to expect of a re-check.

    Attributes:
        cues: expected cues until it has held or failed.
        held: chance that it holds, at every rung on the way up after a long break.
        ends: where training goes on, as (chance, place); no place where the top held.
    """

    cues: float
    held: float
    ends: tuple[tuple[float, int | None], ...]


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
        """The place of a sure success."""
        return rest(self.standing.chart, self.walk).place

    @cached_property
    def check(self) -> Check | None:
        """The re-check that comes first, if one does.

        Failing leads one rung lower, whatever the remedy; skills on different places count as
        independent.
        """
        chart, walk = self.standing.chart, self.walk
        if walk.check is None or walk.met is None:
            return None
        descent = chart.places[walk.met].descent
        k, state = walk.check
        reached, cues = 1.0, 0.0
        ends: list[tuple[float, int | None]] = []
        for place in descent[k::-1]:
            stage = check_forecast(chart.check, skills(self.standing, place), state)
            cues += reached * stage.cues
            lower = chart.places[place].lower
            ends.append((reached * stage.back, place if lower is None else lower))
            reached, state = reached * stage.climb, 0
        ends.append((reached, chart.places[walk.met].climb))
        return Check(cues, reached, tuple(ends))

    def count(self, spot: Spot, most: int | None = None) -> Forecast:
        """One count from a spot, cut off at the chart's cap or after ``most`` cues."""
        place, states, used = spot
        cap = max(1, self.standing.chart.cap - used)
        cap = cap if most is None else min(cap, most)
        key = (spot, cap)
        if key not in self._counts:
            self._counts[key] = forecast(
                self.standing.chart.table, skills(self.standing, place), states, cap
            )
        return self._counts[key]

    def spots(self) -> list[tuple[float, Spot]]:
        """Where training starts, as (chance, spot), after the re-check if there is one."""
        if self.check is None:
            return [(1.0, (self.walk.place, self.walk.counters, self.walk.cues))]
        return [(chance, self._fresh(p)) for chance, p in self.check.ends if p is not None]

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
        here = self.standing.chart.places[spot[0]]
        lower = spot[0] if here.lower is None else here.lower
        more = ahead.back * self._cues(self._fresh(lower), decisions - 1)
        if here.climb is not None:
            more += ahead.climb * self._cues(self._fresh(here.climb), decisions - 1)
        return ahead.cues + more

    def _fresh(self, place: int) -> Spot:
        return (place, (0,) * len(self.standing.chart.counters), 0)
