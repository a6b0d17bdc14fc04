"""Which setting would teach most about a stranger: the next cues that would narrow it furthest."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from cueladder.evidence.strangers import FIRST, KINDS, UNTOLD, Seen, Setting, fit, predict

HANDS = ("left", "right")
NEW = "(new)"
"""Stands for a coach or a place that has not been tried."""


@dataclass(frozen=True)
class Teaches:
    """What some cues in a setting are expected to teach.

    Attributes:
        setting: where; `NEW` for any coach or place not tried.
        saves: share of the variance of the chance asked about that they are expected to take away,
            up to 1; about 0 (by the approximation a little below) where they teach nothing.
    """

    setting: Setting
    saves: float


def usual(seen: Sequence[Seen]) -> Setting:
    """The setting with most cues, the first of them where several have as many."""
    return max(seen, key=lambda each: each.cues).setting


def changed(setting: Setting, kind: str, name: str | None) -> Setting:
    """The setting with another coach, hand or place.

    Raises:
        ValueError: an unknown kind.
    """
    if kind not in KINDS:
        raise ValueError(f"kind: choose one of {', '.join(KINDS)}, not {kind!r}")
    return Setting(**{each: name if each == kind else getattr(setting, each) for each in KINDS})


def candidates(seen: Sequence[Seen]) -> list[Setting]:
    """The usual setting, and each that differs from it in one thing, somebody new included."""
    base = usual(seen)
    found = [base]
    for kind in KINDS:
        tried = sorted({getattr(each.setting, kind) for each in seen} - {UNTOLD})
        names = HANDS if kind == "hand" else (*tried, NEW)
        found += [changed(base, kind, name) for name in names if name != getattr(base, kind)]
    return found


def teaches_most(seen: Sequence[Seen], asked: Setting, options: Sequence[Setting]) -> list[Teaches]:
    """Settings by what the first cues there are expected to teach about the one asked.

    For each number right that may come, the variance that would be left, weighted by its chance
    (pre-posterior analysis: Raiffa & Schlaifer 1961, Applied Statistical Decision Theory, from
    memory).

    Args:
        seen: cues by setting.
        asked: None for what is new, as `strangers.predict`.
        options: settings to choose from, every name given.

    Returns:
        Most first.

    Raises:
        ValueError: as `strangers.fit`.
    """
    fitted = fit(seen)
    now = predict(fitted, asked).variance
    found = []
    for option in options:
        left = sum(
            chance * predict(fit([*seen, Seen(option, right, FIRST)]), asked).variance
            for right, chance in enumerate(predict(fitted, option).counts)
        )
        found.append(Teaches(option, 1.0 - left / now))
    return sorted(found, key=lambda each: -each.saves)
