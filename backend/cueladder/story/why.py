"""Why a wait may be long, by the kinds of slip, and what to try."""

from __future__ import annotations

from ..evidence.claims import wait as claims
from ..evidence.words import lessons
from ..rules import Chart, Kind, Mark
from ..rules.said import Said, joined, say, say_n
from .waits import Wait


def explained(chart: Chart, place: int, wait: Wait, paired: str | None) -> tuple[Said, Said]:
    """The kind of slip that stands out, if one does, and what to try.

    Args:
        chart: the drill's chart of today.
        place: where the wait is.
        wait: the cues there.
        paired: name of the drill to turn to when the startle wins, or None.
    """
    late, tense = wait.marks[Mark.LATE], wait.marks[Mark.TENSE]
    startled = wait.marks[Mark.EARLY] + wait.marks[Mark.DECOY]
    tense = tense if chart.ladders["heat"] is not None else 0
    kinds = {"late": late, "startled": startled, "tense": tense}
    slips = sum(kinds.values())
    if wait.rests >= 2 and wait.rests * 2 >= len(wait.lessons):
        return (
            say(
                "The set ran to its limit without a decision in %(lessons)s.",
                lessons=lessons(wait.rests),
            ),
            say("Try two or three short sets with a pause in between, earlier in the lesson."),
        )
    if slips < claims.FEWEST_SLIPS:
        few = say_n("only %(n)s slip", "only %(n)s slips", slips) if slips else say("no slip")
        return (
            say("Too early to say why: %(few)s there.", few=few),
            say("Give it another lesson, fresh and early."),
        )
    kind = claims.kind_of_slip(kinds)
    if kind is None:
        return (
            say(
                "No one kind of slip stands out: %(late)s late, %(startled)s startled, "
                "%(tense)s tense.",
                late=late,
                startled=startled,
                tense=tense,
            ),
            say(
                "Ask a second coach to watch and mark along, or set the drill aside for two "
                "lessons."
            ),
        )
    advice: list[str] = [_below(chart, place), HOW[kind, chart.kind is Kind.DESENSITIZATION]]
    if paired and (kind != "late" or chart.kind is Kind.DESENSITIZATION):
        advice.append(say("Or work on %(drill)s first.", drill=paired))
    reason = WHY[kind, chart.kind is Kind.DESENSITIZATION]
    return (
        say("%(why)s (%(some)s of %(all)s slips).", why=reason, some=kinds[kind], all=slips),
        joined(advice),
    )


def _below(chart: Chart, place: int) -> Said:
    if chart.places[place].lower is None:
        return say("This is the first rung, so make the cue easier still than it says.")
    return say("Go back to the rung below until it is easy again.")


_LATE = say("Mostly late: the cue is not read yet")
_HELD = say("Mostly late or no answer: the intensity holds the answer back")
_STARTLED = say(
    "Mostly startled, too big or on a cue to leave: the hand goes before the eyes have seen"
)
_TENSE = say("Mostly right but tense: it is read, and not yet easy")
# By the kind of slip, and whether the drill is one of staying calm.
WHY = {
    ("late", False): _LATE,
    ("late", True): _HELD,
    ("startled", False): _STARTLED,
    ("startled", True): _STARTLED,
    ("tense", False): _TENSE,
    ("tense", True): _TENSE,
}
_SLOWLY = say("Begin each set slowly.")
_LOOSE = say("End each set there, with a loose hand.")
HOW = {
    ("late", False): say("Name the first thing that moves."),
    ("late", True): say("Keep the sets shorter; ask how it feels from 0 to 10."),
    ("startled", False): _SLOWLY,
    ("startled", True): _SLOWLY,
    ("tense", False): _LOOSE,
    ("tense", True): _LOOSE,
}
