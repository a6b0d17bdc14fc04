"""When a rung that has held is asked for again in another setting."""

from __future__ import annotations

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
