"""Where a fencer stands: what the rule of the drill has found, and on how many cues that rests."""

from __future__ import annotations

from cueladder.evidence.words import cues
from cueladder.rules.said import joined, say

from .claim import Claim, Told, told

SECURE = Claim(
    "standing.secure", "fencer", "count",
    says="Secure up to rung 3: it held again on a later day (3 clean cues then, 46 in all)",
    needs="the rule met, and a re-check passed on a later day",
)  # fmt: skip
WORKING = Claim(
    "standing.working", "fencer", "count",
    says="Done once up to rung 3 (46 cues); another day will show whether it stays",
    needs="the rule met",
)  # fmt: skip
BEGUN = Claim(
    "standing.begun", "fencer", "count", says="Getting to know the first rung", needs="none"
)
BY_HAND = Claim(
    "standing.by_hand", "fencer", "count",
    says="The coach chose to begin at rung 3; no rung counts as done yet",
    needs="a rung set by hand or found, and none met",
)  # fmt: skip
AGAIN = Claim(
    "standing.again", "fencer", "count",
    says="Rung 3 was done before and is being practised again",
    needs="a re-check failed, or a step back",
)  # fmt: skip
CLAIMS = (SECURE, WORKING, BEGUN, BY_HAND, AGAIN)


def begun(worked: bool) -> Told:
    """Nothing is met yet."""
    if not worked:
        return told(BEGUN, say("Not begun yet."))
    return told(BEGUN, say("Getting to know the first rung; nothing needs to hold yet."))


def by_hand(rung: str) -> Told:
    """A start above the first rung, which is nothing met."""
    words = say("The coach chose to begin at %(rung)s; no rung counts as done yet.", rung=rung)
    return told(BY_HAND, words)


def again(rung: str, secure_up_to: str | None, was_secure: bool = False) -> Told:
    """A rung that was met and is in training again; ``rung`` opens the sentence.

    Args:
        rung: in words.
        secure_up_to: the highest rung that is secure, in words.
        was_secure: whether that is this one.
    """
    if was_secure:
        words = say("%(rung)s held on a later day and is being practised again.", rung=rung)
        return told(AGAIN, words)
    words = say("%(rung)s was done before and is being practised again.", rung=rung)
    return told(AGAIN, joined([words, _secure_words(secure_up_to)]))


def secure(rung: str, top: bool, checked: int, given: int | None) -> Told:
    """The rung held on a later day.

    Args:
        rung: its name.
        top: whether it is the last of the ladder.
        checked: clean cues that the re-check asks for.
        given: cues given at the rung in all; None where they are not known.
    """
    rests = say("%(checked)s clean cues then", checked=checked)
    if given:
        rests = say("%(checked)s clean cues then, %(given)s in all", checked=checked, given=given)
    if top:
        words = say(
            "The whole ladder is secure: it held again on a later day (%(rests)s). Well done.",
            rests=rests,
        )
    else:
        words = say(
            "Secure up to %(rung)s: it held again on a later day (%(rests)s).",
            rung=rung,
            rests=rests,
        )
    return told(SECURE, words)


def working(rung: str, top: bool, given: int | None, secure_up_to: str | None) -> Told:
    """The rule is met, and no later day has shown yet whether it has stayed."""
    if top:
        words = say("The top rung went well in a lesson; another day will show whether it stays.")
    else:
        words = say(
            "Done once up to %(rung)s; another day will show whether it stays.",
            rung=rung,
        )
    rests = say("%(cues)s there so far.", cues=cues(given)) if given else ""
    return told(WORKING, joined([words, rests, _secure_words(secure_up_to)]))


def _secure_words(rung: str | None) -> str:
    return "" if rung is None else say("Secure up to %(rung)s.", rung=rung)
