"""Could the order of cues be guessed, in one set and as a habit of a coach?"""

from __future__ import annotations

from collections.abc import Sequence

from cueladder.evidence.distributions import binomial_at_least
from cueladder.evidence.guards import too_few_trials
from cueladder.evidence.season import LOOKS
from cueladder.evidence.serial import SIGN, Order, judge_order
from cueladder.evidence.words import in_ten
from cueladder.rules.said import Said, later, say, say_n, say_number

from .claim import Claim, Told, told

GUESSABLE = Claim(
    "order.guessable", "coach", "finding",
    says="Your order was guessable: what gave it away, and how often",
    needs="10 cues of a mixed drill in one lesson",
    promise=0.05,
    false="a coin; the order the app proposes",
    true="the other kind next, 9 times in 10",
    power=(40, 0.80),
)  # fmt: skip
NOTHING = Claim(
    "order.nothing", "coach", "open",
    says="Your order gave nothing away that we could find",
    needs=GUESSABLE.needs,
)  # fmt: skip
HABIT = Claim(
    "order.habit", "coach", "finding",
    says="3 of the last 20 orders could be guessed: more than chance would show",
    needs="5 orders of 10 cues",
    promise=0.05,
    false="a coin; the order the app proposes",
    true="the other kind next, 8 times in 10, in sets of 30",
    power=(600, 0.80),
)  # fmt: skip
ORDERS = Claim(
    "order.count", "coach", "open",
    says="1 of the last 20 orders could be guessed: no more than chance would show",
    needs="one order of 10 cues",
)  # fmt: skip
CLAIMS = (GUESSABLE, NOTHING, HABIT, ORDERS)

BY_CHANCE = 3 * SIGN
"""A fair order shows one of three signs, each at this chance, at most so often."""

FEWEST_ORDERS = 5

SIGNS = {
    "attacks": later("Your order was guessable: %(often)s of %(cues)s were cues to answer."),
    "decoys": later("Your order was guessable: %(often)s of %(cues)s were cues to leave."),
    "changes": later("Your order was guessable: next came the other kind, %(in_ten)s."),
    "stays": later("Your order was guessable: next came the same kind again, %(in_ten)s."),
    "foreseen": later(
        "Your order was guessable: from the last two cues %(often)s of %(cues)s could be foreseen."
    ),
}


def order_of(order: Sequence[bool]) -> tuple[Told, Order]:
    """Was this order of cues to answer (True) and to leave alone (False) guessable?

    Raises:
        ValueError: fewer than three cues.
    """
    found = judge_order(order)
    if found.sign is not None:
        words = say(
            SIGNS[found.sign],
            often=say_number(found.often, int(found.often % 1 > 0)),
            cues=found.cues,
            in_ten=in_ten(found.often / found.cues),
        )
        return told(GUESSABLE, words, 8), found
    few = too_few_trials(found.cues)
    return told(NOTHING, few or say("Your order gave nothing away that we could find.")), found


def habit(judged: int, latest: Sequence[Said]) -> tuple[Told, float]:
    """Is it a coach's habit? With the chance of so many guessable orders, had all been fair.

    Args:
        judged: orders judged.
        latest: what was said of the guessable ones, newest first.
    """
    p = binomial_at_least(len(latest), judged, BY_CHANCE) if judged else 1.0
    if judged == 0:
        return told(ORDERS, say("Too early to say: no order with enough cues yet.")), p
    counted = say_n(
        "%(guessable)s of the last %(n)s order could be guessed",
        "%(guessable)s of the last %(n)s orders could be guessed",
        judged,
        guessable=len(latest),
    )
    if judged < FEWEST_ORDERS:
        words = say(
            "%(said)s; it takes at least %(least)s to call that a habit or not.",
            said=counted,
            least=FEWEST_ORDERS,
        )
        return told(ORDERS, words), p
    if p >= 0.05 / LOOKS:
        return told(ORDERS, say("%(said)s: no more than chance would show.", said=counted)), p
    words = say(
        "%(said)s: more than chance would show. The last of them: %(latest)s",
        said=counted,
        latest=latest[0],
    )
    return told(HABIT, words, 8), p
