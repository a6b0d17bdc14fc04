"""A season of lessons of the invented club, as the events its phones would have sent."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from typing import Any

import numpy as np

from cueladder.rules import Chart, Kind, Mark, Walk, fresh

from .beside import Beside
from .chance import CUES, Course
from .ids import uuid7
from .lesson import Cue, Fencer, lesson, newcomer

Event = dict[str, Any]

WEEKS = 17
# Minutes of a lesson of twenty in which cues are given, and the most one drill has of them.
TAUGHT, MOST_CUES = 18.0, 36
# Days after which attack and decoy are mixed.
MIXED_FROM = 21
NOTES = (
    "Good eyes today, tired at the end.",
    "Hand drops before the parry; reminded once.",
    "Much calmer than last week.",
    "Short lesson, arrived late.",
    "Feet first, then the hand: it clicked.",
)


@dataclass
class Pupil:
    """A fencer of the season: on which drills, taught when.

    Attributes:
        evening: of the club's training week, counted back from the last one given: 0 to 6. Not a
            day of the calendar, so that the club stands the same on whatever day it is made.
        second: another coach, who gives the cues now and then.
        course: a plan by chance, of drills other than these.
    """

    id: str
    coach: str
    device: str
    model: str
    evening: int
    at: str
    drills: Sequence[tuple[str, Chart]]
    second: str = ""
    course: Course | None = None
    walks: dict[str, Walk] = field(default_factory=dict)
    skills: dict[str, Fencer] = field(default_factory=dict)


def season(
    pupils: Sequence[Pupil], today: date, rng: np.random.Generator, weeks: int = WEEKS
) -> Iterator[Event]:
    """All events of the weeks up to yesterday, in the order in which they happened.

    Args:
        pupils: who is taught; their walks and skills move on as lessons are given.
        today: the day after the last lesson.
        rng: the only source of chance.
        weeks: how many weeks before today the season began.
    """
    counter = {p.device: 0 for p in pupils}
    beside = Beside(pupils, weeks)
    for back in range(weeks * 7, 0, -1):
        day = today - timedelta(days=back)
        taught = [p for p in pupils if p.evening == (back - 1) % 7 and rng.random() < 0.9]
        for pupil in sorted(taught, key=lambda p: p.at):
            yield from _lesson(pupil, day, weeks * 7 - back, counter, rng, beside)
        yield from beside.bouts(day, weeks * 7 - back, counter)


def _lesson(
    pupil: Pupil,
    day: date,
    since: int,
    counter: dict[str, int],
    rng: np.random.Generator,
    beside: Beside,
) -> Iterator[Event]:
    hour, minute = map(int, pupil.at.split(":"))
    clock = datetime(day.year, day.month, day.day, hour, minute, tzinfo=UTC)
    lesson_id = uuid7(int(clock.timestamp() * 1000), rng)

    def event(
        kind: str, seconds: float, chance: np.random.Generator = rng, **payload: Any
    ) -> Event:
        nonlocal clock
        clock += timedelta(seconds=seconds)
        counter[pupil.device] += 1
        opening = kind == "lesson_opened"
        return {
            "id": lesson_id if opening else uuid7(int(clock.timestamp() * 1000), chance),
            "type": kind,
            "device": pupil.device,
            "n": counter[pupil.device],
            "at": clock.isoformat(timespec="milliseconds"),
            "coach": pupil.coach,
            "lesson": lesson_id,
            **payload,
        }

    yield event("lesson_opened", 0, fencer=pupil.id, day=day.isoformat())
    yield event("setting_told", 0, beside.rng, **beside.setting(pupil))
    comfort = int(rng.integers(4, 8))
    yield event("comfort_rated", 10, when="before", value=comfort)
    chosen = _chosen(pupil, since, rng)
    for drill, chart in chosen:
        skill = pupil.skills.get(drill) or newcomer(pupil.model, rng)
        walk = pupil.walks.get(drill) or fresh(chart)
        # the drills share the lesson alike, each at the fencer's own pace in it
        pace = float(skill.group.traits.pace[0])
        cues = min(MOST_CUES, int(TAUGHT * 60 / len(chosen) / pace))
        taught = lesson(chart, walk, skill, day.isoformat(), cues=cues, rng=rng)
        pupil.walks[drill], pupil.skills[drill] = taught.walk, taught.fencer
        for cue in taught.cues:
            seconds = max(5.0, float(rng.normal(pace, 1)))
            yield event("cue_marked", seconds, **_marked(drill, chart, cue, rng))
    yield from _of_course(pupil, day, event)
    if rng.random() < 0.25:
        yield event("note_written", 5, text=str(rng.choice(NOTES)), drill=None)
    after = min(10, comfort + int(rng.integers(0, 3)))
    yield event("comfort_rated", 5, when="after", value=after)
    yield event("lesson_closed", 5)


def _of_course(pupil: Pupil, day: date, event: Callable[..., Event]) -> Iterator[Event]:
    """Some cues of the pupil's plan by chance, if there is one."""
    course = pupil.course
    for drill, chart in course.given_on(day) if course else ():
        assert course is not None
        rng = course.rng
        skill = course.skills.get(drill) or newcomer(pupil.model, rng)
        walk = course.walks.get(drill) or fresh(chart)
        taught = lesson(chart, walk, skill, day.isoformat(), cues=CUES, rng=rng)
        course.walks[drill], course.skills[drill] = taught.walk, taught.fencer
        pace = float(skill.group.traits.pace[0])
        for cue in taught.cues:
            yield event("cue_marked", pace, rng, **_marked(drill, chart, cue, rng))


def _marked(drill: str, chart: Chart, cue: Cue, rng: np.random.Generator) -> Event:
    """What is noted of a cue."""
    tense, heated = cue.mark is Mark.TENSE, chart.kind is not Kind.SENSITIZATION
    return {
        "drill": drill,
        "chart": chart.id,
        "place": cue.place,
        "given": cue.given.value,
        "mark": "correct" if tense else cue.mark.value,
        "tense": tense,
        "loud": bool(rng.random() < 0.5) if heated else None,
        "wait": round(float(1 + rng.exponential(2)), 1) if heated else None,
    }


def _chosen(pupil: Pupil, since: int, rng: np.random.Generator) -> Sequence[tuple[str, Chart]]:
    """Two or three drills of a lesson; later one that mixes attack and decoy mostly among them."""
    mixed = [d for d in pupil.drills if d[1].kind is Kind.DISCRIMINATION]
    others = [d for d in pupil.drills if d[1].kind is not Kind.DISCRIMINATION]
    count = int(rng.integers(2, 4))
    last = mixed[:1] if since >= MIXED_FROM and rng.random() < 0.85 else []
    picked = sorted(rng.permutation(len(others))[: count - len(last)])
    return [*(others[i] for i in picked), *last]


def choose_drills(
    drills: Sequence[Mapping[str, Any]], weapon: str, turn: int
) -> list[Mapping[str, Any]]:
    """Four drills for a fencer of a weapon: two to read, one to stay calm, one that mixes.

    Args:
        drills: documents with an ``id`` and ``kind``.
        weapon: foil, epee or sabre.
        turn: moves on through the library, so that the club starts many different drills.
    """
    chosen = []
    for kind, count in (
        (Kind.SENSITIZATION, 2),
        (Kind.DESENSITIZATION, 1),
        (Kind.DISCRIMINATION, 1),
    ):
        fitting = [d for d in drills if d["kind"] == kind and weapon in d["weapon"]]
        chosen += [fitting[(turn * count + i) % len(fitting)] for i in range(count)]
    return chosen
