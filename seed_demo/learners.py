"""Simulated fencers: invented people who learn by practice, tire and forget.

Nothing here is fitted to data. The models are three plausible stories about learning, told with
round numbers, so that a rule can be tried on people whose true chance of being right is known.
Everything works on groups: arrays over n fencers (a single fencer is a group of one). Two skills
stand side by side, ``READ`` (seeing a plain or subtle cue) and ``HEAT`` (staying calm).

================  ==========================  ==================  ==================  ============
trait             unit                        steady              insight             plateau
================  ==========================  ==================  ==================  ============
start             logits at the bottom rung   N(1.2, .5)          N(1.2, .3) *        N(1.2, .5)
step              logits harder a rung        N(.8, .12)          .5, .3 *            N(.8, .12)
gain              a cue on target             .016 logits, e^±.4  chance 1/30, e^±.4  .026, e^±.4
high              logits once understood      --                  N(4, .3)            --
fresh             share of a gain that fades  0                   0                   .4
forget            share lost a week away      2 %                 3 % *               4 %
lapse             chance of any slip          .5 to 2.5 %         same                same
fatigue           logits lost per ten cues    .03 to .15          same                same
early             share of reading slips that are early           .15 to .40          same
freeze            share of calm slips that are late               .05 to .25          same
tense             right answers that are tense, per unit of 1-p   .3 to 1.2           same
pace              seconds a cue               8 to 14             same                same
================  ==========================  ==================  ==================  ============

\\* insight: a rung is understood or not; ``start`` holds for the first rung not understood, each
rung beyond is .5 logits harder and each rung below the newest .3 easier; 3 % a week is the chance
that the newest rung is lost.

Sources of the stories, not of the numbers: change of performance in jumps, Gallistel, Fairhurst &
Balsam 2004 (PNAS 101:13124); fast gains that fade and slow ones that stay, Smith, Ghazizadeh &
Shadmehr 2006 (PLoS Biology 4:e179); lapses, Wichmann & Hill 2001 (Perception & Psychophysics
63:1293). Recalled, pages not re-read.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Ints = NDArray[np.intp]
Rows = TypeVar("Rows")

READ, HEAT = 0, 1
MODELS = ("steady", "insight", "plateau")
# A cue is on target if its chance, lapses aside, lies between these; others teach OFF_TARGET.
ON_TARGET = (0.60, 0.97)
OFF_TARGET = 0.25
FADE_WEEKLY = 0.25  # share of fresh gains left after a week
STALL_EVERY = 2.0  # plateau: logits gained between two plateaus
STALL_CUES = 60  # plateau: cues a plateau lasts
STALL_GAIN = 0.2  # plateau: share of the gain while it lasts
CARRY = 0.25  # insight: chance that the next rung is understood with this one
HARDER = 0.9  # insight: hazard factor a rung


@dataclass(frozen=True)
class Traits:
    """What does not change in a season. Arrays of shape (n,), or (2, n) for READ and HEAT."""

    start: Floats
    step: Floats
    gain: Floats
    high: Floats
    fresh: Floats
    forget: Floats
    lapse: Floats
    fatigue: Floats
    early: Floats
    freeze: Floats
    tense: Floats
    pace: Floats


@dataclass(frozen=True)
class State:
    """What changes.

    Attributes:
        skill: logits gained (insight: rungs understood), shape (2, n).
        fresh: logits gained that fade with days away, shape (2, n).
        stall: cues left of a plateau, shape (2, n).
        plateaus: plateaus met so far, shape (2, n).
        tired: cues given this lesson, shape (n,).
    """

    skill: Floats
    fresh: Floats
    stall: Floats
    plateaus: Floats
    tired: Floats


@dataclass(frozen=True)
class Group:
    """n fencers of one model."""

    model: str
    traits: Traits
    state: State


def draw(model: str, n: int, rng: np.random.Generator) -> Group:
    """Draw n fencers who have not yet begun.

    Args:
        model: one of MODELS.
        n: how many.
        rng: the only source of chance.
    """
    if model not in MODELS:
        raise ValueError(f"model: one of {', '.join(MODELS)}, not {model!r}")
    jumps = model == "insight"

    def spread(median: float) -> Floats:
        return np.asarray(median * np.exp(0.4 * rng.standard_normal(n)))

    traits = Traits(
        start=rng.normal(1.2, 0.3 if jumps else 0.5, (2, n)),
        step=np.clip(rng.normal(0.8, 0.12, (2, n)), 0.4, 1.3),
        gain=spread({"steady": 0.016, "insight": 1 / 30, "plateau": 0.026}[model]),
        high=rng.normal(4.0, 0.3, (2, n)),
        fresh=np.full(n, 0.4 if model == "plateau" else 0.0),
        forget=np.full(n, {"steady": 0.02, "insight": 0.03, "plateau": 0.04}[model]),
        lapse=rng.uniform(0.005, 0.025, n),
        fatigue=rng.uniform(0.03, 0.15, n),
        early=rng.uniform(0.15, 0.40, n),
        freeze=rng.uniform(0.05, 0.25, n),
        tense=rng.uniform(0.3, 1.2, n),
        pace=rng.uniform(8.0, 14.0, n),
    )
    zeros = np.zeros((2, n))
    return Group(model, traits, State(zeros, zeros, zeros, zeros, np.zeros(n)))


def select(rows: Rows, which: Ints | Bools) -> Rows:
    """The fencers ``which`` of Traits, a State or a Group."""
    if isinstance(rows, Group):
        return replace(rows, traits=select(rows.traits, which), state=select(rows.state, which))
    return type(rows)(*(getattr(rows, f.name)[..., which] for f in fields(rows)))  # type: ignore


def calm(group: Group, skill: int, rung: Ints) -> Floats:
    """Chance that one skill holds at a rung now, lapses aside, shape (n,).

    Args:
        group: the fencers.
        skill: READ or HEAT.
        rung: rung of each fencer on that ladder, shape (n,).
    """
    t, s = group.traits, group.state
    if group.model == "insight":
        level = s.skill[skill]
        z = np.where(
            rung < level,
            t.high[skill] + 0.3 * (level - 1 - rung),
            t.start[skill] - 0.5 * (rung - level),
        )
    else:
        z = t.start[skill] + s.skill[skill] + s.fresh[skill] - t.step[skill] * rung
    return np.asarray(1 / (1 + np.exp(t.fatigue / 10 * s.tired - z)))


def practise(group: Group, skill: int, rung: Ints, held: Floats, active: Bools, u: Floats) -> Group:
    """One cue's practice of one skill.

    Args:
        group: the fencers.
        skill: READ or HEAT.
        rung: rung of each fencer on that ladder.
        held: what ``calm`` gave for this cue.
        active: who was given the cue.
        u: uniform numbers in 0..1, used by the insight model.
    """
    t, s = group.traits, group.state
    skills = s.skill.copy()
    if group.model == "insight":
        level = s.skill[skill]
        hazard = t.gain * HARDER**rung * np.where(rung > level, OFF_TARGET, 1.0)
        seen = active & (rung >= level) & (u < hazard)
        two = seen & (rung == level) & (u < hazard * CARRY)
        skills[skill] += seen * 1.0 + two
        return replace(group, state=replace(s, skill=skills))
    on = (held >= ON_TARGET[0]) & (held <= ON_TARGET[1])
    gain = t.gain * np.where(on, 1.0, OFF_TARGET) * active
    if group.model == "steady":
        skills[skill] += gain
        return replace(group, state=replace(s, skill=skills))
    stall, plateaus, fresh = s.stall.copy(), s.plateaus.copy(), s.fresh.copy()
    stalled = stall[skill] > 0
    gain = gain * np.where(stalled, STALL_GAIN, 1.0)
    skills[skill] += gain * (1 - t.fresh)
    fresh[skill] += gain * t.fresh
    stall[skill] -= stalled & active
    new = active & ~stalled & (skills[skill] >= STALL_EVERY * (plateaus[skill] + 1))
    stall[skill] += new * STALL_CUES
    plateaus[skill] += new
    state = replace(s, skill=skills, fresh=fresh, stall=stall, plateaus=plateaus)
    return replace(group, state=state)


def tire(group: Group, active: Bools) -> Group:
    """One cue's fatigue for those who were given it."""
    return replace(group, state=replace(group.state, tired=group.state.tired + active))


def away(group: Group, days: Ints, u: Floats) -> Group:
    """Days without this drill: gains are partly forgotten, fatigue is gone.

    Args:
        group: the fencers.
        days: days since the last lesson, shape (n,); 0 changes nothing.
        u: uniform numbers in 0..1, used by the insight model, shape (n,).
    """
    t, s = group.traits, group.state
    weeks = days / 7
    kept = (1 - t.forget) ** weeks
    skill = s.skill - (s.skill > 0) * (u > kept) if group.model == "insight" else s.skill * kept
    tired = np.where(days > 0, 0.0, s.tired)
    state = replace(s, skill=skill, fresh=s.fresh * FADE_WEEKLY**weeks, tired=tired)
    return replace(group, state=state)
