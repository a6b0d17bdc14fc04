"""What a season has beside its cues: settings of lessons, bouts watched, sets by partners.

Of a chance of its own, so that the lessons come out the same with and without it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import UTC, date, datetime, timedelta
from typing import Any, Protocol

import numpy as np

from cueladder.rules import Chart, Kind

from .chance import Course
from .ids import uuid7

Event = dict[str, Any]
SEED = 16
PLACES = ("Main hall", "School gym")
# Each fencer has so many bouts in a season, spread over it, each with so many chances at most.
BOUTS, REAL, FEINTS = 8, 5, 4
# Every so many lessons another coach gives the cues, it is in the other place, or after bouting.
OTHERS, ELSEWHERE, TIRED = 4, 3, 5
# In bouts less is answered than in lessons, and more towards the season's end (invented).
AT_FIRST, AT_LAST = 0.25, 0.6
# When in the season those with two coaches gave each other a set, and how their partners ticked.
PAIRED, TICKS = 0.7, ("1101111111", "1111-11110")


class Taught(Protocol):
    """What is needed of a pupil."""

    id: str
    coach: str
    second: str
    device: str
    evening: int
    drills: Sequence[tuple[str, Chart]]
    course: Course | None


class Beside:
    """Settings and bouts of some pupils over a season of so many weeks.

    Attributes:
        rng: the source of chance of all that is beside the lessons.
    """

    def __init__(self, pupils: Sequence[Taught], weeks: int) -> None:
        self._pupils, self._days = pupils, weeks * 7
        self.rng = np.random.default_rng(SEED)
        self._lessons = {pupil.id: 0 for pupil in pupils}

    def setting(self, pupil: Taught) -> Event:
        """The setting of a pupil's next lesson."""
        self._lessons[pupil.id] += 1
        n = self._lessons[pupil.id] + pupil.evening
        return {
            "giver": pupil.second if pupil.second and n % OTHERS == 0 else pupil.coach,
            "hand": "right",
            "where": PLACES[n % ELSEWHERE == 0],
            "state": "bouting" if n % TIRED == 0 else "fresh",
        }

    def bouts(self, day: date, since: int, counter: dict[str, int]) -> Iterator[Event]:
        """The bouts of a day, ``since`` days after the season's first."""
        at = {int((k + 0.5) * self._days / BOUTS) for k in range(BOUTS)}
        clock = datetime(day.year, day.month, day.day, 20, 30, tzinfo=UTC)
        for pupil in self._pupils if since in at else ():
            clock += timedelta(seconds=30)
            bout = uuid7(int(clock.timestamp() * 1000), self.rng)
            counts = self._counts(since / self._days)
            told = {"drill": _watched_for(pupil), **counts}
            yield _watched(pupil, bout, clock, day, counter, told)
        for pupil in self._pupils:
            for told in pupil.course.bouts(day) if pupil.course else ():
                clock += timedelta(seconds=30)
                bout = uuid7(int(clock.timestamp() * 1000), pupil.course.rng)
                yield _watched(pupil, bout, clock, day, counter, told)
        if since == int(PAIRED * self._days):
            yield from self._by_partners(clock, day, counter)

    def _by_partners(self, clock: datetime, day: date, counter: dict[str, int]) -> Iterator[Event]:
        """One set for each pupil of two coaches, on the first rung of a reading drill."""
        rng = np.random.default_rng(SEED + 1)
        for k, pupil in enumerate(one for one in self._pupils if one.second):
            clock += timedelta(seconds=30)
            drill, chart = next(each for each in pupil.drills if each[1].kind is Kind.SENSITIZATION)
            yield {
                **_watched(pupil, uuid7(int(clock.timestamp() * 1000), rng), clock, day, counter,
                           {"drill": drill}),
                "type": "partner_marked",
                "chart": chart.id,
                "place": 0,
                "card": f"DEM0{k}-0DEM0-000",
                "cues": "a" * len(TICKS[k % 2]),
                "ticks": TICKS[k % 2],
            }  # fmt: skip

    def _counts(self, gone: float) -> dict[str, int]:
        rng = self.rng
        met, shown = int(rng.integers(2, REAL + 1)), int(rng.integers(1, FEINTS + 1))
        right = AT_FIRST + (AT_LAST - AT_FIRST) * gone
        answered = int(rng.binomial(met, right))
        return {
            "met": met,
            "answered": answered,
            "shown": shown,
            "fallen": int(rng.binomial(shown, 1 - right)),
            "scored": int(rng.binomial(answered, 0.7)),
            "conceded": int(rng.binomial(met - answered, 0.6)),
        }


def _watched(
    pupil: Taught, bout: str, clock: datetime, day: date, counter: dict[str, int], told: Event
) -> Event:
    counter[pupil.device] += 1
    return {
        "id": bout,
        "type": "bout_watched",
        "device": pupil.device,
        "n": counter[pupil.device],
        "at": clock.isoformat(timespec="milliseconds"),
        "coach": pupil.coach,
        "lesson": bout,
        "fencer": pupil.id,
        "day": day.isoformat(),
        **told,
    }


def _watched_for(pupil: Taught) -> str:
    """The mixed drill, where there is one: in a bout both kinds come."""
    mixed = [drill for drill, chart in pupil.drills if chart.kind is Kind.DISCRIMINATION]
    return (mixed or [drill for drill, _ in pupil.drills])[0]
