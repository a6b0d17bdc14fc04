"""Tables about coaches: agreement of two observers, and guessable orders of cues."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from ..evidence.agreement import compare_marks
from ..evidence.claims import order, said
from ..evidence.claims.alike import alike
from ..rules.said import say
from .observers import figures

Pair = tuple[str, str]
# At most so many orders of a coach are judged, newest first.
ORDERS = 20


def agreement(
    sets: Iterable[tuple[Pair, Sequence[tuple[str, str]], int]], coaches: Mapping[str, str]
) -> list[dict[str, Any]]:
    """One row for each coach and observer, the pair with most sets first.

    Args:
        sets: for each set ((coach, observer), both marks of each cue both marked, number of
            unpaired marks).
        coaches: names by id.

    Returns:
        Rows ``{coach, observer, name, other, sets, uneven, ...}`` with the figures of
        `evidence.agreement`, None where no cue was marked by both. ``uneven`` counts the
        unpaired marks.
    """
    found: dict[Pair, list[tuple[str, str]]] = defaultdict(list)
    alone: Counter[Pair] = Counter()
    count: Counter[Pair] = Counter()
    for pair, marked, left in sets:
        found[pair] += marked
        alone[pair] += left
        count[pair] += 1
    rows = []
    for pair, marked in found.items():
        coach, observer = pair
        row = {
            "coach": coach, "observer": observer,
            "name": coaches.get(coach, say("a coach who left")),
            "other": coaches.get(observer, say("a coach who left")),
            "sets": count[pair], "uneven": alone[pair],
        }  # fmt: skip
        rows.append({**row, **_compared(marked)})
    return sorted(rows, key=lambda row: (-row["trials"], row["name"], row["other"]))


def _compared(marked: list[tuple[str, str]]) -> dict[str, Any]:
    if not marked:
        words = say("No cue was marked by both, so there is nothing to compare.")
        return dict.fromkeys(("kappa", "low", "high", "observed")) | {"trials": 0, "words": words}
    ours, theirs = zip(*marked, strict=True)
    found = compare_marks(ours, theirs)
    told = figures(found)
    return {name: told[name] for name in ("kappa", "low", "high", "observed", "trials")} | said(
        alike(found)
    )


def orders(
    given: Mapping[str, Sequence[Sequence[bool]]], coaches: Mapping[str, str]
) -> list[dict[str, Any]]:
    """One row a coach: how many of the latest orders of attacks and decoys were guessable.

    Args:
        given: for each coach the orders, newest first; True is an attack.
        coaches: names by id.

    Returns:
        Rows ``{coach, name, judged, guessable, short, p, words}``; ``short`` are orders of too few
        cues, ``p`` the chance of so many guessable ones, had all been fair.
    """
    rows = []
    for coach, some in given.items():
        verdicts = [order.order_of(each) for each in some[:ORDERS] if len(each) >= 3]
        judged = [each for each, found in verdicts if found.guessable is not None]
        guessable = [each for each in judged if each.claim == order.GUESSABLE.name]
        habit, p = order.habit(len(judged), [each.words for each in guessable])
        rows.append(
            {
                "coach": coach,
                "name": coaches.get(coach, say("a coach who left")),
                "judged": len(judged),
                "guessable": len(guessable),
                "short": len(some[:ORDERS]) - len(judged),
                "p": p,
                **said(habit),
            }
        )
    return sorted(rows, key=lambda row: (row["p"], row["name"]))
