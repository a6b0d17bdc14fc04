"""The one thing that is said first."""

from __future__ import annotations

from collections.abc import Iterable

from .claim import Told


def first(some: Iterable[Told | None], otherwise: Told) -> Told:
    """What asks most for doing something; ``otherwise`` where nothing does."""
    acting = [one for one in some if one is not None and one.acts > 0]
    return max(acting, key=lambda one: one.acts, default=otherwise)
