"""Ladders: rungs in order, two neighbours one grade apart on one scale."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from .errors import RuleError
from .said import Said, joined, say, say_n, written
from .scale import NAMES, NOISE_SCALES, Scale

LONGEST = 20


@dataclass(frozen=True)
class Ladder:
    """A read or heat ladder.

    Attributes:
        family: ``read`` or ``heat``.
        scales: the scales it uses, in the drill's order.
        rungs: for each rung the grade index on each of those scales.
    """

    family: str
    scales: tuple[Scale, ...]
    rungs: tuple[tuple[int, ...], ...]

    def __len__(self) -> int:
        return len(self.rungs)

    @classmethod
    def from_json(
        cls, family: str, rows: Sequence[Mapping[str, Any]], scales: Mapping[str, Scale]
    ) -> Ladder:
        """Read and check a ladder.

        Args:
            family: ``read`` or ``heat``; also the field's name in a drill.
            rows: one mapping a rung, scale name to grade index.
            scales: the drill's scales by name.

        Raises:
            RuleError: a rung lacks a scale, a grade does not exist, or two neighbours are not
                exactly one grade apart on exactly one scale (both rungs are named).
        """
        ladder = cls.unchecked(family, rows, scales)
        if len(rows) < 2:
            raise RuleError(family, _wrong_length(len(rows)))
        for i in range(1, len(rows)):
            fault = ladder.fault(i)
            if fault is not None:
                raise RuleError(f"{family}[{i}]", fault)
        return ladder

    @classmethod
    def unchecked(
        cls, family: str, rows: Sequence[Mapping[str, Any]], scales: Mapping[str, Scale]
    ) -> Ladder:
        """A ladder being written: every rung is one, but steps and length are not checked.

        Raises:
            RuleError: no scale, too many rungs, or a rung lacks a scale or names no grade.
        """
        used = tuple(s for s in scales.values() if s.family == family)
        if not used:
            raise RuleError(
                family,
                say("the ladder needs at least one %(family)s scale: add one", family=family),
            )
        if len(rows) > LONGEST:
            raise RuleError(family, _wrong_length(len(rows)))
        rungs = tuple(_rung(f"{family}[{i}]", row, used) for i, row in enumerate(rows))
        return cls(family, used, rungs)

    def label(self, i: int) -> str:
        """The rung in words, e.g. ``forearm · half speed``."""
        return " · ".join(s.grades[g] for s, g in zip(self.scales, self.rungs[i], strict=True))

    def grades(self, i: int) -> dict[str, str]:
        """The rung as scale name to grade words."""
        return {s.name: s.grades[g] for s, g in zip(self.scales, self.rungs[i], strict=True)}

    def change(self, old: int, new: int) -> Said:
        """What differs between two rungs, e.g. ``Size: wrist (was forearm)``."""
        changes = [
            say(
                "%(scale)s: %(now)s (was %(was)s)",
                scale=say(NAMES[s.name]),
                now=written(s.grades[b]),
                was=written(s.grades[a]),
            )
            for s, a, b in zip(self.scales, self.rungs[old], self.rungs[new], strict=True)
            if a != b
        ]
        return joined(changes, ", ")

    def noisy_from(self) -> int | None:
        """The first rung with more voice or stamp than the mildest, from 0; None without one."""
        noise = [k for k, scale in enumerate(self.scales) if scale.name in NOISE_SCALES]
        mildest = [self.rungs[0][k] for k in noise]
        for i, grades in enumerate(self.rungs):
            if [grades[k] for k in noise] != mildest:
                return i
        return None

    def fault(self, i: int) -> Said | None:
        """What is wrong with the step to rung ``i`` from the one before; None where it is right.

        Names both rungs and what differs between them.
        """
        steps = self._steps(i)
        if sorted(steps) == [0] * (len(steps) - 1) + [1]:
            return None
        changes = joined(
            [
                _goes(s, a, n)
                for s, a, n in zip(self.scales, self.rungs[i - 1], steps, strict=True)
                if n
            ],
            ", ",
        )
        if not changes:
            advice = say("nothing differs. Take one of the two out")
        elif min(steps) < 0:
            advice = say("%(changes)s. Put the easier rung first, or take one out", changes=changes)
        else:
            advice = say("%(changes)s. Put the missing rung between them", changes=changes)
        return say(
            "from rung %(old)s (%(was)s) to rung %(new)s (%(now)s) is not one grade up on one "
            "scale: %(advice)s",
            old=i,
            was=self.label(i - 1),
            new=i + 1,
            now=self.label(i),
            advice=advice,
        )

    def onward(self, i: int) -> list[Ladder]:
        """Every way to go on from rung ``i``: ladders of two rungs, the second one grade higher."""
        here = self.rungs[i]
        return [
            Ladder(self.family, self.scales, (here, (*here[:k], here[k] + 1, *here[k + 1 :])))
            for k, scale in enumerate(self.scales)
            if here[k] + 1 < len(scale.grades)
        ]

    def between(self, i: int) -> list[Ladder]:
        """Where rungs are missing before rung ``i``: the ways on that lead towards it."""
        steps = self._steps(i)
        if min(steps) < 0 or sum(steps) < 2:
            return []
        end = self.rungs[i]
        return [
            way
            for way in self.onward(i - 1)
            if all(a <= b for a, b in zip(way.rungs[1], end, strict=True))
        ]

    def _steps(self, i: int) -> list[int]:
        """Grades up on each scale from the rung before."""
        return [b - a for a, b in zip(self.rungs[i - 1], self.rungs[i], strict=True)]


def _goes(scale: Scale, grade: int, steps: int) -> Said:
    """How far a scale moves, e.g. ``Size goes 2 grades up (whole arm to wrist)``."""
    named = {
        "scale": say(NAMES[scale.name]),
        "was": scale.grades[grade],
        "now": scale.grades[grade + steps],
    }
    if steps > 0:
        return say_n(
            "%(scale)s goes %(n)s grade up (%(was)s to %(now)s)",
            "%(scale)s goes %(n)s grades up (%(was)s to %(now)s)",
            steps,
            **named,
        )
    return say_n(
        "%(scale)s goes %(n)s grade down (%(was)s to %(now)s)",
        "%(scale)s goes %(n)s grades down (%(was)s to %(now)s)",
        -steps,
        **named,
    )


def _wrong_length(n: int) -> Said:
    return say("a ladder has 2 to %(most)s rungs, not %(n)s", most=LONGEST, n=n)


def _rung(at: str, row: Mapping[str, Any], scales: tuple[Scale, ...]) -> tuple[int, ...]:
    if not isinstance(row, Mapping):
        raise RuleError(at, say("should be an object of scale to grade number"))
    unknown = set(row) - {s.name for s in scales}
    if unknown:
        raise RuleError(f"{at}.{sorted(unknown)[0]}", say("is no scale of this ladder"))
    grades = []
    for scale in scales:
        grade = row.get(scale.name)
        if not isinstance(grade, int) or isinstance(grade, bool):
            raise RuleError(f"{at}.{scale.name}", say("needs a grade number, counted from 0"))
        if not 0 <= grade < len(scale.grades):
            raise RuleError(
                f"{at}.{scale.name}",
                say(
                    "grades run from 0 to %(high)s, not %(grade)s",
                    high=len(scale.grades) - 1,
                    grade=grade,
                ),
            )
        grades.append(grade)
    return tuple(grades)
