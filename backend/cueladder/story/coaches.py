"""Coaches looked at: do two mark alike, and was the order of cues guessable?"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from ..evidence.agreement import compare_marks
from ..evidence.distributions import binomial_at_least
from ..evidence.guards import LEAST_TRIALS
from ..evidence.serial import SIGN, judge_order
from ..evidence.words import in_ten
from ..rules.said import Said, joined, say, say_n
from .plain import data

Pair = tuple[str, str]
# Orders of a coach that are judged, the newest.
ORDERS = 20
# A fair order shows one of three signs, each at this chance, at most so often.
BY_CHANCE = 3 * SIGN
FEWEST_ORDERS = 5
MARKED = {
    "correct": say("right"),
    "correct+tense": say("right but tense"),
    "late": say("late"),
    "early": say("early or too big"),
    "decoy": say("took the decoy"),
}


def agreement(
    sets: Iterable[tuple[Pair, Sequence[tuple[str, str]], int]], coaches: Mapping[str, str]
) -> list[dict[str, Any]]:
    """One row for each coach and observer, who was marked along most first.

    Args:
        sets: ((coach, observer), the marks of both for each cue both marked, how many marks of
            either found no partner) of each set.
        coaches: names by id.

    Returns:
        Rows ``{coach, observer, name, other, sets, uneven, ...}`` with the figures of
        `evidence.agreement`; kappa and the rest are None where nothing could be laid side by
        side. ``uneven`` counts marks of either that found no partner.
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
        words = say("No cue was marked by both, so nothing can be laid side by side.")
        return dict.fromkeys(("kappa", "low", "high", "observed")) | {"trials": 0, "words": words}
    ours, theirs = zip(*marked, strict=True)
    found = compare_marks(ours, theirs)
    told = data(found)
    words: str = found.words
    if found.trials >= LEAST_TRIALS:
        beyond = say("more than chance would")
        if found.low is None or found.low <= 0:
            beyond = say("not clearly more than chance")
        parts: list[str] = [
            say(
                "They gave the same mark %(often)s: %(beyond)s.",
                often=in_ten(found.observed),
                beyond=beyond,
            )
        ]
        if found.differ:
            parts.append(_differ(found.differ[0]))
        words = joined(parts)
    return {name: told[name] for name in ("kappa", "low", "high", "observed", "trials")} | {
        "words": words
    }


def _differ(most: tuple[str, str, int]) -> Said:
    first, second, times = most
    return say(
        "Most often one said “%(first)s” where the other said “%(second)s” (%(times)s×).",
        first=MARKED[first],
        second=MARKED[second],
        times=times,
    )


def orders(
    given: Mapping[str, Sequence[Sequence[bool]]], coaches: Mapping[str, str]
) -> list[dict[str, Any]]:
    """One row a coach: how many of the last orders of attacks and decoys were guessable.

    Args:
        given: for each coach the orders, newest first; True is an attack.
        coaches: names by id.

    Returns:
        Rows ``{coach, name, judged, guessable, short, p, words}``; ``short`` are orders of too few
        cues, ``p`` the chance of so many guessable ones, had all been fair (each then looks
        guessable at most 7.5 times in 100, by three signs at .025).
    """
    rows = []
    for coach, some in given.items():
        verdicts = [judge_order(order) for order in some[:ORDERS] if len(order) >= 3]
        judged = [each for each in verdicts if each.guessable is not None]
        guessable = [each for each in judged if each.guessable]
        p = binomial_at_least(len(guessable), len(judged), BY_CHANCE) if judged else 1.0
        rows.append(
            {
                "coach": coach,
                "name": coaches.get(coach, say("a coach who left")),
                "judged": len(judged),
                "guessable": len(guessable),
                "short": len(some[:ORDERS]) - len(judged),
                "p": p,
                "words": _order_words(len(judged), [each.words for each in guessable], p),
            }
        )
    return sorted(rows, key=lambda row: (row["p"], row["name"]))


def _order_words(judged: int, told: list[Said], p: float) -> Said:
    if judged == 0:
        return say("Too early to say: no order with cues enough yet.")
    said = say_n(
        "%(guessable)s of the last %(n)s order could be guessed",
        "%(guessable)s of the last %(n)s orders could be guessed",
        judged,
        guessable=len(told),
    )
    if judged < FEWEST_ORDERS:
        return say(
            "%(said)s; it takes at least %(least)s to call that a habit or not.",
            said=said,
            least=FEWEST_ORDERS,
        )
    if p >= 0.05:
        return say("%(said)s: no more than chance would show.", said=said)
    return say(
        "%(said)s: more than chance would show. The last of them: %(latest)s",
        said=said,
        latest=told[0],
    )
