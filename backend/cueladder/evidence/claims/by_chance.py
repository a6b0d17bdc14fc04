"""Did the lessons do it: what a plan by chance shows in bouts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from cueladder.evidence.before_after import before_after, tau_u
from cueladder.evidence.by_chance import Plan, Watched, begun_early, sides
from cueladder.evidence.guards import LEAST_TRIALS, share_words
from cueladder.evidence.order_fit import BEST, Fit, fits
from cueladder.evidence.words import asked_in_ten, in_ten
from cueladder.rules.said import Said, joined, listed, say, say_day, say_n, say_number, written

from .claim import Claim, Told, told

DID = Claim(
    "plan.did", "fencer", "finding",
    says="The lessons show in bouts: only 2 of the 120 orders that could have been drawn fit the "
    "bouts so well",
    needs="a plan by chance that has ended: 4 or 5 drills, or several plans together; 10 "
    "chances in bouts before the drills were begun, and 10 after",
    promise=0.05,
    false="the lessons change nothing, whatever else does",
    true="met 4 times in 10 before a drill is begun, 7 in 10 after; 5 drills, 4 chances a bout day",
    power=(20, 0.80),
)  # fmt: skip
OPEN = Claim(
    "plan.open", "fencer", "open",
    says="Whether the lessons did it cannot be told: 9 of 24 orders would fit the bouts as well",
    needs="a plan by chance that has ended",
)  # fmt: skip
RUNNING = Claim(
    "plan.running", "fencer", "open",
    says="Too early to say: the plan runs until 12 June",
    needs="a plan by chance",
)  # fmt: skip
OVERLAP = Claim(
    "plan.overlap", "fencer", "count",
    says="Of 42 pairs of a bout day before and one after, the later is the better in 38.5 "
    "(NAP .92, Tau-U .64)",
    needs="a bout day on either side of a drill's beginning",
)  # fmt: skip
CAN = Claim(
    "plan.can", "fencer", "count",
    says="If lessons take a drill from 4 to 7 times in 10, such a plan finds it 9 times in 10",
    needs="drills, bout days and chances as planned: simulated, for a steady fencer",
)  # fmt: skip
CANNOT = Claim(
    "plan.cannot", "fencer", "count",
    says="This plan alone cannot tell: the best of 6 orders comes once in 6 by luck",
    needs="a plan of three drills",
)  # fmt: skip
CLAIMS = (DID, OPEN, RUNNING, OVERLAP, CAN, CANNOT)

BEFORE, AFTER = 0.4, 0.7
"""The change a plan is held against beforehand: from 4 to 7 met in 10."""


def can_tell(drills: int, days: int, found: float | None = None) -> Told:
    """What a plan can show, said before it is drawn.

    Args:
        drills, days: of the plan.
        found: `order_fit.found_in` for `BEFORE` and `AFTER`, where chances a day are known.
    """
    orders = Plan("", ("",) * drills, (), date.min, date.min).orders
    if BEST * orders < 1:
        words = say(
            "This plan alone cannot tell whether the lessons did it: with %(drills)s drills there "
            "are %(orders)s orders, and the best of them is drawn once in %(orders)s by luck. Take "
            "a drill more, or draw plans for several fencers and look at them together.",
            drills=drills,
            orders=orders,
        )
        return told(CANNOT, words)
    words = say_n(
        "There are %(orders)s orders. The lessons are said to show in bouts only where the drawn "
        "one fits best of all.",
        "There are %(orders)s orders. The lessons are said to show in bouts only where the drawn "
        "one is among the %(n)s that fit best.",
        int(BEST * orders),
        orders=orders,
    )
    if found is None:
        return told(CAN, words)
    often = say(
        "If lessons take a drill from %(before)s to %(after)s, such a plan of %(days)s bout days "
        "finds it %(often)s. Less where lessons of one drill help another too.",
        before=asked_in_ten(BEFORE),
        after=asked_in_ten(AFTER),
        days=days,
        often=in_ten(found),
    )
    return told(CAN, joined([words, often]))


def did(
    plans: Sequence[tuple[Plan, Sequence[Watched]]],
    today: date,
    names: Mapping[str, str],
    begun: Mapping[str, date] | None = None,
) -> tuple[Told, Fit]:
    """Did the lessons do it? Said once, when the last of the plans has ended.

    Args:
        plans: one, or several to be taken together, each with what was watched in bouts.
        today: the day it is asked on.
        names: a name for each drill.
        begun: when each drill was really begun, where known (of one plan).

    Raises:
        ValueError: as `order_fit.fits`.
    """
    found = fits(plans)
    ends = max(plan.last for plan, _ in plans)
    counted = say(
        "In bouts before they were begun: %(before)s; after: %(after)s.",
        before=share_words(*found.before),
        after=share_words(*found.after),
    )
    if today <= ends:
        early = say("Too early to say: the plan runs until %(day)s.", day=say_day(ends))
        return told(RUNNING, joined([early, counted])), found
    kept = _not_kept([plan for plan, _ in plans], names, begun)
    if min(found.before[1], found.after[1]) < LEAST_TRIALS:
        words = say(
            "Whether the lessons did it cannot be told: the drills' actions have to come up at "
            "least %(least)s times in bouts before they are begun, and as often after.",
            least=LEAST_TRIALS,
        )
        return told(OPEN, joined([words, counted, kept])), found
    if found.p <= BEST:
        words = say_n(
            "The lessons show in bouts: of %(orders)s orders that could have been drawn, only the "
            "one that was drawn fits the bouts so well.",
            "The lessons show in bouts: of %(orders)s orders that could have been drawn, only "
            "%(n)s fit the bouts so well.",
            found.as_good,
            orders=found.orders,
        )
        return told(DID, joined([words, counted, kept]), 2), found
    words = say_n(
        "Whether the lessons did it cannot be told: only the order that was drawn fits the bouts "
        "so well, but of %(orders)s orders luck alone draws the best once in %(orders)s.",
        "Whether the lessons did it cannot be told: %(n)s of %(orders)s orders that could have "
        "been drawn fit the bouts as well.",
        found.as_good,
        orders=found.orders,
    )
    return told(OPEN, joined([words, counted, kept])), found


def overlap(plan: Plan, watched: Sequence[Watched], drill: str) -> Told | None:
    """How a drill's bout days after its beginning compare with those before, pair by pair.

    It holds no other drill beside it, so it says how much, never why. None without both.
    """
    before, after = (
        [each.met / each.chances for each in side if each.chances]
        for side in sides(plan, watched, drill)
    )
    if not before or not after:
        return None
    pairs = before_after(before, after)
    words = say_n(
        "Of %(n)s pair of a bout day before and one after, the later is the better in %(better)s "
        "(NAP %(nap)s, Tau-U %(tau_u)s).",
        "Of %(n)s pairs of a bout day before and one after, the later is the better in %(better)s "
        "(NAP %(nap)s, Tau-U %(tau_u)s).",
        pairs.pairs,
        better=say_number(pairs.better, int(pairs.better % 1 > 0)),
        nap=say_number(pairs.nap, 2),
        tau_u=say_number(tau_u(before, after), 2),
    )
    return told(OVERLAP, words)


def _not_kept(
    plans: Sequence[Plan], names: Mapping[str, str], begun: Mapping[str, date] | None
) -> Said:
    """What was not done as drawn. It is judged as drawn all the same, and finds less for it."""
    if begun is None:
        return joined([])
    early = [drill for plan in plans for drill in begun_early(plan, begun)]
    never = [drill for plan in plans for drill in plan.drills if drill not in begun]
    parts = []
    if early:
        parts.append(
            say_n(
                "%(drills)s was begun before its turn, so the plan can tell less; it is judged by "
                "the order that was drawn.",
                "%(drills)s were begun before their turn, so the plan can tell less; it is judged "
                "by the order that was drawn.",
                len(early),
                drills=_names(early, names),
            )
        )
    if never:
        parts.append(
            say_n(
                "%(drills)s was never begun, so the plan can tell less.",
                "%(drills)s were never begun, so the plan can tell less.",
                len(never),
                drills=_names(never, names),
            )
        )
    return joined(parts)


def _names(drills: Sequence[str], names: Mapping[str, str]) -> Said:
    return listed([written(names.get(drill, drill)) for drill in drills])
