"""Places: one rung on each ladder of a drill, and the ways between them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

from .ladder import Ladder
from .settings import REENTRY


@dataclass(frozen=True)
class Place:
    """One place.

    Attributes:
        read: rung on the read ladder, or None where the drill has none.
        heat: rung on the heat ladder, or None.
        height: steps above the bottom, over both ladders.
        climb: place one step on, or None at the top.
        back: for each ladder the place one rung back on it, or None.
        lower: the place one step lower when a lesson starts lower, or None at the bottom.
        descent: this place, then one lower, and so on to the bottom.
        entry: for each row of the re-entry table, the index in ``descent`` to start at.
    """

    read: int | None
    heat: int | None
    height: int
    climb: int | None
    back: dict[str, int | None]
    lower: int | None
    descent: tuple[int, ...]
    entry: tuple[int, ...]


def lay_out(
    read: Ladder | None,
    heat: Ladder | None,
    reentry: tuple[tuple[int | None, int | str, float], ...] = REENTRY,
) -> tuple[Place, ...]:
    """All places of a drill, bottom first.

    With two ladders the one that is relatively lower climbs (tie: read), and a lower start takes
    from the one that is relatively higher (tie: heat).
    """
    reads, heats = (len(read) if read else 1), (len(heat) if heat else 1)

    def at(r: int, h: int) -> int:
        return r * heats + h

    places: list[Place] = []
    for r in range(reads):
        for h in range(heats):
            read_share = r / (reads - 1) if reads > 1 else 1.0
            heat_share = h / (heats - 1) if heats > 1 else 1.0
            read_next = r + 1 < reads and (read_share <= heat_share or h + 1 == heats)
            climb = at(r + 1, h) if read_next else at(r, h + 1) if h + 1 < heats else None
            heat_down = h > 0 and (heat_share >= read_share or r == 0)
            lower = at(r, h - 1) if heat_down else at(r - 1, h) if r > 0 else None
            descent = (at(r, h), *(places[lower].descent if lower is not None else ()))
            places.append(
                Place(
                    r if read else None,
                    h if heat else None,
                    r + h,
                    climb,
                    {
                        "read": at(r - 1, h) if r > 0 else None,
                        "heat": at(r, h - 1) if h > 0 else None,
                    },
                    lower,
                    descent,
                    tuple(accumulate((_entry(back, r + h) for _, back, _ in reentry), max)),
                )
            )
    return tuple(places)


def same_rung(old: Sequence[str], new: Sequence[str], rung: int) -> int:
    """The rung of a changed ladder that goes on where ``rung`` of the old one was.

    It is the rung with the same words. Where these are gone it is as many rungs above the next
    lower one that is left, and below the next higher one that is left.
    """
    left = [(i, new.index(label)) for i, label in enumerate(old) if label in new]
    below = max((pair for pair in left if pair[0] <= rung), default=(-1, -1))
    top = min((pair for pair in left if pair[0] > rung), default=(0, len(new)))[1] - 1
    return max(0, below[1], min(below[1] + rung - below[0], top))


def _entry(back: int | str, height: int) -> int:
    return height - height // 2 if back == "half" else min(height, int(back))
