"""Ladders: rungs in order, two neighbours one grade apart on one scale."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from .errors import RuleError
from .said import say
from .scale import Scale

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
        used = tuple(s for s in scales.values() if s.family == family)
        if not used:
            raise RuleError(
                family,
                say("the ladder needs at least one %(family)s scale under 'scales'", family=family),
            )
        if not 2 <= len(rows) <= LONGEST:
            raise RuleError(
                family,
                say("a ladder has 2 to %(most)s rungs, not %(n)s", most=LONGEST, n=len(rows)),
            )
        rungs = tuple(_rung(f"{family}[{i}]", row, used) for i, row in enumerate(rows))
        ladder = cls(family, used, rungs)
        for i in range(1, len(rungs)):
            ladder._check_step(i)
        return ladder

    def label(self, i: int) -> str:
        """The rung in words, e.g. ``forearm · half speed``."""
        return " · ".join(s.grades[g] for s, g in zip(self.scales, self.rungs[i], strict=True))

    def grades(self, i: int) -> dict[str, str]:
        """The rung as scale name to grade words."""
        return {s.name: s.grades[g] for s, g in zip(self.scales, self.rungs[i], strict=True)}

    def change(self, old: int, new: int) -> str:
        """What differs between two rungs, e.g. ``Size: wrist (was forearm)``."""
        return ", ".join(
            f"{s.name.capitalize()}: {s.grades[b]} (was {s.grades[a]})"
            for s, a, b in zip(self.scales, self.rungs[old], self.rungs[new], strict=True)
            if a != b
        )

    def _check_step(self, i: int) -> None:
        steps = [b - a for a, b in zip(self.rungs[i - 1], self.rungs[i], strict=True)]
        if sorted(steps) != [0] * (len(steps) - 1) + [1]:
            raise RuleError(
                f"{self.family}[{i}]",
                say(
                    "from rung %(old)s (%(was)s) to rung %(new)s (%(now)s) is not one grade up on "
                    "one scale: put the missing rung between them",
                    old=i,
                    was=self.label(i - 1),
                    new=i + 1,
                    now=self.label(i),
                ),
            )


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
