"""Marks and what each one means in each kind of drill."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Kind(StrEnum):
    """What a drill trains."""

    SENSITIZATION = "sensitization"
    DESENSITIZATION = "desensitization"
    DISCRIMINATION = "discrimination"


class Given(StrEnum):
    """What the coach gave: an attack must be answered, a decoy left alone."""

    ATTACK = "attack"
    DECOY = "decoy"


class Mark(StrEnum):
    """How the answer was judged; ``correct+tense`` is right but not relaxed."""

    CORRECT = "correct"
    TENSE = "correct+tense"
    LATE = "late"
    EARLY = "early"
    DECOY = "decoy"


class Outcome(StrEnum):
    """What a mark does to a count. ``startle`` is a miss because the answer was early or big, or
    came to a decoy: so many running, the drill's number, step back whatever the rule."""

    PASS = "pass"
    HOLD = "hold"
    MISS = "miss"
    STARTLE = "startle"


class Move(StrEnum):
    """What to do next."""

    STAY = "stay"
    CLIMB = "climb"
    BACK = "back"
    REST = "rest"


OUTCOMES: tuple[Outcome, ...] = tuple(Outcome)


@dataclass(frozen=True)
class Meaning:
    """One cell of the meaning table.

    Attributes:
        counter: index of the counter the mark goes to.
        outcome: what it does to that counter.
        remedy: the ladder that gives way if the rule says back, or None for a mark that is no miss.
        say: the reason shown when the cue is simply repeated.
        back: the reason shown when the rule says back on this mark.
    """

    counter: int
    outcome: Outcome
    remedy: str | None
    say: str
    back: str | None = None


def counters(kind: Kind) -> tuple[str, ...]:
    """Names of the counters of a kind: discrimination counts attacks and decoys apart."""
    return ("attack", "decoy") if kind is Kind.DISCRIMINATION else ("all",)


def meanings(kind: Kind, gives: str) -> dict[Given, dict[Mark, Meaning]]:
    """The meaning table of a kind of drill.

    The kind of error chooses the remedy: *late* means the cue was not read (make it plainer),
    *early* or *reacted* means the startle won (cool it).

    Args:
        kind: the kind of drill.
        gives: ``attacks``, ``decoys`` or ``either``.
    """
    calm = kind is Kind.SENSITIZATION
    tense = (Outcome.PASS, "pass") if calm else (Outcome.HOLD, "hold")
    late = "heat" if kind is Kind.DESENSITIZATION else "read"
    early = "read" if calm else "heat"
    attack = {
        Mark.CORRECT: Meaning(0, Outcome.PASS, None, "pass"),
        Mark.TENSE: Meaning(0, tense[0], None, tense[1]),
        Mark.LATE: Meaning(0, Outcome.MISS, late, "late", f"back_{late}"),
        Mark.EARLY: Meaning(
            0, Outcome.STARTLE, early, "early", "back_early" if calm else "back_heat"
        ),
    }
    second = len(counters(kind)) - 1
    decoy = {
        Mark.CORRECT: Meaning(second, Outcome.PASS, None, "pass"),
        Mark.TENSE: Meaning(second, tense[0], None, tense[1]),
        Mark.DECOY: Meaning(second, Outcome.STARTLE, "heat", "reacted", "back_heat"),
    }
    table: dict[Given, dict[Mark, Meaning]] = {}
    if gives != "decoys":
        table[Given.ATTACK] = attack
    if gives != "attacks":
        table[Given.DECOY] = decoy
    return table
