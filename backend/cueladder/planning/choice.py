"""Choice of a drill: weighted reasons, each with its words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from cueladder.rules import Kind
from cueladder.rules.entry import goal_of
from cueladder.rules.said import Said, joined, later, say, say_n

from .goal import SETTINGS, Goal
from .outlook import Outlook

TURNS = (Kind.SENSITIZATION, Kind.DESENSITIZATION, Kind.DISCRIMINATION)
WORDS = {
    Kind.SENSITIZATION: later("it is time for a drill in reading the cue"),
    Kind.DESENSITIZATION: later("it is time for a drill in staying calm"),
    Kind.DISCRIMINATION: later("it is time for a drill in answer or leave"),
}
# Our own weights, no published source. A fortnight's rest weighs as much as a turn.
DUE, TURN, CALLED, FORTNIGHT, NEW, EARLY = 1.5, 1.0, 1.5, 1.0, -1.0, -3.0
# More than all others together: a competition does not wait.
GOAL = 10.0
LONG = 7


@dataclass(frozen=True)
class Choice:
    """A drill with its points and the reasons for it, strongest first."""

    outlook: Outlook
    points: float
    reasons: tuple[str, ...]

    @property
    def words(self) -> str:
        """The two strongest reasons."""
        return joined(self.reasons[:2], "; ") if self.reasons else say("it is in progress")


def days(outlook: Outlook) -> int | None:
    """Days since the drill was last worked, or None."""
    last = outlook.standing.walk.day
    if last is None:
        return None
    return max(0, (date.fromisoformat(outlook.day) - date.fromisoformat(last)).days)


def due(outlook: Outlook) -> str | None:
    """Why the re-check is due, in words, or None.

    It is due where the rung has not yet held on a later day, where it has held and its time has
    come again, and after a break so long that the lesson starts lower.
    """
    walk = outlook.walk
    if walk.check is None:
        return None
    if walk.check[0] > 0:
        lower = walk.check[0]
        return say_n(
            "not worked for %(days)s days, so it starts one rung lower",
            "not worked for %(days)s days, so it starts %(n)s rungs lower",
            lower,
            days=days(outlook),
        )
    _, rung = goal_of(outlook.standing.chart, walk)
    if rung is None:
        return say("after a longer break the rungs below are checked, too")
    if rung.holds == 0:
        return say("its rung was done once and has not yet held on a later day")
    return say("its rung has held before, and it is time to check it again")


def turn(outlooks: Sequence[Outlook]) -> Kind | None:
    """The kind that has waited longest; a kind never worked comes first, in the order of TURNS.

    Telling attack from decoy waits until a rung is met in each of the other kinds there are.
    """
    waited: dict[Kind, float] = {}
    for kind in TURNS:
        of_kind = [o for o in outlooks if o.standing.kind is kind]
        if of_kind and not (kind is Kind.DISCRIMINATION and too_early(outlooks)):
            waited[kind] = min((float("inf") if d is None else d) for d in map(days, of_kind))
    return max(waited, key=lambda k: waited[k]) if waited else None


def turn_after(kind: Kind, outlooks: Sequence[Outlook]) -> Kind | None:
    """The next of the other kinds there are, for the second drill of a lesson."""
    here = {o.standing.kind for o in outlooks} - {kind}
    if too_early(outlooks):
        here.discard(Kind.DISCRIMINATION)
    at = TURNS.index(kind)
    return next((k for k in TURNS[at + 1 :] + TURNS[:at] if k in here), None)


def too_early(outlooks: Sequence[Outlook]) -> bool:
    """Whether a mixed drill would come before a rung is met in each of the other kinds."""
    return any(
        all(o.walk.met is None for o in outlooks if o.standing.kind is kind)
        for kind in {o.standing.kind for o in outlooks} - {Kind.DISCRIMINATION}
    )


def choose(
    outlooks: Sequence[Outlook], everything: Sequence[Outlook], wanted: Kind | None
) -> list[Choice]:
    """The drills that can be worked, best first; equal ones by drill id.

    Args:
        outlooks: the drills to choose from.
        everything: all drills of the lesson.
        wanted: the kind whose turn it is.
    """
    calls = {
        o.standing.paired: o.standing.name
        for o in everything
        if o.standing.paired and o.standing.walk.why == "back_early"
    }
    early = too_early(everything)
    choices = [_weigh(o, wanted, calls.get(o.standing.drill), early) for o in outlooks]
    return sorted(choices, key=lambda c: (-c.points, c.outlook.standing.drill))


def _weigh(outlook: Outlook, wanted: Kind | None, caller: str | None, early: bool) -> Choice:
    rested, kind = days(outlook), outlook.standing.kind
    found: list[tuple[float, str]] = []
    goal = outlook.standing.goal
    if goal is not None and goal.calls(date.fromisoformat(outlook.day)):
        found.append((GOAL, _called_by(goal)))
    why = due(outlook)
    if why:
        found.append((DUE, why))
    if caller:
        found.append((CALLED, say("early answers in %(drill)s call for it", drill=caller)))
    if kind is wanted:
        found.append((TURN, say(WORDS[kind])))
    points = sum(weight for weight, _ in found)
    if rested is None:
        points += NEW
        found.append((NEW, say("it is new for this fencer")))
        if early and kind is Kind.DISCRIMINATION:
            points += EARLY
    else:
        waited = FORTNIGHT * min(rested, 28) / 14
        points += waited
        lower = outlook.walk.check is not None and outlook.walk.check[0] > 0
        if rested >= LONG and not lower:
            found.append((waited, say("not worked for %(days)s days", days=rested)))
    return Choice(outlook, points, tuple(w for _, w in sorted(found, key=lambda f: -f[0])))


def _called_by(goal: Goal) -> Said:
    return say(
        "for %(competition)s it has held in %(n)s of %(of)s settings",
        competition=goal.competition,
        n=goal.settings,
        of=SETTINGS,
    )
