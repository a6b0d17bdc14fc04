"""One lesson of a simulated fencer on a drill's chart: cues given, answers, marks.

A drill is answered with one skill or two: sensitization asks for reading, desensitization for
calm, discrimination for both at an attack and for calm at a decoy.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

import numpy as np

from cueladder.evidence.learning.board import GIVEN, MARKS
from cueladder.rules import Chart, Given, Kind, Mark, Walk, enter, step

from .learners import HEAT, READ, Bools, Floats, Group, Ints, away, calm, draw, practise, tire

ATTACK, DECOY = range(2)
CORRECT, TENSE, LATE, EARLY, REACTED = range(5)
SKILLS = {
    Kind.SENSITIZATION: (READ,),
    Kind.DESENSITIZATION: (HEAT,),
    Kind.DISCRIMINATION: (READ, HEAT),
}
# Uniform numbers a cue needs: the cue, right or not, which slip or tense, practice of each skill.
DRAWS = 5
MOST_ALIKE = 3


@dataclass(frozen=True)
class Fencer:
    """One simulated fencer on one drill.

    Attributes:
        group: a group of one.
        day: ISO day of the last lesson, or None.
    """

    group: Group
    day: str | None = None


@dataclass(frozen=True)
class Cue:
    """One cue of a lesson.

    Attributes:
        given, mark: what the coach gave and tapped.
        place: place it was given at.
        chance: the fencer's true chance of being right at this cue.
        walk: the walk after it.
    """

    given: Given
    mark: Mark
    place: int
    chance: float
    walk: Walk


@dataclass(frozen=True)
class Taught:
    """A lesson given: its cues in order, and the walk and fencer after it."""

    cues: tuple[Cue, ...]
    walk: Walk
    fencer: Fencer


def newcomer(model: str, rng: np.random.Generator) -> Fencer:
    """A fencer who has not met the drill.

    Args:
        model: a learning model, see `learners.MODELS`.
        rng: the only source of chance.
    """
    return Fencer(draw(model, 1, rng))


def lesson(
    chart: Chart,
    walk: Walk,
    fencer: Fencer,
    day: str,
    *,
    cues: int | None = None,
    minutes: float | None = None,
    rng: np.random.Generator,
) -> Taught:
    """Give one lesson on one drill.

    Args:
        chart: the drill's chart.
        walk: the fencer's walk on it.
        fencer: the fencer on this drill.
        day: ISO day of the lesson.
        cues: most cues to give; or
        minutes: the time there is, at the fencer's own pace.
        rng: the only source of chance.

    The drill ends early when the walk says rest and its closing cues are done.
    """
    if (cues is None) == (minutes is None):
        raise ValueError("give either cues or minutes")
    if cues is None:
        cues = int((minutes or 0) * 60 / fencer.group.traits.pace[0])
    days = (date.fromisoformat(day) - date.fromisoformat(fencer.day)).days if fencer.day else 0
    group = away(fencer.group, np.array([max(0, days)]), rng.random(1))
    walk = enter(chart, walk, day)
    taught = tuple(_give(chart, walk, group, cues, rng))
    for cue, after in taught:
        walk, group = cue.walk, after
    return Taught(tuple(cue for cue, _ in taught), walk, Fencer(group, day))


def _give(
    chart: Chart, walk: Walk, group: Group, cues: int, rng: np.random.Generator
) -> Iterator[tuple[Cue, Group]]:
    everyone = np.ones(1, dtype=np.bool_)
    alike = np.zeros(1)
    for _ in range(cues):
        u = rng.random((DRAWS, 1))
        given, alike = give(chart, alike, u[0])
        place = chart.places[walk.place]
        rungs = (np.array([place.read or 0]), np.array([place.heat or 0]))
        held = holds(chart.kind, group, rungs)
        chance, mark = answer(chart.kind, group, given, held, u)
        group = learn(chart.kind, group, rungs, held, given, everyone, u)
        here = walk.place
        walk = step(chart, walk, GIVEN[given[0]], MARKS[mark[0]])
        yield Cue(GIVEN[given[0]], MARKS[mark[0]], here, float(chance[0]), walk), group
        if walk.why == "done":
            return


def give(chart: Chart, alike: Floats, u: Floats) -> tuple[Ints, Floats]:
    """What the coach gives next: a fair coin, but never more than three of a kind in a row.

    Args:
        chart: what can be given.
        alike: length of the current run of each fencer, + attacks, - decoys, shape (n,).
        u: uniform numbers, shape (n,).

    Returns:
        (ATTACK or DECOY of each, the new runs).
    """
    if len(chart.meaning) == 1:
        only = GIVEN.index(next(iter(chart.meaning)))
        return np.full(len(u), only), alike
    decoy = ((u < 0.5) & (alike > -MOST_ALIKE)) | (alike >= MOST_ALIKE)
    longer = np.where(decoy, np.minimum(alike, 0) - 1, np.maximum(alike, 0) + 1)
    return decoy.astype(np.intp), longer


def holds(kind: Kind, group: Group, rungs: tuple[Ints, Ints]) -> tuple[Floats, Floats]:
    """Chance that reading and calm hold at these rungs; a skill not asked for always holds."""
    sure = np.ones(len(rungs[0]))
    read = calm(group, READ, rungs[READ]) if READ in SKILLS[kind] else sure
    heat = calm(group, HEAT, rungs[HEAT]) if HEAT in SKILLS[kind] else sure
    return read, heat


def right(kind: Kind, group: Group, given: Ints, held: tuple[Floats, Floats]) -> Floats:
    """True chance of a right answer (tense or not), lapses included, shape (n,)."""
    read = np.where(given == ATTACK, held[READ], 1.0)
    return np.asarray((1 - group.traits.lapse) * read * held[HEAT])


def tensing(group: Group, chance: Floats) -> Floats:
    """Chance that a right answer is tense, shape (n,): the shakier, the tenser."""
    t = group.traits
    return np.asarray(np.minimum(0.6, t.tense * (1 - chance / (1 - t.lapse))))


def truth(chart: Chart, group: Group, held: tuple[Floats, Floats]) -> Floats:
    """True chance of a pass at a place now, shape (n,); the lowest of the cues a drill mixes.

    A tense right answer counts here as it counts in the drill: it is no pass where calm is
    trained.
    """
    n = len(held[0])
    chances = []
    for given in chart.meaning:
        chance = right(chart.kind, group, np.full(n, GIVEN.index(given)), held)
        if chart.kind is not Kind.SENSITIZATION:
            chance = chance * (1 - tensing(group, chance))
        chances.append(chance)
    return np.asarray(np.min(chances, axis=0))


def answer(
    kind: Kind, group: Group, given: Ints, held: tuple[Floats, Floats], u: Floats
) -> tuple[Floats, Ints]:
    """The answers of all fencers to one cue each.

    Args:
        kind: the drill's kind.
        group: the fencers.
        given: ATTACK or DECOY of each.
        held: from `holds`.
        u: uniform numbers, shape (DRAWS, n).

    Returns:
        (true chance of being right, mark as an index of MARKS).
    """
    t = group.traits
    chance = right(kind, group, given, held)
    good = u[1] < chance
    if kind is Kind.SENSITIZATION:
        early = t.early
    elif kind is Kind.DESENSITIZATION:
        early = 1 - t.freeze
    else:
        unread, startled = 1 - held[READ], 1 - held[HEAT]
        early = (startled + t.lapse / 2) / (unread + startled + t.lapse)
    slip = np.where(given == DECOY, REACTED, np.where(u[2] < early, EARLY, LATE))
    tense = u[2] < tensing(group, chance)
    return chance, np.where(good, np.where(tense, TENSE, CORRECT), slip)


def learn(
    kind: Kind,
    group: Group,
    rungs: tuple[Ints, Ints],
    held: tuple[Floats, Floats],
    given: Ints,
    active: Bools,
    u: Floats,
) -> Group:
    """Practice and fatigue of one cue; a decoy trains calm only."""
    for skill in SKILLS[kind]:
        asked = active & ((given == ATTACK) | (skill == HEAT))
        group = practise(group, skill, rungs[skill], held[skill], asked, u[3 + skill])
    return tire(group, active)
