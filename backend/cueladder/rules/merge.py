"""Merging states that no future can tell apart."""

from __future__ import annotations

from collections.abc import Hashable, Sequence

from .errors import RuleError
from .said import say

# Looks at a state before a rule is given up as too large: well under a second of work.
MOST_LOOKS = 300_000


def merged(colours: Sequence[Hashable], links: Sequence[tuple[int, ...]]) -> list[int]:
    """Group states that look alike, and lead to states that do, whatever happens.

    Groups are split until none can be (Moore's partition refinement); a state that is alone in its
    group is not looked at again.

    Args:
        colours: how each state looks.
        links: for each state the states it leads to, -1 for the end.

    Returns:
        The group of each state, numbered in the order of first appearance.

    Raises:
        RuleError: it takes more than MOST_LOOKS.
    """
    group = number(colours)
    together: dict[int, list[int]] = {}
    for state, its in enumerate(group):
        together.setdefault(its, []).append(state)
    open_groups = [states for states in together.values() if len(states) > 1]
    last, looks, split = len(together), 0, True
    while split:
        split, still = False, []
        for states in open_groups:
            looks += len(states)
            if looks > MOST_LOOKS:
                raise too_large()
            kinds: dict[tuple[int, ...], list[int]] = {}
            for state in states:
                leads = tuple([group[n] if n >= 0 else -1 for n in links[state]])
                kinds.setdefault(leads, []).append(state)
            parts = list(kinds.values())
            for part in parts[1:]:
                for state in part:
                    group[state] = last
                last, split = last + 1, True
            still += [part for part in parts if len(part) > 1]
        open_groups = still
    return number(group)


def number(keys: Sequence[Hashable]) -> list[int]:
    """Number equal keys alike, in order of first appearance."""
    seen: dict[Hashable, int] = {}
    return [seen.setdefault(key, len(seen)) for key in keys]


def too_large() -> RuleError:
    """The refusal of a rule that no phone should carry."""
    return RuleError("rule", say("needs too large a chart: make its window smaller"))
