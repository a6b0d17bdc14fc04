"""Other settings: when a rung that has held is asked for again, and what a partner may give."""

from __future__ import annotations

from dataclasses import dataclass

from .mark import Kind
from .settings import READ_HOLDS


def asks_elsewhere(heated: bool, holds: int, settings: int, givers: int) -> bool:
    """Whether another setting would tell more than the ones in which a rung has held.

    Args:
        heated: whether the drill has a heat ladder: startle comes back in new surroundings
            (renewal), so it asks after the first hold, until another coach has given the cues.
        holds: later days on which the rung has held.
        settings: in how many that differ for sure.
        givers: coaches who gave the cues there.
    """
    if givers > 1:
        return False
    return heated or (settings == 1 and holds >= READ_HOLDS)


@dataclass(frozen=True)
class Card:
    """What a partner's card may ask for.

    Attributes:
        heat: the heat rung, from 0, at which a mixed drill is given: what startles stays with a
            coach (common practice, no published source).
        cues: how many (house choice).
    """

    heat: int = 0
    cues: int = 10


def card_for(kind: Kind) -> Card | None:
    """The card of a drill, or None where it stays with a coach: all its cues startle."""
    return None if kind is Kind.DESENSITIZATION else Card()


def holds(right: int, asked: int) -> bool:
    """Whether a rung held in a partner's set: a whole card, all of it ticked right (house choice).

    Who ticks sees less than a coach.
    """
    return right == asked >= Card().cues
