"""What may leave a club: numbers of many fencers together, and nothing else.

No names, days, texts or ids. A group is left out where it rests on fewer than FEWEST_FENCERS, or
where one of them gave more than MOST_OF_ONE of it; counts are rounded to COUNTS and shares to
hundredths, so that who knows all other fencers of a group still learns nothing of the one left.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

FORMAT = 1
FEWEST_FENCERS, FEWEST_CUES, MOST_OF_ONE = 5, 200, 1 / 4
COUNTS = 100
FEWEST_CLUB = 10
"""Fencers under which a kind of drill is left out altogether."""


def numbers_of(figures: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    """The file, from the figures of `whole.learn`."""
    kinds = [_kind(one) for one in figures if one["fencers"] >= FEWEST_CLUB and one["known"]]
    return {"format": FORMAT, "kinds": kinds}


def _kind(one: Mapping[str, Any]) -> dict[str, Any]:
    groups = {
        name: [_group(row) for row in rows if _large(row)] for name, rows in one["beside"].items()
    }
    return {
        "kind": one["kind"],
        "marks": _count(one["marks"]),
        "setting": one["now"],
        "figures": {
            name: [_round(each[end]) for end in ("low", "middle", "high")]
            for name, each in one["known"].items()
            if each["told"]
        },
        "right": groups,
        "lessons_a_rung": _served(one, "lessons"),
        "early_climbs": _served(one, "early"),
    }


def _served(one: Mapping[str, Any], name: str) -> dict[str, list[float]]:
    """By setting; what coaches really did is a count of few climbs, and stays here."""
    return {
        setting: [_round(each) for each in served[name]]
        for setting, served in (one["settings"] or {}).items()
    }


def _large(row: Mapping[str, Any]) -> bool:
    enough = row["fencers"] >= FEWEST_FENCERS and row["cues"] >= FEWEST_CUES
    return bool(enough and row["most"] <= MOST_OF_ONE)


def _group(row: Mapping[str, Any]) -> list[float]:
    """[number of the group, cues, share right]."""
    return [row["group"], _count(row["cues"]), round(row["right"], 2)]


def _count(n: int) -> int:
    return COUNTS * round(n / COUNTS)


def _round(value: float) -> float:
    return float(f"{value:.2g}")
